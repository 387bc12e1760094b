package chart

import (
	"math"
	"slices"

	"linemap/internal/export/drawing"
	"linemap/internal/network"
)

// ease is the distance on paper, in millimetres, at which labelled things stand
// easily side by side; strain is the share by which a page may be drawn smaller
// before it is hard to read, and limit that for one plan of several on a page.
const (
	ease   = 8.0
	strain = 1.7
	limit  = 2.4
)

// measure finds how crowded a storey is and how much room its labels take.
func (d *draft) measure(st *storey) {
	var at []drawing.Point
	wide := 0.0
	for _, n := range st.nodes {
		node := &d.graph.Net.Nodes[n]
		st.at = append(st.at, point(node.At))
		if !labelled(node) {
			continue
		}
		at = append(at, point(node.At))
		wide = max(wide, d.rule.Width(node.Label, true, ptName))
		if node.Access != nil {
			wide = max(wide, d.rule.Width(node.Access.Room, false, ptSmall))
		}
	}
	for _, r := range st.rises {
		at = append(at, point(d.graph.Net.Nodes[r.node].At))
	}
	if st.main {
		places := d.grounded()
		st.at, at = append(st.at, places...), append(at, places...)
	}
	st.crowd = len(at)
	st.air = apart(at)
	st.pad = max(padLeast, min(padMost, 0.7*wide+2))
}

// labelled reports whether a node always has a label.
func labelled(n *network.Node) bool {
	switch n.Kind {
	case network.KindAccess, network.KindFixture, network.KindOutlet, network.KindBackwater:
		return true
	}
	return false
}

// looks bounds how many places are looked at to learn how crowded a storey is.
const looks = 400

// apart returns the distance that half of the places keep from the next one,
// leaving out those at one spot; without limit where there is no next.
func apart(at []drawing.Point) float64 {
	var all []float64
	step := 1 + len(at)/looks
	for i := 0; i < len(at); i += step {
		near := math.Inf(1)
		for j := range at {
			if d := math.Hypot(at[i].X-at[j].X, at[i].Y-at[j].Y); d > 0.05 {
				near = min(near, d)
			}
		}
		all = append(all, near)
	}
	if len(all) == 0 {
		return math.Inf(1)
	}
	slices.Sort(all)
	return all[len(all)/2]
}

// easy is the scale denominator at which the storey reads easily.
func (st *storey) easy() float64 { return st.air * fullSize / ease }

// toil says how hard a storey is to read at a scale: 0 where it is easy, else
// the square of the logarithm of how much too small it is, for each thing
// labelled. The square makes one bad plan worse than two fair ones.
func (st *storey) toil(den float64) float64 {
	small := max(0, math.Log(den/st.easy()))
	return float64(st.crowd) * small * small
}
