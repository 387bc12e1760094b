package network

import (
	"cmp"
	"fmt"

	"linemap/internal/unit"
)

// chooseOutlets lists the outlets, picks the lowest end of every part that has
// none, and tells of parts that are joined to nothing.
func (t *tracer) chooseOutlets() {
	type part struct {
		pipes, first int // first node by ID
		outlet       bool
	}
	g := t.g
	parts := make([]part, t.count)
	for i := range parts {
		parts[i].first = -1
	}
	for node := range g.Net.Nodes {
		q := &parts[t.part[node]]
		if q.first < 0 || t.byNodeID(node, q.first) < 0 {
			q.first = node
		}
		if g.Net.Nodes[node].Kind == KindOutlet {
			q.outlet = true
			g.Outlets = append(g.Outlets, node)
		}
	}
	for p := range g.Net.Pipes {
		if g.ends[p][0] >= 0 {
			parts[t.part[g.ends[p][0]]].pipes++
		}
	}
	// The main part is the largest with an outlet.
	drains, main := 0, -1
	ended := true
	for i := range parts {
		q := &parts[i]
		if q.pipes == 0 || !q.outlet {
			ended = ended && q.pipes == 0
			continue
		}
		drains++
		if main < 0 || cmp.Or(parts[main].pipes-q.pipes, t.byNodeID(q.first, parts[main].first)) < 0 {
			main = i
		}
	}
	var lowest []int
	if !ended {
		lowest = t.lowestEnds()
	}
	for i := range parts {
		q := &parts[i]
		switch {
		case q.pipes == 0:
			// A node with no pipe at all is told of by Findings.
		case !q.outlet:
			end := lowest[i]
			g.Outlets = append(g.Outlets, end)
			what := "No outlet is marked"
			if drains > 0 {
				what = fmt.Sprintf("This part of the sketch (%s) is joined to no outlet", unit.Count(q.pipes, "pipe"))
			}
			t.add(g.atNode(end, Error, "no_outlet"), Finding{
				What: fmt.Sprintf("%s; its lowest end, %s, is taken for one.", what, g.NodeName(end)),
				Cure: "Mark where the line leaves the job, or join it to the line that does.",
			})
		case i != main:
			t.add(g.atNode(q.first, Advice, "disconnected"), Finding{
				What: fmt.Sprintf("This part of the sketch (%s) has an outlet of its own and is joined to no other.", unit.Count(q.pipes, "pipe")),
				Cure: "Check that the building really has two lines; else join them.",
			})
		}
	}
}

// lowestEnds finds the end of every part that acts as its outlet: the lowest,
// then the one of the largest pipe, then the first by ID. What feeds a drain
// and what closes it is passed over while there is another end.
func (t *tracer) lowestEnds() []int {
	rank := func(node int) int {
		n := &t.g.Net.Nodes[node]
		switch {
		case len(t.legs.at(node)) != 1:
			return 2
		case n.Kind == KindFixture, n.Kind == KindCap, n.Kind == KindTrap,
			n.Access != nil && (n.Access.Kind == RoofVent || n.Access.Kind == PulledFixture):
			return 1
		}
		return 0
	}
	size := func(node int) float64 {
		most := 0.0
		for _, p := range t.legs.at(node) {
			most = max(most, float64(t.g.Net.Pipes[p].Size))
		}
		return most
	}
	lowest := make([]int, t.count)
	for i := range lowest {
		lowest[i] = -1
	}
	for node := range t.g.Net.Nodes {
		best := lowest[t.part[node]]
		if best < 0 || cmp.Or(
			rank(node)-rank(best),
			cmp.Compare(t.g.Elevation(node), t.g.Elevation(best)),
			cmp.Compare(size(best), size(node)),
			t.byNodeID(node, best),
		) < 0 {
			lowest[t.part[node]] = node
		}
	}
	return lowest
}
