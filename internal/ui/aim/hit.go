package aim

import (
	"cmp"
	"math"
	"slices"

	"linemap/internal/network"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

// Hit is a thing under the pointer.
type Hit struct {
	Ref edit.Ref
	// At is the place of it that is nearest to the pointer, Along how far along
	// a pipe or a lay from its first end, as drawn on the plan, and Leg how many
	// of its corners lie before that: of an area, the corner before. Corner is
	// the index of the corner that was hit, in its Via or the outline of an area,
	// -1 for none.
	At     network.Point
	Along  unit.Length
	Leg    int
	Corner int
	// Inside says that the place lies in an area, away from its edge.
	Inside bool
}

// found is a leg near the pointer.
type found struct {
	leg  leg
	rank rank
	at   network.Point
	away unit.Length
}

// before orders what was found: what is on top first, the nearest of equals.
func (f found) before(g found) bool { return f.compare(g) < 0 }

func (f found) compare(g found) int {
	return cmp.Or(cmp.Compare(f.rank, g.rank), cmp.Compare(f.away, g.away),
		cmp.Compare(f.leg.thing, g.leg.thing), cmp.Compare(f.leg.i, g.leg.i))
}

// At returns the thing at a place of a level, within a distance: nodes before
// spots, water points and notes, those before pipes and lays, those before
// the edges of areas and those before underlays; the nearest of equals; with
// nothing there, the smallest area around the place. A nil filter takes every
// thing.
func (x *Index) At(p network.Point, level string, within unit.Length, filter func(edit.Ref) bool) (Hit, bool) {
	f, ok := x.find(p, level, within, filter)
	switch {
	case ok:
		return x.hit(f, p, within), true
	case within >= 0:
		return x.inside(p, filter)
	}
	return Hit{}, false
}

func (x *Index) find(p network.Point, level string, within unit.Length, filter func(edit.Ref) bool) (best found, ok bool) {
	x.near(p, level, within, func(f found) {
		if (!ok || f.before(best)) && (filter == nil || filter(x.things[f.leg.thing].ref)) {
			best, ok = f, true
		}
	})
	return best, ok
}

// Under returns everything at a place of a level, within a distance, in the
// order of [Index.At].
func (x *Index) Under(p network.Point, level string, within unit.Length) []Hit {
	best := map[int32]found{}
	x.near(p, level, within, func(f found) {
		if b, seen := best[f.leg.thing]; !seen || f.before(b) {
			best[f.leg.thing] = f
		}
	})
	all := make([]found, 0, len(best))
	for _, f := range best {
		all = append(all, f)
	}
	slices.SortFunc(all, found.compare)
	hits := make([]Hit, len(all))
	for i, f := range all {
		hits[i] = x.hit(f, p, within)
	}
	if !(within >= 0) {
		return hits
	}
	return x.withAreas(hits, p)
}

// near finds the legs of a level within a distance of a place.
func (x *Index) near(p network.Point, level string, within unit.Length, do func(found)) {
	if !finite(p) || !(within >= 0) {
		return
	}
	x.tree.visit(around(p, p).grown(within.Metres()), func(i int) {
		l := x.legs[i]
		t := &x.things[l.thing]
		if !t.on(level) {
			return
		}
		a, b := t.leg(l.i)
		foot := nearest(p, a, b)
		if away := foot.Distance(p); away <= within {
			do(found{l, t.rank, foot, away})
		}
	})
}

// leg returns the ends of a straight part; they are one where the thing is a
// point.
func (t *thing) leg(i int32) (a, b network.Point) {
	return t.line[i], t.line[min(int(i)+1, len(t.line)-1)]
}

func (x *Index) hit(f found, p network.Point, within unit.Length) Hit {
	t := &x.things[f.leg.thing]
	h := Hit{Ref: t.ref, At: f.at, Corner: -1, Leg: int(f.leg.i)}
	switch t.rank {
	case lines:
	case edges:
		h.At = tidy(f.at)
		h.Corner = cornerNear(p, t.line[:len(t.line)-1], within)
		return h
	default:
		return h
	}
	h.At = tidy(f.at)
	for i := range h.Leg {
		h.Along += t.line[i].Distance(t.line[i+1])
	}
	h.Along += t.line[h.Leg].Distance(f.at)
	h.Corner = cornerNear(p, t.line[1:len(t.line)-1], within)
	return h
}

// cornerNear is the index of the corner nearest to a place and within a
// distance, -1 for none.
func cornerNear(p network.Point, corners []network.Point, within unit.Length) int {
	best, found := within, -1
	for i, c := range corners {
		if away := c.Distance(p); away <= best {
			found, best = i, away
		}
	}
	return found
}

// In returns what lies in a box of a level: with crossing, also what only
// crosses it. It leaves out locked underlays.
func (x *Index) In(a, b network.Point, level string, crossing bool) []edit.Ref {
	frame := around(a, b)
	if math.IsNaN(frame.x0 + frame.y0 + frame.x1 + frame.y1) {
		return nil
	}
	in := map[int32]int{} // legs in the box by thing
	x.tree.visit(frame, func(i int) {
		l := x.legs[i]
		t := &x.things[l.thing]
		if !t.on(level) || t.fixed {
			return
		}
		from, to := t.leg(l.i)
		if frame.holds(from) && frame.holds(to) || crossing && frame.cuts(from, to) {
			in[l.thing]++
		}
	})
	var all []int32
	for t, n := range in {
		if crossing || n == max(1, len(x.things[t].line)-1) {
			all = append(all, t)
		}
	}
	slices.Sort(all)
	refs := make([]edit.Ref, len(all))
	for i, t := range all {
		refs[i] = x.things[t].ref
	}
	return refs
}

func (b box) holds(p network.Point) bool { return b.meets(around(p, p)) }

// cuts reports whether the line from p to q has a point in the box.
func (b box) cuts(p, q network.Point) bool {
	x, y := p.X.Metres(), p.Y.Metres()
	dx, dy := q.X.Metres()-x, q.Y.Metres()-y
	t0, t1 := 0.0, 1.0
	for _, side := range [4][2]float64{{-dx, x - b.x0}, {dx, b.x1 - x}, {-dy, y - b.y0}, {dy, b.y1 - y}} {
		switch run, room := side[0], side[1]; {
		case run == 0 && room < 0:
			return false
		case run < 0:
			t0 = max(t0, room/run)
		case run > 0:
			t1 = min(t1, room/run)
		}
	}
	return t0 <= t1
}

// nearest is the point of the line from a to b that is nearest to p.
func nearest(p, a, b network.Point) network.Point {
	dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
	square := dx*dx + dy*dy
	if square == 0 {
		return a
	}
	switch t := (float64(p.X-a.X)*dx + float64(p.Y-a.Y)*dy) / square; {
	case !(t > 0):
		return a
	case t >= 1:
		return b
	default:
		return network.Point{X: a.X + unit.Length(t*dx), Y: a.Y + unit.Length(t*dy)}
	}
}
