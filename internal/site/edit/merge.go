package edit

import (
	"slices"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// oneOf is the pipe that p and q are when the joint between them is a corner, in
// the place of p; false where they have to stay two.
func (h *healing) oneOf(p, q *network.Pipe, n *network.Node) (network.Pipe, bool) {
	if other(p, n.ID) == other(q, n.ID) || !mergeable(p, q) || !h.plain(n, p, q) {
		return network.Pipe{}, false
	}
	one := p.Clone()
	corner := []network.Point{n.At}
	if foot, share := footOf(n.At, h.beside(p, n), h.beside(q, n)); 0 < share && share < 1 && foot.Distance(n.At) < straying {
		corner = nil // it lies on the straight line
	}
	if p.To == n.ID {
		rest := q.Via
		one.To = q.To
		if q.To == n.ID {
			rest, one.To = flip(q.Via), q.From
		}
		one.Via = slices.Concat(p.Via, corner, rest)
	} else {
		rest := q.Via
		one.From = q.From
		if q.From == n.ID {
			rest, one.From = flip(q.Via), q.To
		}
		one.Via = slices.Concat(rest, corner, p.Via)
	}
	if len(one.Via) == 0 {
		one.Via = nil
	}
	if p.Length != nil {
		whole := *p.Length + *q.Length
		one.Length = &whole
	}
	if one.Label == "" {
		one.Label = q.Label
	}
	if one.Note == "" {
		one.Note = q.Note
	}
	return one, site.Check(one) == nil
}

// mergeable reports whether two pipes are of one make and to be cleaned alike, and
// nothing is told of one that is not true of the other.
func mergeable(p, q *network.Pipe) bool {
	return p.Size == q.Size && p.Material == q.Material && p.Class == q.Class &&
		p.Deposit == q.Deposit && severity(p) == severity(q) &&
		p.Fragile == q.Fragile && equal(p.Ceiling, q.Ceiling) && p.OutOfJob == q.OutOfJob &&
		equal(p.Slope, q.Slope) && (p.Length == nil) == (q.Length == nil) &&
		(p.Label == "" || q.Label == "" || stem(p.Label) == stem(q.Label)) &&
		(p.Note == "" || q.Note == "" || p.Note == q.Note)
}

func severity(p *network.Pipe) network.Severity {
	if p.Severity == "" {
		return network.Moderate
	}
	return p.Severity
}

func equal[T comparable](a, b *T) bool {
	return a == b || a != nil && b != nil && *a == *b
}

// plain reports whether a joint between two pipes is a corner and no more: on
// their level, with nothing said of it that a corner cannot keep.
func (h *healing) plain(n *network.Node, p, q *network.Pipe) bool {
	if n.Label != "" || n.Note != "" || n.Turn != 0 {
		return false
	}
	a, _ := h.Node(other(p, n.ID))
	b, _ := h.Node(other(q, n.ID))
	lenP, lenQ := network.WayLength(h.line(p)), network.WayLength(h.line(q))
	if n.Level != a.Level || n.Level != b.Level || lenP == 0 || lenQ == 0 {
		return false // an upright pipe, where the branches of a storey come in
	}
	if n.Invert == nil {
		return true
	}
	if a.Invert == nil || b.Invert == nil {
		return false
	}
	even := *a.Invert + lenP/(lenP+lenQ)*(*b.Invert-*a.Invert)
	return max(even-*n.Invert, *n.Invert-even) < unit.Millimetres(1)
}

// beside is the point of a pipe's way that comes next to an end of it.
func (d *Draft) beside(p *network.Pipe, end *network.Node) network.Point {
	line := d.line(p)
	if p.From != end.ID {
		line = flip(line)
	}
	for _, at := range line[1:] {
		if at != end.At {
			return at
		}
	}
	return end.At
}

// other is the end of a pipe that is not a node.
func other(p *network.Pipe, node network.NodeID) network.NodeID {
	if p.From == node {
		return p.To
	}
	return p.From
}
