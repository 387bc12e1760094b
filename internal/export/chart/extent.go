package chart

import (
	"math"

	"linemap/internal/export/drawing"
)

// extent is an upright box on the ground, in metres.
type extent struct{ min, max drawing.Point }

// nowhere is the extent of nothing.
func nowhere() extent {
	far := math.Inf(1)
	return extent{drawing.Point{X: far, Y: far}, drawing.Point{X: -far, Y: -far}}
}

func (e *extent) add(p drawing.Point) {
	e.min = drawing.Point{X: min(e.min.X, p.X), Y: min(e.min.Y, p.Y)}
	e.max = drawing.Point{X: max(e.max.X, p.X), Y: max(e.max.Y, p.Y)}
}

// extentOf is the extent of a line.
func extentOf(line []drawing.Point) extent {
	e := nowhere()
	for _, p := range line {
		e.add(p)
	}
	return e
}

// join grows e to hold o.
func (e *extent) join(o extent) {
	e.add(o.min)
	e.add(o.max)
}

func (e *extent) size() (w, h float64) { return e.max.X - e.min.X, e.max.Y - e.min.Y }

func (e *extent) middle() drawing.Point { return e.min.Add(e.max).Scale(0.5) }

func (e *extent) corners() []drawing.Point {
	return []drawing.Point{e.min, {X: e.max.X, Y: e.min.Y}, e.max, {X: e.min.X, Y: e.max.Y}}
}

// holds reports whether p lies in e; the upper edges do not count, so that of
// extents side by side just one holds a place.
func (e *extent) holds(p drawing.Point) bool {
	return p.X >= e.min.X && p.X < e.max.X && p.Y >= e.min.Y && p.Y < e.max.Y
}

// clip returns the parts of a line inside e. A line of no length, a stack seen
// from above, stays whole or goes.
func (e *extent) clip(line []drawing.Point) [][]drawing.Point {
	if lengthOf(line) == 0 {
		if len(line) > 0 && e.holds(line[0]) {
			return [][]drawing.Point{line}
		}
		return nil
	}
	var all [][]drawing.Point
	open := false
	for i := 1; i < len(line); i++ {
		a, b, ok := e.cut(line[i-1], line[i])
		if !ok {
			open = false
			continue
		}
		if open {
			k := len(all) - 1
			all[k] = append(all[k], b)
		} else {
			all = append(all, []drawing.Point{a, b})
		}
		open = b == line[i]
	}
	return all
}

// meets reports whether two extents share a place.
func (e *extent) meets(o extent) bool {
	return o.min.X <= e.max.X && o.max.X >= e.min.X && o.min.Y <= e.max.Y && o.max.Y >= e.min.Y
}

// cut returns the part of a segment inside e.
func (e *extent) cut(a, b drawing.Point) (drawing.Point, drawing.Point, bool) {
	t0, t1, ok := e.share(a, b)
	if !ok {
		return a, b, false
	}
	d := b.Sub(a)
	from, to := a, b
	if t0 > 0 {
		from = a.Add(d.Scale(t0))
	}
	if t1 < 1 {
		to = a.Add(d.Scale(t1))
	}
	return from, to, true
}

// share returns from where to where on its way, as shares of it, a segment lies
// inside e (Liang and Barsky).
func (e *extent) share(a, b drawing.Point) (t0, t1 float64, ok bool) {
	t1 = 1
	d := b.Sub(a)
	for _, s := range [4][2]float64{
		{-d.X, a.X - e.min.X}, {d.X, e.max.X - a.X}, {-d.Y, a.Y - e.min.Y}, {d.Y, e.max.Y - a.Y},
	} {
		switch {
		case s[0] == 0 && s[1] < 0:
			return 0, 0, false
		case s[0] < 0:
			t0 = max(t0, s[1]/s[0])
		case s[0] > 0:
			t1 = min(t1, s[1]/s[0])
		}
	}
	return t0, t1, t0 < t1
}
