package raster

import (
	"math"

	"linemap/internal/export/drawing"
)

// line is a flattened part of an outline.
type line struct {
	points []point
	closed bool
}

// flatten returns an outline as straight lines in dots.
func (p *Painter) flatten(o drawing.Outline) []line {
	var all []line
	var now line
	end := func() {
		if len(now.points) > 0 {
			all = append(all, now)
		}
		now = line{}
	}
	at := func(q drawing.Point) point { return point{q.X * p.scale, q.Y * p.scale} }
	for _, s := range o {
		switch s.Op {
		case drawing.Move:
			end()
			now.points = append(now.points, at(s.P[0]))
		case drawing.Line:
			now.points = append(now.points, at(s.P[0]))
		case drawing.Curve:
			if n := len(now.points); n > 0 {
				now.points = bezier(now.points, now.points[n-1], at(s.P[0]), at(s.P[1]), at(s.P[2]))
			}
		case drawing.Close:
			now.closed = true
		}
	}
	end()
	return all
}

// bezier appends a cubic curve in as many steps as its size needs.
func bezier(to []point, a, b, c, d point) []point {
	rough := math.Hypot(b.x-a.x, b.y-a.y) + math.Hypot(c.x-b.x, c.y-b.y) + math.Hypot(d.x-c.x, d.y-c.y)
	n := 4
	if !math.IsNaN(rough) {
		n = int(max(4, min(64, math.Sqrt(rough)*1.6)))
	}
	for i := 1; i <= n; i++ {
		t := float64(i) / float64(n)
		u := 1 - t
		k0, k1, k2, k3 := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
		to = append(to, point{k0*a.x + k1*b.x + k2*c.x + k3*d.x, k0*a.y + k1*b.y + k2*c.y + k3*d.y})
	}
	return to
}

// thinnest is the least width of a line, in dots: a thinner one is a shimmer.
const thinnest = 0.8

// broadest is a half width, in dots, that no drawing has: there would be no end
// of the dashes from which such a line reaches onto the bitmap.
const broadest = 1e4

// stroke covers a line with the width of a pen.
func (p *Painter) stroke(l line, pen drawing.Pen) {
	half := max(thinnest, pen.Width*p.scale) / 2
	if !(half < broadest) {
		return
	}
	pts := l.points
	if l.closed && len(pts) > 1 {
		pts = append(pts[:len(pts):len(pts)], pts[0])
	}
	if len(pen.Dash) == 0 {
		p.solid(pts, half, pen.Round, l.closed)
		return
	}
	for _, dash := range p.dashes(pts, pen.Dash, half) {
		p.solid(dash, half, pen.Round, false)
	}
}

// solid covers a line: a box for each of its parts and a disc where it turns.
func (p *Painter) solid(pts []point, half float64, round, closed bool) {
	var last point // the way of the part before
	parts := 0
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		long := math.Hypot(b.x-a.x, b.y-a.y)
		if long == 0 || math.IsNaN(long) || math.IsInf(long, 0) {
			continue
		}
		dir := point{(b.x - a.x) / long, (b.y - a.y) / long}
		n := point{-dir.y * half, dir.x * half}
		p.ring([]point{{a.x + n.x, a.y + n.y}, {b.x + n.x, b.y + n.y}, {b.x - n.x, b.y - n.y}, {a.x - n.x, a.y - n.y}})
		if parts > 0 && gapes(last, dir, half) || parts == 0 && round {
			p.ring(disc(a, half))
		}
		last = dir
		parts++
	}
	if n := len(pts); n > 0 && (round || closed && half > fine) {
		p.ring(disc(pts[n-1], half))
	}
}

// fine is the width of a wedge, in dots, that is not missed at a corner.
const fine = 0.4

// gapes reports whether two parts of a line leave a wedge open where they meet.
func gapes(a, b point, half float64) bool {
	cross, dot := a.x*b.y-a.y*b.x, a.x*b.x+a.y*b.y
	return half*math.Abs(math.Atan2(cross, dot)) > fine
}

// disc returns a circle as a ring.
func disc(c point, r float64) []point {
	n := int(max(8, min(48, 4*math.Sqrt(r)+6)))
	ring := make([]point, n)
	for i := range ring {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		ring[i] = point{c.x + r*cos, c.y + r*sin}
	}
	return ring
}

// finest is the least period of dashes in dots: a shorter one makes a solid line.
const finest = 1.5

// dashes cuts a line into its dashes, as far as it may be seen. The pattern runs
// on around corners, and lies on the ground as it does whatever is seen.
func (p *Painter) dashes(pts []point, pattern []float64, half float64) [][]point {
	steps := make([]float64, 0, 2*len(pattern))
	period := 0.0
	for range 1 + len(pattern)%2 {
		for _, d := range pattern {
			steps = append(steps, max(0, d)*p.scale)
			period += steps[len(steps)-1]
		}
	}
	if !(period > finest) || math.IsInf(period, 0) {
		return [][]point{pts}
	}
	var all [][]point
	var now []point
	end := func() {
		if len(now) > 0 {
			all = append(all, now)
		}
		now = nil
	}
	way := 0.0
	for k := 1; k < len(pts); k++ {
		a, b := pts[k-1], pts[k]
		long := math.Hypot(b.x-a.x, b.y-a.y)
		if !(long > 0 && long < far) {
			continue
		}
		at, to := p.seen(a, b, long, half)
		if at > 0 || at >= to {
			end()
		}
		along := func(t float64) point { return point{a.x + (b.x-a.x)*t/long, a.y + (b.y-a.y)*t/long} }
		i, left := 0, math.Mod(way+at, period)
		for left > steps[i] {
			left -= steps[i]
			i = (i + 1) % len(steps)
		}
		left = steps[i] - left
		for at < to {
			step := min(left, to-at)
			if i%2 == 0 {
				if len(now) == 0 {
					now = append(now, along(at))
				}
				if step > 0 {
					now = append(now, along(at+step))
				}
			}
			at, left = at+step, left-step
			if left <= 0 {
				end()
				i = (i + 1) % len(steps)
				left = steps[i]
			}
		}
		if to < long {
			end()
		}
		way += long
	}
	end()
	return all
}

// seen returns from where to where on the way from a to b a line may touch the
// bitmap.
func (p *Painter) seen(a, b point, long, half float64) (from, to float64) {
	t0, t1 := 0.0, 1.0
	room := half + 2
	dx, dy := b.x-a.x, b.y-a.y
	x0, y0 := float64(p.clip.Min.X)-room, float64(p.clip.Min.Y)-room
	x1, y1 := float64(p.clip.Max.X)+room, float64(p.clip.Max.Y)+room
	for _, e := range [4][2]float64{{-dx, a.x - x0}, {dx, x1 - a.x}, {-dy, a.y - y0}, {dy, y1 - a.y}} {
		switch {
		case e[0] == 0 && e[1] < 0:
			return 0, 0
		case e[0] < 0:
			t0 = max(t0, e[1]/e[0])
		case e[0] > 0:
			t1 = min(t1, e[1]/e[0])
		}
	}
	if t0 >= t1 {
		return 0, 0
	}
	return t0 * long, t1 * long
}
