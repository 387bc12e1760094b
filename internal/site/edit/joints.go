package edit

import (
	"fmt"
	"slices"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// healing is the mending of joints at work.
type healing struct {
	*Draft
	legs  map[network.NodeID][]network.PipeID
	flow  *network.Graph // as it was before the first pipe was joined, nil until asked for
	nodes map[network.NodeID]bool
	pipes map[network.PipeID]network.PipeID // gone, with what they became part of
}

// heal makes of joints what the pipes that meet there ask for: caps, bends,
// reducers and junctions, and nothing else. A joint without pipes goes; one pipe
// ends in a cap; two pipes alike become one, with a corner where the joint was,
// two of different sizes meet at a reducer and others at a bend; three or four
// meet at the fitting that suits them, where theirs does not. It errs where no
// fitting does.
//
// Of two pipes that become one the downstream one keeps its ID.
func (d *Draft) heal(nodes ...network.NodeID) error {
	_, err := d.mend(nodes...)
	return err
}

// mend heals joints and tells of each pipe that became part of another.
func (d *Draft) mend(nodes ...network.NodeID) (map[network.PipeID]network.PipeID, error) {
	h := healing{
		Draft: d, legs: d.legsOf(nodes...),
		nodes: map[network.NodeID]bool{}, pipes: map[network.PipeID]network.PipeID{},
	}
	var junctions []network.NodeID
	for _, id := range slices.Compact(slices.Sorted(slices.Values(nodes))) {
		n, ok := d.Node(id)
		if !ok || !joint(n.Kind) {
			continue
		}
		switch len(h.legs[id]) {
		case 0:
			h.nodes[id] = true
		case 1:
			d.become(n, network.KindCap)
		case 2:
			if err := h.pair(n); err != nil {
				return nil, err
			}
		default:
			junctions = append(junctions, id)
		}
	}
	if len(h.pipes) > 0 {
		d.RemovePipes(func(p *network.Pipe) bool { return h.pipes[p.ID] != "" })
	}
	if len(h.nodes) > 0 {
		d.RemoveNodes(func(n *network.Node) bool { return h.nodes[n.ID] })
	}
	if len(junctions) == 0 {
		return h.pipes, nil
	}
	return h.pipes, d.fit(d.trace(), junctions...)
}

// joint reports whether a node of a kind is what the pipes at it make of it.
func joint(k network.NodeKind) bool {
	switch k {
	case network.KindCap, network.KindBend, network.KindReducer, network.KindJunction:
		return true
	}
	return false
}

// legsOf lists the pipes that meet at some nodes.
func (d *Draft) legsOf(nodes ...network.NodeID) map[network.NodeID][]network.PipeID {
	legs := make(map[network.NodeID][]network.PipeID, len(nodes))
	for _, id := range nodes {
		legs[id] = nil
	}
	for i := range d.site.Network.Pipes {
		p := &d.site.Network.Pipes[i]
		for _, end := range [2]network.NodeID{p.From, p.To} {
			if l, asked := legs[end]; asked {
				legs[end] = append(l, p.ID)
			}
		}
	}
	return legs
}

// become makes a joint of another kind of a node.
func (d *Draft) become(n network.Node, kind network.NodeKind) {
	if n.Kind == kind {
		return
	}
	n = n.Clone()
	n.Kind, n.Turn, n.LetsThrough, n.Access, n.Junction = kind, 0, false, nil, nil
	d.SetNode(n)
}

// pair mends a joint at which two pipes meet.
func (h *healing) pair(n network.Node) error {
	p, okP := h.Pipe(h.legs[n.ID][0])
	q, okQ := h.Pipe(h.legs[n.ID][1])
	switch {
	case !okP || !okQ:
		return fmt.Errorf("%s: one of its pipes is not on the site", n.Name())
	case p.Size != q.Size:
		h.become(n, network.KindReducer)
		return nil
	}
	if h.flow == nil {
		h.flow = h.trace()
	}
	if h.into(p.ID, n.ID) && !h.into(q.ID, n.ID) {
		p, q = q, p
	}
	if one, ok := h.oneOf(&p, &q, &n); ok {
		h.SetPipe(one)
		h.swallow(p.ID, &q, &n)
		return nil
	}
	h.become(n, network.KindBend)
	return nil
}

// into reports whether a pipe flows into a node.
func (h *healing) into(pipe network.PipeID, node network.NodeID) bool {
	p, okP := h.flow.PipeIndex(pipe)
	n, okN := h.flow.NodeIndex(node)
	return okP && okN && h.flow.Down[p] == n
}

// swallow takes away a pipe and the joint by which it became part of another.
func (h *healing) swallow(kept network.PipeID, gone *network.Pipe, n *network.Node) {
	h.nodes[n.ID], h.pipes[gone.ID] = true, kept
	far := other(gone, n.ID)
	h.rehang(far, gone.ID, kept)
	if legs, asked := h.legs[far]; asked {
		legs[slices.Index(legs, gone.ID)] = kept
	}
	h.renameEnds(gone.ID, kept, func(site.RunKey) bool { return true })
}

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
	lenP, lenQ := lineLength(h.line(p)), lineLength(h.line(q))
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
