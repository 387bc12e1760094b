package edit

import (
	"errors"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// Delete deletes what is selected and mends the joints.
//
// A pipe takes with it the bare ends and joints that no other pipe uses; a
// junction that loses a branch becomes the plain run that is left. What was
// placed by hand (an access, a fixture, a trap, a valve, an outlet) stays
// unless it is selected.
//
// A node takes no pipe with it: an access in line leaves the run whole, an end
// is capped, and where several pipes cannot be joined without what is deleted,
// each gets a cap. A cap at the end of a pipe can only be deleted with the pipe.
//
// With a spot, a water point, an access or a pipe go the lays and the runs
// decided by hand that name it. Locked underlays stay.
func Delete(s *site.Site, sel Selection) (*Edit, error) {
	sel, err := unlocked(s, sel)
	if err != nil {
		return nil, err
	}
	name, err := called("delete", s, sel)
	if err != nil {
		return nil, err
	}
	e, err := Make(name, s, func(d *Draft) error {
		gone := map[Ref]bool{}
		for r := range sel.refs {
			gone[r] = true
		}
		x := deletion{Draft: d, gone: gone}
		if err := x.drain(); err != nil {
			return err
		}
		x.ground()
		return d.forget(gone)
	})
	if err == nil && e.Empty() {
		return nil, errors.New("a cap closes the end of a pipe: delete the pipe with it")
	}
	return e, err
}

// deletion is a deletion at work. Gone is what is deleted.
type deletion struct {
	*Draft
	gone map[Ref]bool
}

// drain deletes pipes and nodes.
func (x *deletion) drain() error {
	ends := map[network.NodeID]bool{}
	for i := range x.site.Network.Pipes {
		if p := &x.site.Network.Pipes[i]; x.gone[PipeRef(p.ID)] {
			ends[p.From], ends[p.To] = true, true
		}
	}
	if len(ends) > 0 {
		x.RemovePipes(func(p *network.Pipe) bool { return x.gone[PipeRef(p.ID)] })
	}
	var touched []network.NodeID
	for i := range x.site.Network.Nodes {
		if id := x.site.Network.Nodes[i].ID; ends[id] || x.gone[NodeRef(id)] {
			touched = append(touched, id)
		}
	}
	if len(touched) == 0 {
		return nil
	}
	m := mending{
		deletion: x, legs: x.legsOf(touched...),
		alone: map[network.NodeID]bool{}, inverts: map[network.NodeID]*unit.Length{},
	}
	for _, id := range touched {
		m.sort(id)
	}
	return m.do()
}

// ground deletes what is no part of the drain.
func (x *deletion) ground() {
	x.RemoveSpots(func(v *site.Spot) bool { return x.gone[SpotRef(v.ID)] })
	x.RemoveWater(func(v *site.WaterPoint) bool { return x.gone[WaterRef(v.ID)] })
	x.RemoveLays(func(l *site.Lay) bool { return x.gone[LayRef(l)] })
	x.RemoveAreas(func(v *site.Area) bool { return x.gone[AreaRef(v.ID)] })
	x.RemoveNotes(func(v *site.Note) bool { return x.gone[NoteRef(v.ID)] })
	x.RemoveUnderlays(func(v *site.Underlay) bool { return x.gone[UnderlayRef(v.ID)] })
}

// forget drops the lays to and from what is gone, and what was decided by hand
// of runs that name it.
func (d *Draft) forget(gone map[Ref]bool) error {
	if len(gone) == 0 {
		return nil
	}
	d.RemoveLays(func(l *site.Lay) bool {
		return gone[SpotRef(l.Spot)] || l.Access != "" && gone[NodeRef(l.Access)] || l.Water != "" && gone[WaterRef(l.Water)]
	})
	stands := func(k site.RunKey) bool {
		return !gone[SpotRef(k.Spot)] && !gone[NodeRef(k.Access)] && !gone[PipeRef(k.End)]
	}
	h := &d.site.ByHand
	return d.decided(site.ByHand{Keep: those(h.Keep, stands), Bar: those(h.Bar, stands), Order: those(h.Order, stands)})
}
