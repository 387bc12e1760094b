package edit

import (
	"errors"
	"fmt"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// samePlace is how far apart on the plan the two ends of a stack may be drawn.
const samePlace = unit.Length(0.05)

// PlaceStack joins a place of one level with the same place of another by an
// upright pipe. It is joined to what is at the anchor, and on the other level to
// the node or the pipe that is there.
func PlaceStack(s *site.Site, at Anchor, to string, style PipeStyle) (*Edit, error) {
	return Make("place stack", s, func(d *Draft) error {
		k := drawing{Draft: d, joins: true}
		from, err := k.level(at)
		if err != nil {
			return err
		}
		if from == "" || to == "" {
			return errors.New("a stack joins two levels, and one of its ends is on none; add levels first")
		}
		if err := errors.Join(levelThere(s, from), levelThere(s, to)); err != nil {
			return err
		}
		a, _ := d.elevation(from)
		b, _ := d.elevation(to)
		switch {
		case from == to:
			return fmt.Errorf("the stack would end on level %q, where it begins", to)
		case a == b:
			return fmt.Errorf("levels %q and %q are at one height, %s; a stack joins two heights", from, to, s.Units.Length(a))
		}
		near, err := k.anchor(at)
		if err != nil {
			return err
		}
		n, _ := d.Node(near)
		far, err := k.anchor(k.across(n.At, to))
		if err != nil {
			return err
		}
		if a < b {
			near, far = far, near // drawn the way it flows
		}
		style.Class, style.Slope = network.Stack, nil
		p, err := k.pipe(near, nil, far, style)
		if err != nil {
			return err
		}
		return k.finish(p)
	})
}

// level is the level that an anchor is on.
func (k *drawing) level(at Anchor) (string, error) {
	if at.Node == "" {
		return at.Level, nil
	}
	n, ok := k.Node(at.Node)
	if !ok {
		return "", noNode(at.Node)
	}
	return n.Level, nil
}

// across is the anchor at a place of another level: the nearest node or pipe
// within reach.
func (k *drawing) across(at network.Point, level string) Anchor {
	a := Anchor{At: at, Level: level}
	off := samePlace
	for i := range k.site.Network.Nodes {
		n := &k.site.Network.Nodes[i]
		if away := n.At.Distance(at); n.Level == level && away <= off {
			a.Node, off = n.ID, away
		}
	}
	if a.Node != "" {
		return a
	}
	for i := range k.site.Network.Pipes {
		p := &k.site.Network.Pipes[i]
		from, _ := k.Node(p.From)
		to, _ := k.Node(p.To)
		line := k.line(p)
		if from.Level != level || to.Level != level || network.WayLength(line) == 0 {
			continue
		}
		if away := nearest(line, at).at.Distance(at); away <= off {
			a.Pipe, off = p.ID, away
		}
	}
	return a
}
