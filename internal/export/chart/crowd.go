package chart

import (
	"math"

	"linemap/internal/export/drawing"
	"linemap/internal/network"
)

// ease is the distance on paper, in millimetres, at which labelled things stand
// easily side by side.
const ease = 5.0

// A page is hard to read when its things stand, in the square mean, closer than
// easy by the factor strain; one plan of several on a page, by the factor limit.
const (
	strain = 1.7
	limit  = 2.2
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
	st.near = apart(at)
	st.known = map[float64]float64{}
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

// apart returns how far places are from the next one, for at most so many of
// them, leaving out places at one spot; without limit where there is no next.
func apart(at []drawing.Point) []float64 {
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
	return all
}

// strained says how hard a storey is to read at a scale, for each thing
// labelled: 0 where it is easy, else the mean square of the logarithm of how
// much too close things stand. The square makes one bad plan worse than two
// fair ones.
func (st *storey) strained(den float64) float64 {
	if v, ok := st.known[den]; ok || len(st.near) == 0 {
		return v
	}
	sum := 0.0
	for _, d := range st.near {
		if close := ease * den / (fullSize * d); close > 1 {
			sum += math.Log(close) * math.Log(close)
		}
	}
	v := sum / float64(len(st.near))
	st.known[den] = v
	return v
}

// toil is [storey.strained] for all things of the storey together.
func (st *storey) toil(den float64) float64 { return float64(st.crowd) * st.strained(den) }

// square is the strain at which everything stands too close by a factor.
func square(factor float64) float64 { return math.Log(factor) * math.Log(factor) }
