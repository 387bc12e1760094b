package site

import (
	"slices"

	"linemap/internal/network"
)

// Clone returns a copy that shares nothing that can be changed with s. Unknown
// members of the file go with it.
func (s *Site) Clone() *Site {
	c := *s
	c.Geo = pointee(s.Geo)
	c.Network.Levels = slices.Clone(s.Network.Levels)
	c.Network.Nodes = each(s.Network.Nodes, network.Node.Clone)
	c.Network.Pipes = each(s.Network.Pipes, network.Pipe.Clone)
	c.Spots = slices.Clone(s.Spots)
	c.Water = slices.Clone(s.Water)
	c.Lays = each(s.Lays, Lay.Clone)
	c.Areas = each(s.Areas, Area.Clone)
	c.Notes = slices.Clone(s.Notes)
	c.Underlays = slices.Clone(s.Underlays) // their data is never changed, only replaced
	c.ByHand = s.ByHand.Clone()
	c.Rig = s.Rig.Clone()
	c.Prices = s.Prices.Clone()
	c.Visits = each(s.Visits, Visit.Clone)
	return &c
}

// Clone returns a copy that shares nothing with l.
func (l Lay) Clone() Lay {
	l.Via, l.Length = slices.Clone(l.Via), pointee(l.Length)
	return l
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
