package edit

import (
	"errors"
	"fmt"

	"linemap/internal/network"
	"linemap/internal/site"
)

// Anchor is where something drawn is joined: to a node, to a pipe at a place of
// it, or, with neither, to nothing.
type Anchor struct {
	At    network.Point
	Level string
	Node  network.NodeID
	Pipe  network.PipeID
}

// DrawPipe draws one pipe from one anchor to another, its corners on the way.
//
// An end on a node is joined to it, one on a pipe cuts that pipe and is the
// branch of the junction there, one on nothing ends in a cap. An upright pipe is
// met at the level of the anchor. A cap, a bend or a junction that is joined
// becomes what its pipes ask for: see [Draft.heal]; so what is drawn on from the
// end of a pipe like it makes that one longer.
//
// It errs where no pipe can be drawn so: it has no length, or a node takes no
// more pipes.
func DrawPipe(s *site.Site, from Anchor, corners []network.Point, to Anchor, style PipeStyle) (*Edit, error) {
	return Make("draw pipe", s, func(d *Draft) error {
		k := drawing{Draft: d, joins: from.joins() && to.joins()}
		for _, at := range corners {
			if err := k.onPlan("the corner", at); err != nil {
				return err
			}
		}
		a, err := k.anchor(from)
		if err != nil {
			return err
		}
		b, err := k.anchor(to)
		if err != nil {
			return err
		}
		p, err := k.pipe(a, corners, b, style)
		if err != nil {
			return err
		}
		return k.finish(p)
	})
}

func (a Anchor) joins() bool { return a.Node != "" || a.Pipe != "" }

// pipe adds the pipe between two nodes.
func (k *drawing) pipe(a network.NodeID, corners []network.Point, b network.NodeID, style PipeStyle) (network.PipeID, error) {
	from, _ := k.Node(a)
	to, _ := k.Node(b)
	if a == b {
		return "", fmt.Errorf("the pipe would end where it begins, at %s", from.Name())
	}
	line := distinct(append(append([]network.Point{from.At}, corners...), to.At))
	p := style.pipe()
	p.From, p.To = a, b
	if inner := len(line) - 2; inner > 0 {
		p.Via = line[1 : 1+inner]
	}
	switch length := network.WayLength(line); {
	case length >= atEnd:
		if style.Slope != nil {
			slope := *style.Slope
			p.Slope = &slope
		}
	case k.height(&from) == k.height(&to):
		return "", errors.New("the pipe would be less than 10 mm (3/8 in) long: draw it longer")
	default:
		p.Via = nil // upright: what it falls is told by its ends
	}
	id := k.AddPipe(p)
	p.ID = id
	if err := site.Check(p); err != nil {
		return "", fmt.Errorf("the new pipe: %w", err)
	}
	return id, nil
}

var errNoNumber = errors.New("is no place on the plan: its coordinates are no numbers")
