package edit

import (
	"fmt"
	"slices"

	"linemap/internal/network"
	"linemap/internal/site"
)

// SplitPipe cuts a pipe in two at the place nearest to a point. What is known of
// the pipe holds for both halves, a measured length is shared out as drawn, and
// the downstream half keeps the pipe's ID.
func SplitPipe(s *site.Site, pipe network.PipeID, at network.Point) (*Edit, error) {
	return Make("split pipe", s, func(d *Draft) error {
		if err := d.onPlan("the place", at); err != nil {
			return err
		}
		id, err := d.split(pipe, at)
		if err == nil {
			d.Made(NodeRef(id))
		}
		return err
	})
}

// HalvePipe cuts a pipe in two in the middle of its way: see [SplitPipe].
func HalvePipe(s *site.Site, pipe network.PipeID) (*Edit, error) {
	d := Draft{site: s}
	p, ok := d.Pipe(pipe)
	if !ok {
		return nil, noPipe(pipe)
	}
	return SplitPipe(s, pipe, placeAlong(d.line(&p), 0.5).at)
}

// AddCorner puts a corner into a pipe behind so many of its corners, from its
// From end: 0 for a first one.
func AddCorner(s *site.Site, pipe network.PipeID, after int, at network.Point) (*Edit, error) {
	return recorner("add corner", s, pipe, func(d *Draft, p *network.Pipe) error {
		if after < 0 || after > len(p.Via) {
			return fmt.Errorf("%s has %d corners; one cannot be put behind %d of them", p.Name(), len(p.Via), after)
		}
		p.Via = slices.Insert(p.Via, after, at)
		return d.onPlan("the corner", at)
	})
}

// MoveCorner moves the i-th corner of a pipe, from 0 at its From end.
func MoveCorner(s *site.Site, pipe network.PipeID, i int, to network.Point) (*Edit, error) {
	return recorner("move corner", s, pipe, func(d *Draft, p *network.Pipe) error {
		if err := hasCorner(p, i); err != nil {
			return err
		}
		p.Via[i] = to
		return d.onPlan("the corner", to)
	})
}

// RemoveCorner takes the i-th corner out of a pipe, from 0 at its From end.
func RemoveCorner(s *site.Site, pipe network.PipeID, i int) (*Edit, error) {
	return recorner("remove corner", s, pipe, func(_ *Draft, p *network.Pipe) error {
		if err := hasCorner(p, i); err != nil {
			return err
		}
		if p.Via = slices.Delete(p.Via, i, i+1); len(p.Via) == 0 {
			p.Via = nil
		}
		return nil
	})
}

func hasCorner(p *network.Pipe, i int) error {
	if i < 0 || i >= len(p.Via) {
		return fmt.Errorf("%s has %d corners, and none of number %d", p.Name(), len(p.Via), i+1)
	}
	return nil
}

// recorner changes the corners of a copy of a pipe and takes it. The fittings at
// its ends follow.
func recorner(name string, s *site.Site, pipe network.PipeID, change func(*Draft, *network.Pipe) error) (*Edit, error) {
	return Make(name, s, func(d *Draft) error {
		p, ok := d.Pipe(pipe)
		if !ok {
			return noPipe(pipe)
		}
		was := d.fittings()
		p = p.Clone()
		if err := change(d, &p); err != nil {
			return err
		}
		if err := site.Check(p); err != nil {
			return fmt.Errorf("%s: %w", p.Name(), err)
		}
		d.SetPipe(p)
		d.follow(was)
		d.Made(PipeRef(pipe))
		return nil
	})
}
