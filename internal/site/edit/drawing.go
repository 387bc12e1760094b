package edit

import (
	"fmt"

	"linemap/internal/network"
	"linemap/internal/site"
)

// drawing is a pipe or a fitting that is being drawn. It cuts pipes without
// asking which way they flow; finish, which knows, sets that right.
type drawing struct {
	*Draft
	cuts []cut
	// met are the nodes that were there before and are joined now.
	met []network.NodeID
	// joins says that both ends may be joined to what was there, and so turn its
	// flow.
	joins bool
}

// anchor is the node at an anchor. It is made where there is none.
func (k *drawing) anchor(a Anchor) (network.NodeID, error) {
	if err := k.onPlan("the end", a.At); err != nil && !a.joins() {
		return "", err
	}
	if err := levelThere(k.site, a.Level); err != nil {
		return "", err
	}
	switch {
	case a.Node != "":
		if _, ok := k.Node(a.Node); !ok {
			return "", noNode(a.Node)
		}
		k.met = append(k.met, a.Node)
		return a.Node, nil
	case a.Pipe != "":
		return k.cutFor(a)
	}
	return k.newNode(network.Node{Kind: network.KindCap, At: a.At, Level: a.Level})
}

// newNode adds a node that a file can keep.
func (k *drawing) newNode(n network.Node) (network.NodeID, error) {
	n.ID = k.AddNode(n)
	if err := site.Check(n); err != nil {
		return "", fmt.Errorf("the new %s: %w", n.Word(), err)
	}
	return n.ID, nil
}

// cutFor cuts the pipe of an anchor there.
func (k *drawing) cutFor(a Anchor) (network.NodeID, error) {
	if err := k.onPlan("the end", a.At); err != nil {
		return "", err
	}
	p, ok := k.Pipe(a.Pipe)
	if !ok {
		return "", noPipe(a.Pipe)
	}
	for _, c := range k.cuts {
		if c.near == a.Pipe {
			p = k.half(c, a) // the pipe is in two by now
		}
	}
	c, end, err := k.cut(p, a.At, a.Level)
	switch {
	case err != nil:
		return "", err
	case end != "":
		k.met = append(k.met, end)
		return end, nil
	}
	k.cuts = append(k.cuts, c)
	return c.node, nil
}

// half is the half of a cut pipe on which an anchor lies.
func (k *drawing) half(c cut, a Anchor) network.Pipe {
	near, _ := k.Pipe(c.near)
	far, _ := k.Pipe(c.far)
	if network.WayLength(k.line(&near)) == 0 {
		n, _ := k.Node(c.node)
		z, _ := k.elevation(a.Level)
		from, _ := k.Node(near.From)
		if (z > k.height(&n)) == (k.height(&from) > k.height(&n)) {
			return near
		}
		return far
	}
	onNear, onFar := nearest(k.line(&near), a.At), nearest(k.line(&far), a.At)
	if onFar.at.Distance(a.At) < onNear.at.Distance(a.At) {
		return far
	}
	return near
}

// finish joins a new pipe: it gives the cut pipes their IDs, makes of the nodes
// met what their pipes ask for, and lets the fittings follow the flow. What the
// user goes on with is the pipe, or the one that it became part of.
func (k *drawing) finish(pipe network.PipeID) error {
	g := k.trace()
	var was fittings
	turns := k.joins || !drains(g, pipe)
	if turns {
		k.before(func() { was = k.fittings() })
	}
	legs := k.legsOf(k.met...)
	var crowded, pairs []network.NodeID
	for _, c := range k.cuts {
		crowded = append(crowded, c.node)
	}
	for _, id := range k.met {
		n, _ := k.Node(id)
		switch count := len(legs[id]); {
		case n.Kind != network.KindReducer && joint(n.Kind) && count > 2:
			crowded = append(crowded, id)
		case n.Kind != network.KindReducer && joint(n.Kind):
			pairs = append(pairs, id)
		default:
			if err := full(&n, count); err != nil {
				return err
			}
		}
	}
	if err := k.fit(g, crowded...); err != nil {
		return err
	}
	for _, c := range k.cuts {
		k.orient(c, flowing(g, c))
	}
	var became map[network.PipeID]network.PipeID
	if len(pairs) > 0 {
		var err error
		if became, err = k.mend(pairs...); err != nil {
			return err
		}
	}
	if turns {
		k.follow(was)
	}
	for became[pipe] != "" {
		pipe = became[pipe]
	}
	k.Made(PipeRef(pipe))
	return nil
}

// full says that a node takes no more pipes than it has, where there are more.
func full(n *network.Node, pipes int) error {
	most := n.MostPipes()
	if most == 0 || pipes <= most {
		return nil
	}
	what := fmt.Sprintf("%d pipes", most)
	if most == 1 {
		what = "1 pipe"
	}
	return fmt.Errorf("%s: %d pipes would meet there, %s joins %s at most", n.Name(), pipes, a(n), what)
}

// onPlan errs where a place is none on the plan.
func (d *Draft) onPlan(what string, at network.Point) error {
	if at.X != at.X || at.Y != at.Y {
		return fmt.Errorf("%s %w", what, errNoNumber)
	}
	if !onPlan(at) {
		return offPlan(what, at, d.site.Units)
	}
	return nil
}
