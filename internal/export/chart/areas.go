package chart

import (
	"math"
	"slices"

	"linemap/internal/export/drawing"
	"linemap/internal/network"
	"linemap/internal/site"
)

// How areas look, told apart without colour: a broken edge around where the
// trailer may stand, a hatch over what is kept clear, a double edge of dots
// along a walkway.
var (
	standPen   = drawing.Pen{Width: 0.4, Ink: drawing.Green, Dash: []float64{4, 2}}
	clearPen   = drawing.Pen{Width: 0.35, Ink: drawing.Vermillion}
	hatchPen   = drawing.Pen{Width: 0.18, Ink: drawing.Vermillion}
	walkPen    = drawing.Pen{Width: 1.4, Ink: drawing.Blue, Dash: []float64{0.5, 1.1}}
	betweenPen = drawing.Pen{Width: 0.6, Ink: drawing.White}
)

// hatchStep is how far apart the lines of a hatch are, in millimetres.
const hatchStep = 2.4

// areas draws what the ground is for.
func (sd *storeyDraft) areas() {
	window := sd.ground(sd.box)
	for i := range sd.site.Areas {
		a := &sd.site.Areas[i]
		edge := points(a.Outline)
		if len(edge) < 3 || !window.meets(extentOf(edge)) {
			continue
		}
		sd.list.Add(drawing.Lays, edging(a.Kind, edge, &window)...)
		if a.Kind == site.KeepClear {
			sd.list.Add(drawing.Lays, hatch(edge, hatchStep/sd.frame.Scale, window)...)
		}
		sd.saw(sample{kind: areaSample(a.Kind)})
		sd.areaLabel(a)
	}
}

func areaSample(k site.AreaKind) sampleKind {
	switch k {
	case site.KeepClear:
		return sampleKeepClear
	case site.Walkway:
		return sampleWalkway
	}
	return sampleStand
}

// edging draws the edge of an area, as far as it is seen: it may run on for
// miles beyond.
func edging(k site.AreaKind, edge []drawing.Point, window *extent) []drawing.Shape {
	around := append(slices.Clone(edge), edge[0])
	parts, whole := [][]drawing.Point{edge}, true
	if window != nil && !(window.holds(extentOf(edge).min) && window.holds(extentOf(edge).max)) {
		parts, whole = window.clip(around), false
	}
	pens := []drawing.Pen{standPen}
	switch k {
	case site.KeepClear:
		pens = []drawing.Pen{clearPen}
	case site.Walkway:
		pens = []drawing.Pen{walkPen, betweenPen}
	}
	var all []drawing.Shape
	for _, pen := range pens {
		for _, part := range parts {
			all = append(all, drawing.Path{Points: part, Closed: whole, Pen: pen})
		}
	}
	return all
}

// hatch lays lines from the south-west to the north-east over an area, step
// metres apart. They lie where they lie on the ground, whatever part of it is
// looked at.
func hatch(edge []drawing.Point, step float64, window extent) []drawing.Shape {
	across := func(p drawing.Point) float64 { return p.X - p.Y }
	apart := step * math.Sqrt2 // of two lines, by that
	first, last := window.min.X-window.max.Y, window.max.X-window.min.Y
	low := int(math.Ceil(first / apart))
	cuts := make([][]float64, max(0, int(math.Floor(last/apart))-low+1)) // by line, where the edge crosses it
	for i, a := range edge {
		b := edge[(i+1)%len(edge)]
		from, to := across(a), across(b)
		if from > to {
			a, b, from, to = b, a, to, from
		}
		// Half open, so that a corner counts once.
		for k := int(math.Ceil(max(from, first) / apart)); k-low < len(cuts) && float64(k)*apart < to; k++ {
			t := (float64(k)*apart - from) / (to - from)
			cuts[k-low] = append(cuts[k-low], a.X+t*(b.X-a.X)+a.Y+t*(b.Y-a.Y))
		}
	}
	var all []drawing.Shape
	for n, at := range cuts {
		slices.Sort(at)
		u := float64(low+n) * apart
		for i := 1; i < len(at); i += 2 {
			line := []drawing.Point{{X: (at[i-1] + u) / 2, Y: (at[i-1] - u) / 2}, {X: (at[i] + u) / 2, Y: (at[i] - u) / 2}}
			if a, b, ok := window.cut(line[0], line[1]); ok {
				all = append(all, drawing.Path{Points: []drawing.Point{a, b}, Pen: hatchPen})
			}
		}
	}
	return all
}

