package site

import (
	"slices"

	"linemap/internal/network"
	"linemap/internal/rig"
)

// Clone returns a copy that shares nothing that can be changed with s. Unknown
// members of the file go with it.
func (s *Site) Clone() *Site {
	c := *s
	c.Network.Levels = slices.Clone(s.Network.Levels)
	c.Network.Nodes = each(s.Network.Nodes, cloneNode)
	c.Network.Pipes = each(s.Network.Pipes, clonePipe)
	c.Spots = slices.Clone(s.Spots)
	c.Water = slices.Clone(s.Water)
	c.Lays = each(s.Lays, func(l Lay) Lay {
		l.Via, l.Length = slices.Clone(l.Via), pointee(l.Length)
		return l
	})
	c.Notes = slices.Clone(s.Notes)
	c.Underlays = slices.Clone(s.Underlays) // their data is never changed, only replaced
	c.ByHand = s.ByHand.Clone()
	c.Rig.Hoses = slices.Clone(s.Rig.Hoses)
	c.Rig.Nozzles = each(s.Rig.Nozzles, func(n rig.Nozzle) rig.Nozzle {
		n.Purposes, n.Orifices = slices.Clone(n.Purposes), slices.Clone(n.Orifices)
		return n
	})
	return &c
}

func cloneNode(n network.Node) network.Node {
	n.Invert, n.Access, n.Junction = pointee(n.Invert), pointee(n.Access), pointee(n.Junction)
	if n.Junction != nil {
		n.Junction.Branches = slices.Clone(n.Junction.Branches)
	}
	return n
}

func clonePipe(p network.Pipe) network.Pipe {
	p.Via = slices.Clone(p.Via)
	p.Length, p.Slope, p.Ceiling = pointee(p.Length), pointee(p.Slope), pointee(p.Ceiling)
	return p
}

// each copies a list element by element. It keeps nil apart from empty.
func each[T any](list []T, clone func(T) T) []T {
	c := slices.Clone(list)
	for i := range c {
		c[i] = clone(c[i])
	}
	return c
}

// pointee returns a pointer to a copy of what p points to.
func pointee[T any](p *T) *T {
	if p == nil {
		return nil
	}
	v := *p
	return &v
}
