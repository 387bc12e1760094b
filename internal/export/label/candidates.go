package label

import (
	"math"

	"linemap/internal/export/drawing"
)

// gap is the air between a label and what it names, in millimetres.
const gap = 0.7

// Around returns places for a box of w by h about a round mark of radius r:
// beside it first, then farther out with a leader, up to reach millimetres
// away.
func Around(at Point, r, w, h, reach float64) []Candidate {
	all := Near(at, r, w, h)
	const ways = 16
	for d := 3.0; d <= reach; d *= 1.35 {
		for k := range ways {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / ways)
			dir := Point{X: cos, Y: -sin}
			c := Candidate{Cost: 4 + 0.6*d, Align: aside(math.Round(2 * cos))}
			c.Box = Box{
				Centre: at.Add(dir.Scale(r + d)).Add(Point{X: cos * w / 2, Y: -sin * h / 2}),
				HalfW:  w / 2, HalfH: h / 2,
			}
			c.Leader = leader(at, r, c.Box)
			all = append(all, c)
		}
	}
	return all
}

// Near returns the places of [Around] that need no leader.
func Near(at Point, r, w, h float64) []Candidate {
	all := make([]Candidate, 0, 12)
	near := []struct {
		dx, dy, cost float64
	}{
		{1, 0, 0}, {1, -1, 0.4}, {-1, 0, 0.8}, {0, -1, 1}, {1, 1, 0.6}, {0, 1, 1.2}, {-1, -1, 1.2}, {-1, 1, 1.4},
	}
	for _, n := range near {
		d := r + gap
		if n.dx != 0 && n.dy != 0 {
			d = r*math.Sqrt2/2 + gap
		}
		c := Candidate{Cost: n.cost, Align: aside(n.dx)}
		c.Box = Box{Centre: at.Add(Point{X: n.dx * (d + w/2), Y: n.dy * (d + h/2)}), HalfW: w / 2, HalfH: h / 2}
		all = append(all, c)
		if n.dy == 0 { // slide along the side
			for _, s := range []float64{-0.5, 0.5} {
				c.Box.Centre.Y = at.Y + s*(h+r)
				c.Cost = n.cost + 0.5
				all = append(all, c)
			}
		}
	}
	return all
}

// On returns places for a box of w by h that sits on a line, with its middle
// first, then beside it with a leader. A box that would hide most of the line
// goes beside it.
func On(line []Point, w, h, reach float64) []Candidate {
	var all []Candidate
	on, off := 0.0, 12.0
	if length(line) < 2.2*w {
		on, off = 12, 2
	}
	for _, f := range shares {
		p, dir := Along(line, f)
		away := 6 * math.Abs(f-0.5)
		all = append(all, atop(p, w, h, on+away))
		across := Point{X: -dir.Y, Y: dir.X}
		for d := 2.6; d <= reach; d *= 1.4 {
			for _, side := range []float64{1, -1} {
				c := Candidate{Align: drawing.Centre, Cost: off + away + 0.6*d}
				c.Box = Box{Centre: p.Add(across.Scale(side * (d + h/2))), HalfW: w / 2, HalfH: h / 2}
				c.Leader = leader(p, 0, c.Box)
				all = append(all, c)
			}
		}
	}
	return all
}

// shares of a line's length are where a box may sit on it, the best first.
var shares = []float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88}

// Atop returns the places of [On] that need no leader, whatever they hide.
func Atop(line []Point, w, h float64) []Candidate {
	all := make([]Candidate, 0, len(shares))
	for _, f := range shares {
		p, _ := Along(line, f)
		all = append(all, atop(p, w, h, 6*math.Abs(f-0.5)))
	}
	return all
}

func atop(p Point, w, h, cost float64) Candidate {
	return Candidate{Box: Box{Centre: p, HalfW: w / 2, HalfH: h / 2}, Align: drawing.Centre, Cost: cost}
}

// Beside returns places for a box of w by h that runs along a line, off it by
// clear millimetres, on the straights that are long enough for it.
func Beside(line []Point, w, h, clear float64) []Candidate {
	var all []Candidate
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		long := math.Hypot(b.X-a.X, b.Y-a.Y)
		if long < w {
			continue
		}
		dir := b.Sub(a).Scale(1 / long)
		if dir.X < -1e-9 || (math.Abs(dir.X) <= 1e-9 && dir.Y > 0) { // read from below or from the right
			dir = dir.Scale(-1)
		}
		turn := math.Atan2(-dir.Y, dir.X)
		up := Point{X: dir.Y, Y: -dir.X}
		for _, f := range []float64{0.5, 0.35, 0.65, 0.2, 0.8} {
			f = max(w/2/long, min(1-w/2/long, f))
			mid := a.Add(b.Sub(a).Scale(f))
			for n, side := range []float64{1, -1} {
				all = append(all, Candidate{
					Box:   Box{Centre: mid.Add(up.Scale(side * (clear + h/2))), HalfW: w / 2, HalfH: h / 2, Turn: turn},
					Align: drawing.Centre, Cost: 1 + 3*math.Abs(f-0.5) + 0.3*float64(n) - 0.01*long,
				})
			}
		}
	}
	return all
}

// Inside returns places for a box of w by h in an upright one: at its top left
// corner first, then along its upper edge and its lower one.
func Inside(part drawing.Box, w, h float64) []Candidate {
	const across = 5
	var all []Candidate
	for edge, y := range []float64{part.Y + h/2, max(part.Y+h/2, part.Bottom()-h/2)} {
		for k := range across {
			x := part.X + w/2 + float64(k)/(across-1)*max(0, part.W-w)
			all = append(all, Candidate{
				Box:   Box{Centre: Point{X: x, Y: y}, HalfW: w / 2, HalfH: h / 2},
				Align: drawing.Left, Cost: 2*float64(k) + 12*float64(edge),
			})
		}
	}
	return all
}

// Along returns the place at share f of a line's length, and its direction
// there. The line has at least one point.
func Along(line []Point, f float64) (Point, Point) {
	left := f * length(line)
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		long := math.Hypot(b.X-a.X, b.Y-a.Y)
		if long > 0 && (left <= long || i == len(line)-1) {
			dir := b.Sub(a).Scale(1 / long)
			return a.Add(dir.Scale(min(left, long))), dir
		}
		left -= long
	}
	return line[0], Point{X: 1}
}

func length(line []Point) float64 {
	sum := 0.0
	for i := 1; i < len(line); i++ {
		sum += math.Hypot(line[i].X-line[i-1].X, line[i].Y-line[i-1].Y)
	}
	return sum
}

// leader joins a mark of radius r to the nearest point of a box.
func leader(at Point, r float64, b Box) []Point {
	r0 := b.Bounds()
	end := Point{X: max(r0.X, min(r0.Right(), at.X)), Y: max(r0.Y, min(r0.Bottom(), at.Y))}
	long := math.Hypot(end.X-at.X, end.Y-at.Y)
	if long <= r {
		return nil
	}
	return []Point{at.Add(end.Sub(at).Scale(r / long)), end}
}

// aside aligns a label's lines to the side on which its mark is.
func aside(dx float64) drawing.Align {
	switch {
	case dx > 0:
		return drawing.Left
	case dx < 0:
		return drawing.Right
	}
	return drawing.Centre
}
