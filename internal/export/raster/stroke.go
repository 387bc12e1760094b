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
		n = int(math.Max(4, math.Min(64, math.Sqrt(rough)*1.6)))
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

// stroke adds a line with the width of a pen.
func (p *Painter) stroke(l line, pen drawing.Pen) {
	half := math.Max(thinnest, pen.Width*p.scale) / 2
	pts := l.points
	if l.closed && len(pts) > 1 {
		pts = append(append([]point{}, pts...), pts[0])
	}
	if len(pen.Dash) == 0 {
		p.solid(pts, half, pen.Round, l.closed)
		return
	}
	for _, dash := range p.dashes(pts, pen.Dash, half) {
		p.solid(dash, half, pen.Round, false)
	}
}

// solid adds a line: a box for each of its parts and a disc for each corner.
func (p *Painter) solid(pts []point, half float64, round, closed bool) {
	if len(pts) == 1 || len(pts) == 2 && pts[0] == pts[1] {
		if round {
			p.ring(disc(pts[0], half))
		}
		return
	}
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		long := math.Hypot(b.x-a.x, b.y-a.y)
		if long == 0 || math.IsNaN(long) {
			continue
		}
		nx, ny := -(b.y-a.y)/long*half, (b.x-a.x)/long*half
		p.ring([]point{{a.x + nx, a.y + ny}, {b.x + nx, b.y + ny}, {b.x - nx, b.y - ny}, {a.x - nx, a.y - ny}})
	}
	const fine = 0.8 // under this half width a corner needs no disc
	for i, a := range pts {
		end := i == 0 || i == len(pts)-1
		if (end && (round || closed) || !end) && half > fine {
			p.ring(disc(a, half))
		}
	}
}

// disc returns a circle as a ring.
func disc(c point, r float64) []point {
	n := int(math.Max(8, math.Min(48, 4*math.Sqrt(r)+6)))
	ring := make([]point, n)
	for i := range ring {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		ring[i] = point{c.x + r*cos, c.y + r*sin}
	}
	return ring
}

// mostDashes bounds the dashes of one line: a line may run on for miles beyond
// the bitmap.
const mostDashes = 4000

// dashes cuts a line into its dashes, as far as it may be seen.
func (p *Painter) dashes(pts []point, pattern []float64, half float64) [][]point {
	period := 0.0
	for _, d := range pattern {
		period += math.Max(0, d) * p.scale
	}
	if period <= 0.5 || math.IsNaN(period) {
		return [][]point{pts}
	}
	var all [][]point
	var now []point
	i, left, on := 0, pattern[0]*p.scale, true
	for k := 1; k < len(pts); k++ {
		a, b := pts[k-1], pts[k]
		long := math.Hypot(b.x-a.x, b.y-a.y)
		if long == 0 || math.IsNaN(long) || math.IsInf(long, 0) {
			continue
		}
		at, end := p.seen(a, b, long, half)
		if skip := math.Floor(at / period); skip > 0 && at > 0 { // whole patterns change nothing
			now = nil
			at = skip * period
		}
		if at >= end {
			continue
		}
		along := func(t float64) point { return point{a.x + (b.x-a.x)*t/long, a.y + (b.y-a.y)*t/long} }
		if on && len(now) == 0 {
			now = append(now, along(at))
		}
		for at < end && len(all) < mostDashes {
			if left > end-at {
				left -= end - at
				if on {
					now = append(now, along(end))
				}
				break
			}
			at += left
			if on {
				all = append(all, append(now, along(at)))
				now = nil
			} else {
				now = []point{along(at)}
			}
			on = !on
			i = (i + 1) % len(pattern)
			left = pattern[i] * p.scale
		}
	}
	if on && len(now) > 1 {
		all = append(all, now)
	}
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
			t0 = math.Max(t0, e[1]/e[0])
		case e[0] > 0:
			t1 = math.Min(t1, e[1]/e[0])
		}
	}
	if t0 >= t1 {
		return 0, 0
	}
	return t0 * long, t1 * long
}