// crossings marks where the hose of the plan lies across a walkway or what is
// kept clear.
func (sd *storeyDraft) crossings() {
	if len(sd.site.Areas) == 0 || sd.overview() {
		return
	}
	var marked []drawing.Point
	for _, way := range sd.hoseWays() {
		for _, c := range sd.site.Crossings(way) {
			for _, p := range c.Where {
				at := point(p)
				if !sd.room().holds(at) || slices.ContainsFunc(marked, func(q drawing.Point) bool {
					d := at.Sub(q).Scale(sd.frame.Scale)
					return math.Hypot(d.X, d.Y) < coneSize+sharing
				}) {
					continue
				}
				marked = append(marked, at)
				sd.cone(at, c.Area.Kind)
			}
		}
	}
}

// hoseWays lists the ways over the ground of the hoses that the plan uses.
func (d *draft) hoseWays() [][]network.Point {
	var all [][]network.Point
	type end struct {
		spot site.SpotID
		to   network.NodeID // none for the water
	}
	seen := map[end]bool{}
	for _, b := range d.plan.Blocks {
		spot := d.spot(b.Spot)
		if spot == nil {
			continue
		}
		for _, r := range b.Runs {
			if n, ok := d.graph.NodeIndex(r.Access); ok && !seen[end{b.Spot, r.Access}] {
				seen[end{b.Spot, r.Access}] = true
				all = append(all, d.site.LayPath(spot, &d.graph.Net.Nodes[n]))
			}
		}
		if _, w := d.site.Inflow(spot); w != nil && !seen[end{spot: b.Spot}] {
			seen[end{spot: b.Spot}] = true
			all = append(all, d.site.SupplyPath(spot, w))
		}
	}
	return all
}

const coneSize = 3.2

// cone marks a place where hose is in people's way, and what to do about it.
func (sd *storeyDraft) cone(at drawing.Point, k site.AreaKind) {
	say := "cone"
	if k == site.Walkway {
		say = "cover hose"
	}
	sd.list.Add(drawing.Lays, coneMark(at))
	sd.wallMark(at, coneSize/2)
	sd.saw(sample{kind: sampleCone})
	sd.around(drawing.Notes, at, coneSize/2, line{say, styleSmall})
}

// coneMark is a cone that stands on a place.
func coneMark(at drawing.Point) drawing.Mark {
	return drawing.Mark{
		At: at, Off: drawing.Point{Y: coneSize / 4}, Symbol: drawing.Wedge, Size: coneSize, Turn: math.Pi / 2, Pen: thinPen, Fill: ink(drawing.Orange),
	}
}

// areaEntries explain the areas.
func (d *draft) areaEntries() []entry {
	var all []entry
	for _, e := range []struct {
		kind site.AreaKind
		say  string
	}{
		{site.Stand, "trailer may stand"},
		{site.KeepClear, "keep clear"},
		{site.Walkway, "walkway"},
	} {
		if !d.seen[sample{kind: areaSample(e.kind)}] {
			continue
		}
		all = append(all, entry{e.say, func(x, y float64) []drawing.Shape {
			const half, high = sampleWidth/2 - 0.6, legendRow/2 - 0.7
			box := extent{drawing.Point{X: x - half, Y: y - high}, drawing.Point{X: x + half, Y: y + high}}
			shapes := edging(e.kind, box.corners(), nil)
			if e.kind == site.KeepClear {
				shapes = append(shapes, hatch(box.corners(), hatchStep/2, box)...)
			}
			return shapes
		}})
	}
	if d.seen[sample{kind: sampleCone}] {
		all = append(all, entry{"hose in the way: cover, cone", func(x, y float64) []drawing.Shape {
			return []drawing.Shape{coneMark(drawing.Point{X: x, Y: y})}
		}})
	}
	return all
}
