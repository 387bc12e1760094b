package edit

import (
	"fmt"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// stub is how far above the lower end of a pipe a cleanout is put in where it
// cannot take the place of the node there: room for its fitting.
const stub = unit.Length(0.3)

// AddCleanout puts a two-way cleanout into a pipe, at a length along it from its
// upstream end, as the planner's cure for pipe that no run reaches has it. At an
// end of the pipe it takes the place of a cap or a bend, and stands 0.3 m off
// anything else.
func AddCleanout(s *site.Site, pipe network.PipeID, along unit.Length) (*Edit, error) {
	return Make("add cleanout", s, func(d *Draft) error {
		p, ok := d.Pipe(pipe)
		if !ok {
			return noPipe(pipe)
		}
		g := d.trace()
		i, _ := g.PipeIndex(pipe)
		length := g.Length(i)
		if !(along >= 0 && along <= length+atEnd) {
			return fmt.Errorf("%s is %s long; a cleanout cannot be put in at %s from its upper end",
				p.Name(), s.Units.Footage(length), s.Units.Footage(along))
		}
		up, down := g.Net.Nodes[g.Up[i]], g.Net.Nodes[g.Down[i]]
		cleanout := network.Node{Kind: network.KindAccess, Access: &network.Access{Kind: network.TwoWayCleanout}}
		at := Anchor{Level: down.Level}
		switch off := min(stub, length/2); {
		case along > length-atEnd && gives(&down, &cleanout):
			at.Node = down.ID
		case along < atEnd && gives(&up, &cleanout):
			at.Node = up.ID
		default:
			along = max(off, min(along, length-off))
		}
		if at.Node == "" {
			if length <= 0 {
				return fmt.Errorf("%s is %s long; a cleanout cannot be put in on it", p.Name(), s.Units.Footage(length))
			}
			share := float64(along / length)
			forward := p.From == up.ID
			if !forward {
				share = 1 - share
			}
			c := d.cutAt(p, placeAlong(d.line(&p), share), down.Level)
			d.orient(c, forward)
			at.Node = c.node
		}
		id, err := d.placed(at, cleanout, PipeStyle{Size: p.Size})
		if err == nil {
			d.Made(NodeRef(id))
		}
		return err
	})
}
