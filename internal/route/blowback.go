package route

import (
	"cmp"
	"slices"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// BlowBackReach is how far along the drain a fixture may lie from pipe that the
// nozzle passes and still spit: common practice, no published source. The
// sketch has no vents, so none is counted on to let the air out.
func BlowBackReach() unit.Length { return unit.Feet(10) }

// Exposed is a fixture, or an open trap, near enough to a run's way that air and
// water may come up through it.
type Exposed struct {
	Node network.NodeID
	// Join is the node of the way where the drain of the fixture joins it, At
	// the reading there, and Away the length of drain from there to the fixture.
	Join network.NodeID
	At   unit.Length
	Away unit.Length
}

// BlowBack lists the fixtures within [BlowBackReach] of a run's way, in the
// order in which the nozzle comes to them. Those behind a backwater valve that
// can close are left out: the jet closes it.
func BlowBack(g *network.Graph, r *Run) []Exposed {
	b := blowBack{g: g, way: map[int]bool{}, found: map[int]Exposed{}}
	for _, leg := range r.Path {
		if p, ok := g.PipeIndex(leg.Pipe); ok {
			b.way[p] = true
		}
	}
	for _, leg := range r.Path {
		p, ok := g.PipeIndex(leg.Pipe)
		if !ok || g.Up[p] < 0 {
			continue
		}
		near, far := g.Down[p], g.Up[p]
		if r.Direction == Downstream {
			near, far = far, near
		}
		b.climb(near, near, leg.From, 0, 0)
		b.climb(far, far, leg.To, 0, 0)
	}
	all := make([]Exposed, 0, len(b.found))
	for _, e := range b.found {
		all = append(all, e)
	}
	slices.SortFunc(all, func(a, b Exposed) int {
		return cmp.Or(cmp.Compare(a.At, b.At), cmp.Compare(a.Away, b.Away), cmp.Compare(a.Node, b.Node))
	})
	return all
}

// blowBack is a search from the way up the drains that join it.
type blowBack struct {
	g     *network.Graph
	way   map[int]bool // pipes of the run
	found map[int]Exposed
}

// mostPipes bounds a way from the run to a fixture: pipe without length, on a
// loop, would have no end.
const mostPipes = 40

// climb looks at a node and at what drains into it, so far from where the drain
// joins the way.
func (b *blowBack) climb(node, join int, at, away unit.Length, pipes int) {
	n := &b.g.Net.Nodes[node]
	above := b.g.Above[node]
	switch {
	case n.Kind == network.KindBackwater && !n.LetsThrough:
		return
	case n.Kind == network.KindFixture, n.Kind == network.KindTrap && len(above) == 0:
		if old, ok := b.found[node]; !ok || away < old.Away {
			b.found[node] = Exposed{Node: n.ID, Join: b.g.Net.Nodes[join].ID, At: at, Away: away}
		}
	}
	for _, p := range above {
		far := away + b.g.Length(p)
		if !b.way[p] && far <= BlowBackReach() && pipes < mostPipes {
			b.climb(b.g.Up[p], join, at, far, pipes+1)
		}
	}
}
