package label

import (
	"math"

	"linemap/internal/export/drawing"
)

// Point is a place on the paper.
type Point = drawing.Point

// Box is a rectangle that may be turned: its centre, half its sides, and its
// turn in radians counterclockwise.
type Box struct {
	Centre       Point
	HalfW, HalfH float64
	Turn         float64
}

// axes returns the unit vectors along the box's sides.
func (b Box) axes() (u, v Point) {
	if b.Turn == 0 {
		return Point{X: 1}, Point{Y: 1}
	}
	sin, cos := math.Sincos(b.Turn)
	return Point{X: cos, Y: -sin}, Point{X: sin, Y: cos}
}

// Bounds returns the upright box around b.
func (b Box) Bounds() drawing.Box {
	u, v := b.axes()
	w := math.Abs(u.X)*b.HalfW + math.Abs(v.X)*b.HalfH
	h := math.Abs(u.Y)*b.HalfW + math.Abs(v.Y)*b.HalfH
	return drawing.Box{X: b.Centre.X - w, Y: b.Centre.Y - h, W: 2 * w, H: 2 * h}
}

// Overlaps reports whether b and o share an area.
func (b Box) Overlaps(o Box) bool {
	if b.Turn == 0 && o.Turn == 0 {
		return math.Abs(b.Centre.X-o.Centre.X) < b.HalfW+o.HalfW &&
			math.Abs(b.Centre.Y-o.Centre.Y) < b.HalfH+o.HalfH
	}
	// Two convex figures are apart exactly when the side of one of them
	// separates them.
	bu, bv := b.axes()
	ou, ov := o.axes()
	d := o.Centre.Sub(b.Centre)
	for _, axis := range [4]Point{bu, bv, ou, ov} {
		reach := b.HalfW*math.Abs(dot(axis, bu)) + b.HalfH*math.Abs(dot(axis, bv)) +
			o.HalfW*math.Abs(dot(axis, ou)) + o.HalfH*math.Abs(dot(axis, ov))
		if math.Abs(dot(axis, d)) >= reach {
			return false
		}
	}
	return true
}

// cut returns how much of the segment from p to q, half wide to either side,
// lies in b, and whether it touches b at all. The corners count as square.
func (b Box) cut(p, q Point, half float64) (float64, bool) {
	p, q = p.Sub(b.Centre), q.Sub(b.Centre)
	if b.Turn != 0 {
		u, v := b.axes()
		p, q = Point{X: dot(p, u), Y: dot(p, v)}, Point{X: dot(q, u), Y: dot(q, v)}
	}
	limit := Point{X: b.HalfW + half, Y: b.HalfH + half}
	t0, t1, hit := within(p, q, Point{X: -limit.X, Y: -limit.Y}, limit)
	if !hit {
		return 0, false
	}
	return (t1 - t0) * math.Hypot(q.X-p.X, q.Y-p.Y), true
}

// within returns from where to where on its way, as shares of it, a segment is
// inside an upright box between two corners, and whether it is at all (Liang and
// Barsky). A point on a side is outside.
func within(p, q, low, high Point) (t0, t1 float64, ok bool) {
	t0, t1 = 0, 1
	if t0, t1, ok = between(p.X, q.X, low.X, high.X, t0, t1); !ok {
		return 0, 0, false
	}
	t0, t1, ok = between(p.Y, q.Y, low.Y, high.Y, t0, t1)
	return t0, t1, ok
}

// between narrows the shares of the way from a to b to those between low and
// high.
func between(a, b, low, high, t0, t1 float64) (float64, float64, bool) {
	d := b - a
	if d == 0 {
		return t0, t1, a > low && a < high
	}
	from, to := (low-a)/d, (high-a)/d
	t0, t1 = max(t0, min(from, to)), min(t1, max(from, to))
	return t0, t1, t0 < t1
}

// inside reports whether b lies wholly in the upright box o.
func (b Box) inside(o drawing.Box) bool { return encloses(o, b.Bounds()) }

// encloses reports whether an upright box lies wholly in another.
func encloses(o, b drawing.Box) bool {
	return b.X >= o.X && b.Y >= o.Y && b.Right() <= o.Right() && b.Bottom() <= o.Bottom()
}

// cross reports whether two segments cross.
func cross(a, b, c, d Point) bool {
	side := func(p, q, r Point) float64 { return (q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X) }
	return side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0
}

// distance returns how far two segments are apart.
func distance(a, b, c, d Point) float64 {
	if cross(a, b, c, d) {
		return 0
	}
	return min(toSegment(a, c, d), toSegment(b, c, d), toSegment(c, a, b), toSegment(d, a, b))
}

// toSegment returns the distance of p from the segment from a to b.
func toSegment(p, a, b Point) float64 {
	d := b.Sub(a)
	t := 0.0
	if long := dot(d, d); long > 0 {
		t = max(0, min(1, dot(p.Sub(a), d)/long))
	}
	near := a.Add(d.Scale(t))
	return math.Hypot(p.X-near.X, p.Y-near.Y)
}

func dot(a, b Point) float64 { return a.X*b.X + a.Y*b.Y }
