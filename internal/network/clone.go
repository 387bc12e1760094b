package network

import "slices"

// Clone returns a copy that shares nothing with n.
func (n Node) Clone() Node {
	n.Invert, n.Access, n.Junction = pointee(n.Invert), pointee(n.Access), pointee(n.Junction)
	if n.Junction != nil {
		n.Junction.Branches = slices.Clone(n.Junction.Branches)
	}
	return n
}

// Clone returns a copy that shares nothing with p.
func (p Pipe) Clone() Pipe {
	p.Via = slices.Clone(p.Via)
	p.Length, p.Slope, p.Ceiling = pointee(p.Length), pointee(p.Slope), pointee(p.Ceiling)
	return p
}

// pointee returns a pointer to a copy of what p points to.
func pointee[T any](p *T) *T {
	if p == nil {
		return nil
	}
	v := *p
	return &v
}
