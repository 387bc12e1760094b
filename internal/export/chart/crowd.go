package chart

import (
	"math"
	"slices"

	"linemap/internal/export/drawing"
	"linemap/internal/network"
)

// ease is the distance on paper, in millimetres, at which labelled things stand
// easily side by side.
const ease = 7.0

// A page is hard to read when its things stand, in the square mean, closer than
// easy by the factor strain; one plan of several on a page, by the factor limit.
const (
	strain = 1.7
	limit  = 2.2
)

// measure finds how crowded a storey is and how much room its labels take.
func (d *draft) measure(st *storey) {
	var at []drawing.Point
	wide, ink := 0.0, 0.0
	for _, n := range st.nodes {
		node := &d.graph.Net.Nodes[n]
		st.at = append(st.at, point(node.At))
		if !labelled(node) {
			continue
		}
		at = append(at, point(node.At))
		lines := []line{{node.Label, drawing.Style{Pt: ptName}}}
		if node.Access != nil {
			lines = append(lines, line{node.Access.Room, styleSmall})
		}
		b := d.block(lines)
		wide, ink = max(wide, b.w), ink+b.w*b.h
	}
	for _, r := range st.rises {
		at = append(at, point(d.graph.Net.Nodes[r.node].At))
	}
	if st.main {
		places := d.grounded()
		st.at, at = append(st.at, places...), append(at, places...)
	}
	st.crowd = len(at)
	st.known = map[float64]float64{}
	st.pad = max(padLeast, min(padMost, 0.7*wide+2))
	if len(at) > 0 {
		st.near = apart(at, ink/float64(len(at)))
	}
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

// Labels fill at most this share of the ground around them, as far as a number
// of neighbours.
const (
	filled     = 0.5
	neighbours = 12
)

// crowding is how far on the ground a place is from the next one, and how many
// millimetres of paper the side of its share of the ground must have for its
// label, in metres for each millimetre.
type crowding struct{ next, share float64 }

// apart measures the crowding of at most so many of the places, leaving out
// places at one spot. The mean label covers ink square millimetres.
func apart(at []drawing.Point, ink float64) []crowding {
	var all []crowding
	step := 1 + len(at)/looks
	for i := 0; i < len(at); i += step {
		// The nearest, in order, as far as they are asked for.
		near := make([]float64, 0, neighbours+1)
		for j := range at {
			d := math.Hypot(at[i].X-at[j].X, at[i].Y-at[j].Y)
			if d <= 0.05 || len(near) == neighbours && d >= near[neighbours-1] {
				continue
			}
			k, _ := slices.BinarySearch(near, d)
			near = slices.Insert(near, k, d)
			near = near[:min(len(near), neighbours)]
		}
		c := crowding{math.Inf(1), math.Inf(1)}
		if len(near) > 0 {
			c.next = near[0]
		}
		if len(near) == neighbours && ink > 0 {
			// A circle that holds so many has this much ground for each.
			r := near[neighbours-1]
			c.share = math.Sqrt(filled * math.Pi * r * r / neighbours / ink)
		}
		all = append(all, c)
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
	for _, c := range st.near {
		if close := den / fullSize * max(ease/c.next, 1/c.share); close > 1 {
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
