package chart

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"linemap/internal/export/drawing"
	"linemap/internal/export/label"
	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// areaLabel names an area, inside it where there is room.
func (sd *storeyDraft) areaLabel(a *site.Area) {
	if sd.mute() || sd.overview() {
		return
	}
	b := sd.block(areaLines(a))
	sd.notes = append(sd.notes, note{
		layer: drawing.Notes, rank: sd.rank,
		places: func() []label.Candidate { return sd.within(a, b.w, b.h) },
		draw:   func(c label.Candidate) []drawing.Shape { return sd.lettering(c, b) },
	})
}

// areaLines are the words of an area's label: its name, and what it is for where
// the name does not say so.
func areaLines(a *site.Area) []line {
	say := map[site.AreaKind]string{
		site.Stand: "trailer may stand", site.KeepClear: "keep clear", site.Walkway: "walkway",
	}[a.Kind]
	if a.Label == "" {
		return []line{{say, styleSmall}}
	}
	if strings.Contains(strings.ToLower(a.Label), say) {
		return []line{{a.Label, styleSmall}}
	}
	return []line{{a.Label, styleSmall}, {say, styleSmall.In(drawing.Grey)}}
}

// Places for labels within an area are tried so many millimetres apart, and at
// so many places of its width and its height at most.
const (
	placeStep  = 6.0
	mostPlaces = 24
	keptPlaces = 60
)

// within lists the places of a box of w by h inside an area, as far as it is
// seen, the nearest to its middle first; then those beside its edge.
func (sd *storeyDraft) within(a *site.Area, w, h float64) []label.Candidate {
	seen := extentOf(points(a.Outline))
	room := sd.room()
	seen.min = drawing.Point{X: max(seen.min.X, room.min.X), Y: max(seen.min.Y, room.min.Y)}
	seen.max = drawing.Point{X: min(seen.max.X, room.max.X), Y: min(seen.max.Y, room.max.Y)}
	k := sd.frame.Scale
	wide, high := seen.size()
	if !(wide >= 0 && high >= 0) {
		return nil
	}
	middle := seen.middle()
	var all []label.Candidate
	for _, y := range steps(seen.min.Y, seen.max.Y, placeStep/k) {
		for _, x := range steps(seen.min.X, seen.max.X, placeStep/k) {
			at := drawing.Point{X: x, Y: y}
			if !holds(a, at, w/k, h/k) {
				continue
			}
			off := at.Sub(middle).Scale(k)
			all = append(all, label.Candidate{
				Box:   label.Box{Centre: sd.frame.To(at), HalfW: w / 2, HalfH: h / 2},
				Align: drawing.Centre, Cost: math.Hypot(off.X, off.Y) / 12,
			})
		}
	}
	slices.SortStableFunc(all, func(a, b label.Candidate) int { return cmp.Compare(a.Cost, b.Cost) })
	all = all[:min(len(all), keptPlaces)]
	return append(all, sd.alongEdge(a, w, h)...)
}

// Places beside the edge of an area are tried so many millimetres apart and at
// so many places of it; they cost so much more than those inside.
const (
	edgeStep   = 12.0
	mostEdge   = 24
	besideEdge = 4.0
)

// alongEdge lists the places of a box of w by h beside the edge of an area,
// without a leader first.
func (sd *storeyDraft) alongEdge(a *site.Area, w, h float64) []label.Candidate {
	edge := points(a.Outline)
	var near, far []label.Candidate
	for _, part := range sd.room().clip(append(edge, edge[0])) {
		line := sd.onPaper(part)
		n := int(min(mostEdge, lengthOf(line)/edgeStep)) + 1
		for i := range n {
			at, _ := label.Along(line, (float64(i)+0.5)/float64(n))
			near = append(near, label.Near(at, edgeRoom, w, h)...)
			if i == n/2 && sd.board == nil {
				far = append(far, label.Around(at, edgeRoom, w, h, reach)...)
			}
		}
	}
	all := append(near, far...)
	for i := range all {
		all[i].Cost += besideEdge
	}
	return all
}

// edgeRoom is the half width of the widest edge, in millimetres.
const edgeRoom = 0.8

// steps are places from low to high, at most so many, about the middle and each
// the same from the next.
func steps(low, high, step float64) []float64 {
	step = max(step, (high-low)/mostPlaces)
	half := 0
	if step > 0 {
		half = int((high - low) / 2 / step)
	}
	var all []float64
	for i := -half; i <= half; i++ {
		all = append(all, (low+high)/2+float64(i)*step)
	}
	return all
}

// holds reports whether a box of w by h metres about a place lies in an area, by
// its corners and the middles of its sides.
func holds(a *site.Area, at drawing.Point, w, h float64) bool {
	for _, dx := range []float64{-0.5, 0, 0.5} {
		for _, dy := range []float64{-0.5, 0.5} {
			p := network.Point{X: unit.Metres(at.X + dx*w), Y: unit.Metres(at.Y + dy*h)}
			if !a.Contains(p) {
				return false
			}
		}
	}
	return true
}
