package edit

import (
	"errors"
	"fmt"
	"reflect"

	"linemap/internal/network"
	"linemap/internal/site"
)

// Changes say what a form makes of each kind of thing. Each is given a copy
// that it may change as it likes, but for the ID and what the thing is joined
// to. A nil one leaves its kind as it is.
type Changes struct {
	Node     func(*network.Node)
	Pipe     func(*network.Pipe)
	Spot     func(*site.Spot)
	Water    func(*site.WaterPoint)
	Lay      func(*site.Lay)
	Note     func(*site.Note)
	Underlay func(*site.Underlay)
}

// Change changes all that is selected in one step. It errs where a file could
// not keep what comes of it, and changes nothing then. A node that is an access
// no more loses the lays and the runs by hand that begin there.
func Change(s *site.Site, name string, sel Selection, to Changes) (*Edit, error) {
	if _, err := called(name, s, sel); err != nil {
		return nil, err
	}
	return Make(name, s, func(d *Draft) error {
		lost := map[Ref]bool{}
		if err := errors.Join(
			changeEach(d, sel, nodesOf, to.Node, nodeShape(lost)),
			changeEach(d, sel, pipesOf, to.Pipe, pipeShape),
			changeEach(d, sel, spotsOf, to.Spot, spotShape),
			changeEach(d, sel, waterOf, to.Water, waterShape),
			changeEach(d, sel, laysOf, to.Lay, layShape),
			changeEach(d, sel, notesOf, to.Note, noteShape),
			changeEach(d, sel, underlaysOf, to.Underlay, underlayShape),
		); err != nil {
			return err
		}
		return d.forget(lost)
	})
}

// SetNode changes one node.
func SetNode(s *site.Site, id network.NodeID, to func(*network.Node)) (*Edit, error) {
	return Change(s, "change node", Select(NodeRef(id)), Changes{Node: to})
}

// SetNodes changes nodes in one step.
func SetNodes(s *site.Site, ids []network.NodeID, name string, to func(*network.Node)) (*Edit, error) {
	return Change(s, name, selectAll(ids, NodeRef), Changes{Node: to})
}

// SetPipe changes one pipe.
func SetPipe(s *site.Site, id network.PipeID, to func(*network.Pipe)) (*Edit, error) {
	return Change(s, "change pipe", Select(PipeRef(id)), Changes{Pipe: to})
}

// SetPipes changes pipes in one step.
func SetPipes(s *site.Site, ids []network.PipeID, name string, to func(*network.Pipe)) (*Edit, error) {
	return Change(s, name, selectAll(ids, PipeRef), Changes{Pipe: to})
}

// SetSpot changes one spot.
func SetSpot(s *site.Site, id site.SpotID, to func(*site.Spot)) (*Edit, error) {
	return Change(s, "change spot", Select(SpotRef(id)), Changes{Spot: to})
}

// SetWater changes one water point.
func SetWater(s *site.Site, id site.WaterID, to func(*site.WaterPoint)) (*Edit, error) {
	return Change(s, "change water point", Select(WaterRef(id)), Changes{Water: to})
}

// SetLay changes the lay that r refers to.
func SetLay(s *site.Site, r Ref, to func(*site.Lay)) (*Edit, error) {
	return Change(s, "change lay", Select(r), Changes{Lay: to})
}

// SetNote changes one note.
func SetNote(s *site.Site, id site.NoteID, to func(*site.Note)) (*Edit, error) {
	return Change(s, "change note", Select(NoteRef(id)), Changes{Note: to})
}

// SetUnderlay changes one underlay, locked or not.
func SetUnderlay(s *site.Site, id site.UnderlayID, to func(*site.Underlay)) (*Edit, error) {
	return Change(s, "change underlay", Select(UnderlayRef(id)), Changes{Underlay: to})
}

func selectAll[ID ~string](ids []ID, ref func(ID) Ref) Selection {
	s := Selection{make(map[Ref]struct{}, len(ids))}
	for _, id := range ids {
		s.refs[ref(id)] = struct{}{}
	}
	return s
}

func changeEach[T any](d *Draft, sel Selection, list func(*site.Site) *[]T, to func(*T), k shape[T]) error {
	if to == nil {
		return nil
	}
	elements := *list(d.site)
	for i := range elements {
		was := elements[i]
		if !sel.Has(k.ref(&was)) {
			continue
		}
		v := k.clone(was)
		to(&v)
		if k.ref(&v) != k.ref(&was) {
			return fmt.Errorf("%s: what it is joined to and its ID are not changed like this", k.name(&was))
		}
		if err := k.settle(d, &was, &v); err != nil {
			return fmt.Errorf("%s: %w", k.name(&was), err)
		}
		if reflect.DeepEqual(was, v) {
			continue
		}
		seen := v
		if k.checked != nil {
			seen = k.checked(was, v)
		}
		if err := site.Check(seen); err != nil {
			return fmt.Errorf("%s: %w", k.name(&was), err)
		}
		set(d, list, i, v)
	}
	return nil
}
