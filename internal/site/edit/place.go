package edit

import (
	"fmt"
	"strings"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// PlaceAccess places an opening: on a pipe in its line, on a cap or a bend in
// the place of it, on nothing alone. A manhole or a catch basin can also take
// the place of a junction, and a pulled fixture that of a fixture.
//
// It is as large as its pipe, gets the next free label of the trade's letters,
// and, where it lies below the site's datum, a riser up to that. A one-way
// cleanout faces upstream, or, at the upper end of a line, down it.
func PlaceAccess(s *site.Site, at Anchor, kind network.AccessKind, style PipeStyle) (*Edit, error) {
	n := network.Node{Kind: network.KindAccess, Access: &network.Access{Kind: kind}}
	return Make("place "+n.Word(), s, func(d *Draft) error {
		id, err := d.placed(at, n, style)
		if err == nil {
			d.Made(NodeRef(id))
		}
		return err
	})
}

// PlaceNode places a fixture, a trap, a reducer, a backwater valve, an outlet or
// a cap. A trap, a valve and a reducer go into the line of a pipe or in the
// place of a cap or a bend, the others in the place of a cap; on nothing each
// stands alone.
func PlaceNode(s *site.Site, at Anchor, kind network.NodeKind, style PipeStyle) (*Edit, error) {
	n := network.Node{Kind: kind}
	switch kind {
	case network.KindAccess, network.KindBend, network.KindJunction:
		return nil, fmt.Errorf("a node of kind %q is not placed like this", kind)
	}
	return Make("place "+n.Word(), s, func(d *Draft) error {
		id, err := d.placed(at, n, style)
		if err == nil {
			d.Made(NodeRef(id))
		}
		return err
	})
}

// placed puts at an anchor what n is.
func (d *Draft) placed(at Anchor, what network.Node, style PipeStyle) (network.NodeID, error) {
	var was fittings
	if at.Node != "" || at.Pipe != "" { // the place on a pipe may be its end
		was = d.fittings() // what becomes of an end may turn the flow
	}
	id, err := d.room(at, &what)
	if err != nil {
		return "", err
	}
	n, _ := d.Node(id)
	g := d.trace()
	i, _ := g.NodeIndex(id)
	if err := full(as(&n, &what), len(g.Above[i])+len(g.Below[i])); err != nil {
		return "", err
	}
	n = *as(&n, &what)
	if n.Access != nil {
		d.furnish(&n, g, i, style)
	}
	if err := site.Check(n); err != nil {
		return "", fmt.Errorf("the new %s: %w", n.Word(), err)
	}
	d.SetNode(n)
	if was != nil {
		d.follow(was)
	}
	return id, nil
}

// as is a node made what another is, in its own place and under its own name.
func as(n, what *network.Node) *network.Node {
	made := n.Clone()
	made.Kind, made.Turn, made.LetsThrough, made.Junction = what.Kind, 0, false, nil
	made.Access = what.Clone().Access
	return &made
}

// room is the node at an anchor that can become what is placed; it is made where
// there is none.
func (d *Draft) room(at Anchor, what *network.Node) (network.NodeID, error) {
	k := drawing{Draft: d}
	if at.Node != "" {
		n, ok := d.Node(at.Node)
		switch {
		case !ok:
			return "", noNode(at.Node)
		case !gives(&n, what):
			return "", fmt.Errorf("%s is %s; place the %s on a pipe, at a free end or beside it", n.Name(), a(&n), what.Word())
		}
		return at.Node, nil
	}
	id, err := k.anchor(at)
	if err != nil {
		return "", err
	}
	for _, c := range k.cuts {
		if what.MostPipes() == 1 || what.Kind == network.KindOutlet {
			return "", fmt.Errorf("%s ends a pipe: place it at a free end, or beside the pipe and draw one to it", a(what))
		}
		d.orient(c, flowing(d.trace(), c))
	}
	if len(k.cuts) == 0 && at.Pipe != "" {
		at.Node, at.Pipe = id, "" // an end of the pipe
		return d.room(at, what)
	}
	return id, nil
}

// gives reports whether a node can become what is placed on it.
func gives(n, what *network.Node) bool {
	switch n.Kind {
	case network.KindCap, network.KindBend:
		return true
	case network.KindJunction:
		return what.MostPipes() == 0 && what.Kind == network.KindAccess
	case network.KindFixture:
		return what.Access != nil && what.Access.Kind == network.PulledFixture
	}
	return false
}

// furnish gives a new access what is usual; node is its index in the flow.
func (d *Draft) furnish(n *network.Node, g *network.Graph, node int, style PipeStyle) {
	opening := n.Access
	opening.Size = style.Size
	for i, p := range append(append([]int{}, g.Below[node]...), g.Above[node]...) {
		if size := g.Net.Pipes[p].Size; i == 0 || size > opening.Size {
			opening.Size = size
		}
	}
	// The figures are common practice; what is there is measured on site.
	switch opening.Kind {
	case network.OneWayCleanout:
		opening.Entry, opening.Facing = unit.Degrees(45), network.FacesUpstream
		if len(g.Above[node]) == 0 && len(g.Below[node]) > 0 {
			opening.Facing = network.FacesDownstream
		}
	case network.TwoWayCleanout:
		opening.Entry = unit.Degrees(45)
	case network.Manhole, network.CatchBasin:
		opening.Size, opening.Entry = 24, unit.QuarterBends(1)
	case network.PulledFixture:
		opening.Entry = unit.QuarterBends(1)
	}
	if opening.Kind != network.RoofVent {
		const deepest = unit.Length(1000) // that a file takes
		opening.Riser = min(max(0, -d.height(n)), deepest)
	}
	if n.Label == "" {
		n.Label = d.nextLabel(opening.Kind.Letters())
	}
}

// a is the word for a node with its article.
func a(n *network.Node) string {
	word := n.Word()
	if strings.ContainsRune("aeiou", rune(word[0])) {
		return "an " + word
	}
	return "a " + word
}
