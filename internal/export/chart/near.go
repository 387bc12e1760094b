package chart

import (
	"math"
	"slices"

	"linemap/internal/export/drawing"
	"linemap/internal/network"
)

// breath is how close to the third next label of its kind, on paper in
// millimetres, a place of a board keeps its own.
const breath = 6.5

// crowded reports whether the things around a node stand too close at this scale
// for each to have a label. It does not depend on where on the board one looks.
func (sd *storeyDraft) crowded(n int) bool {
	return sd.board != nil && sd.board.near[n]*sd.frame.Scale < breath
}

// nearest returns for each labelled node of the level how far the third next is:
// for openings and outlets the third next of these, for others of all. What
// stands in one place counts once.
func (b *Board) nearest() []float64 {
	near := make([]float64, len(b.graph.Net.Nodes))
	var all, first []int
	for _, n := range b.st.nodes {
		node := &b.graph.Net.Nodes[n]
		switch {
		case opens(node) || node.Kind == network.KindOutlet:
			first, all = append(first, n), append(all, n)
		case node.Label != "":
			all = append(all, n)
		}
	}
	for _, group := range [][]int{all, first} {
		at := make([]drawing.Point, len(group))
		for i, n := range group {
			at[i] = point(b.graph.Net.Nodes[n].At)
		}
		for i, d := range thirds(at) {
			near[group[i]] = d
		}
	}
	for n := range near { // a stack's foot or an exit has a label beside no node
		if near[n] == 0 {
			near[n] = math.Inf(1)
		}
	}
	return near
}

// thirds returns for each place how far the third next place is, looking no
// farther than needed among the places in order along the longer side of all.
func thirds(at []drawing.Point) []float64 {
	e := extentOf(at)
	if w, h := e.size(); h > w {
		at = slices.Clone(at)
		for i, p := range at {
			at[i] = drawing.Point{X: p.Y, Y: p.X}
		}
	}
	order := make([]int, len(at))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int {
		switch {
		case at[a].X < at[b].X:
			return -1
		case at[a].X > at[b].X:
			return 1
		}
		return a - b
	})
	far := make([]float64, len(at))
	for k, i := range order {
		best := [3]float64{math.Inf(1), math.Inf(1), math.Inf(1)}
		look := func(j int) bool { // false where no other place can be nearer
			dx, dy := at[j].X-at[i].X, at[j].Y-at[i].Y
			if math.Abs(dx) > best[2] {
				return false
			}
			const same = 0.01
			if d := math.Hypot(dx, dy); d > same && d < best[2] {
				best[2] = d
				slices.Sort(best[:])
			}
			return true
		}
		for j := k + 1; j < len(order) && look(order[j]); j++ {
		}
		for j := k - 1; j >= 0 && look(order[j]); j-- {
		}
		far[i] = best[2]
	}
	return far
}
