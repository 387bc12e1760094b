package edit

import (
	"cmp"
	"fmt"

	"linemap/internal/network"
	"linemap/internal/site"
)

// JoinEnds makes one joint of two free ends of pipe at the place of a: what is
// at b comes to a. A fitting at one of them stays and is then in line; of two
// bare ends what is left is the joint that the pipes ask for, and of pipes alike
// one pipe. It errs where an end is not free, ends its line, or where the ends
// lie on different levels.
func JoinEnds(s *site.Site, a, b network.NodeID) (*Edit, error) {
	return Make("join ends", s, func(d *Draft) error {
		at, okA := d.Node(a)
		from, okB := d.Node(b)
		switch {
		case !okA:
			return noNode(a)
		case !okB:
			return noNode(b)
		case a == b:
			return fmt.Errorf("%s cannot be joined to itself: pick two ends", at.Name())
		case at.Level != from.Level:
			return fmt.Errorf("%s is on level %q and %s on level %q: a stack joins levels", at.Name(), at.Level, from.Name(), from.Level)
		}
		legs := d.legsOf(a, b)
		if err := cmp.Or(freeEnd(&at, legs[a]), freeEnd(&from, legs[b])); err != nil {
			return err
		}
		p, _ := d.Pipe(legs[a][0])
		q, _ := d.Pipe(legs[b][0])
		if p.ID == q.ID {
			return fmt.Errorf("%s and %s are the ends of %s: pick an end of another pipe", at.Name(), from.Name(), p.Name())
		}
		kept, gone, moving := at, from, &q
		if !joint(from.Kind) {
			if !joint(at.Kind) {
				return fmt.Errorf("%s and %s cannot be one joint: delete one of them first", at.Name(), from.Name())
			}
			kept, gone, moving = from, at, &p // the fitting comes to the bare end
			kept.At = at.At
			d.SetNode(kept)
		}
		return d.meet(&kept, &gone, moving, p.ID, q.ID)
	})
}

// freeEnd errs where no second pipe can be joined to a node.
func freeEnd(n *network.Node, legs []network.PipeID) error {
	switch {
	case len(legs) == 0:
		return fmt.Errorf("no pipe ends at %s: draw one to it", n.Name())
	case len(legs) > 1:
		return fmt.Errorf("%d pipes meet at %s: only a free end can be joined", len(legs), n.Name())
	case n.Kind == network.KindFixture || n.Kind == network.KindOutlet:
		return fmt.Errorf("%s ends its line: draw the other pipe to the run below it", n.Name())
	}
	return nil
}

// meet ends one of two pipes at the node that is kept; the node where it ended
// goes.
func (d *Draft) meet(kept, gone *network.Node, pipe *network.Pipe, pipes ...network.PipeID) error {
	if pipe.From == gone.ID {
		pipe.From = kept.ID
	} else {
		pipe.To = kept.ID
	}
	d.SetPipe(pipe.Clone())
	d.RemoveNodes(func(n *network.Node) bool { return n.ID == gone.ID })
	if err := d.heal(kept.ID); err != nil {
		return err
	}
	if _, ok := d.Node(kept.ID); ok {
		d.Made(NodeRef(kept.ID))
		return nil
	}
	for _, id := range pipes {
		if _, ok := d.Pipe(id); ok {
			d.Made(PipeRef(id)) // what the two have become
		}
	}
	return nil
}
