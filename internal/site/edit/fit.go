package edit

import (
	"slices"

	"linemap/internal/network"
)

// fit puts the fitting that suits at nodes where three pipes or more meet. One
// that joins its pipes as it is stays. G is the flow as it is.
func (d *Draft) fit(g *network.Graph, nodes ...network.NodeID) error {
	for _, id := range nodes {
		i, ok := g.NodeIndex(id)
		if !ok || g.Sound(i) {
			continue
		}
		j, err := g.Suit(i)
		if err != nil {
			return err
		}
		d.putFitting(id, j)
	}
	return nil
}

func (d *Draft) putFitting(id network.NodeID, j network.Junction) {
	n, _ := d.Node(id)
	n = n.Clone()
	n.Kind, n.Turn, n.LetsThrough, n.Access, n.Junction = network.KindJunction, 0, false, nil, &j
	d.SetNode(n)
}

// fittings are the junctions that join their pipes as the drawing asks; the user
// chose the others.
type fittings map[network.NodeID]bool

// fittings notes the junctions before a change that may turn flow or pipes.
func (d *Draft) fittings() fittings {
	was := fittings{}
	g := d.trace()
	for i := range g.Net.Nodes {
		if n := &g.Net.Nodes[i]; n.Kind == network.KindJunction && g.Sound(i) {
			j, err := g.Suit(i)
			was[n.ID] = err == nil && equalFitting(n.Junction, &j)
		}
	}
	return was
}

// follow has the junctions follow a change: the ones that suited suit again, and
// the ones that the user chose stay while they join their pipes. Where no fitting
// suits any more, the junction stays as it is, and the findings tell.
func (d *Draft) follow(was fittings) {
	g := d.trace()
	for i := range g.Net.Nodes {
		n := &g.Net.Nodes[i]
		if n.Kind != network.KindJunction || !was[n.ID] && g.Sound(i) {
			continue
		}
		if j, err := g.Suit(i); err == nil && !equalFitting(n.Junction, &j) {
			d.putFitting(n.ID, j)
		}
	}
}

func equalFitting(a, b *network.Junction) bool {
	if a.Kind != b.Kind || len(a.Branches) != len(b.Branches) {
		return false
	}
	for _, p := range a.Branches {
		if !slices.Contains(b.Branches, p) {
			return false
		}
	}
	return true
}

// before lets look see the site as it was before the edit.
func (d *Draft) before(look func()) {
	d.edit.Undo(d.site)
	look()
	d.edit.Do(d.site)
}

// drains reports whether a pipe's way leads to an outlet. Where there is none
// yet, any new end may be the one that the water is taken to go to.
func drains(g *network.Graph, pipe network.PipeID) bool {
	p, ok := g.PipeIndex(pipe)
	for ok && g.Next[p] >= 0 {
		p = g.Next[p]
	}
	return ok && g.Net.Nodes[g.Down[p]].Kind == network.KindOutlet
}
