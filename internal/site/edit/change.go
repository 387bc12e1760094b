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
	Area     func(*site.Area)
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
			changeEach(d, sel, areasOf, to.Area, areaShape),
			changeEach(d, sel, notesOf, to.Note, noteShape),
			changeEach(d, sel, underlaysOf, to.Underlay, underlayShape),
		); err != nil {
			return err
		}
		return d.forget(lost)
	})
}

// SetUnderlay changes one underlay, locked or not.
func SetUnderlay(s *site.Site, id site.UnderlayID, to func(*site.Underlay)) (*Edit, error) {
	return Change(s, "change floor plan", Select(UnderlayRef(id)), Changes{Underlay: to})
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
