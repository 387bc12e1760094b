package edit

import (
	"errors"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// Reverse turns selected pipes round: they are drawn from the other end and fall
// the other way.
//
// The direction in which a pipe was drawn means nothing to its flow: the water
// goes to an outlet, by the way that contradicts the fewest inverts (see
// [network.Trace]). So what a reversal says is that the heights were the wrong
// way round. The measured inverts of pipes that hang together are turned upside
// down about the middle of their range, so that each of these pipes falls as
// much as before the other way; of one pipe they change places. The fall entered
// for a pipe whose inverts do not tell it changes its sign, for it counts the
// way that the water goes. Where there is no other way to an outlet the water
// still goes as it did, and the findings tell of the adverse fall.
func Reverse(s *site.Site, sel Selection) (*Edit, error) {
	pipes := sel.Keep(func(r Ref) bool { return r.Kind == Pipe })
	name, err := called("reverse", s, pipes)
	if err != nil {
		return nil, errors.New("no pipe is selected to reverse")
	}
	return Make(name, s, func(d *Draft) error {
		parts := parting{}
		for i := range s.Network.Pipes {
			p := s.Network.Pipes[i]
			if !pipes.Has(PipeRef(p.ID)) {
				continue
			}
			parts.join(p.From, p.To)
			p = p.Clone()
			p.From, p.To, p.Via = p.To, p.From, flip(p.Via)
			if p.Slope != nil && !d.measured(&p) {
				fall := -*p.Slope + 0 // 0, not -0
				p.Slope = &fall
			}
			set(d, pipesOf, i, p)
		}
		d.upend(parts)
		return nil
	})
}

// measured reports whether the inverts of a pipe tell its fall.
func (d *Draft) measured(p *network.Pipe) bool {
	from, _ := d.Node(p.From)
	to, _ := d.Node(p.To)
	return from.Invert != nil && to.Invert != nil
}

// upend turns the measured heights of nodes that hang together upside down.
func (d *Draft) upend(parts parting) {
	type span struct{ low, high unit.Length }
	spans := map[network.NodeID]span{}
	nodes := d.site.Network.Nodes
	for i := range nodes {
		z := nodes[i].Invert
		part, ok := parts.of(nodes[i].ID)
		if !ok || z == nil {
			continue
		}
		at, known := spans[part]
		if !known {
			at = span{*z, *z}
		}
		spans[part] = span{min(at.low, *z), max(at.high, *z)}
	}
	for i := range nodes {
		n := nodes[i]
		part, ok := parts.of(n.ID)
		if !ok || n.Invert == nil {
			continue
		}
		z, at := *n.Invert, spans[part]
		switch z {
		case at.low:
			z = at.high
		case at.high:
			z = at.low
		default:
			z = tidy(at.low + (at.high - z))
		}
		if z != *n.Invert {
			n.Invert = &z
			set(d, nodesOf, i, n)
		}
	}
}

// parting tells which nodes hang together: from each to another of its part, the
// one that names the part to itself.
type parting map[network.NodeID]network.NodeID

// of is the node that names the part of a node, false for a node of none.
func (t parting) of(n network.NodeID) (network.NodeID, bool) {
	next, ok := t[n]
	if !ok {
		return n, false
	}
	for next != n {
		t[n] = t[next] // halves the way for the next time
		n, next = next, t[next]
	}
	return n, true
}

func (t parting) join(a, b network.NodeID) {
	for _, n := range [2]network.NodeID{a, b} {
		if _, ok := t[n]; !ok {
			t[n] = n
		}
	}
	a, _ = t.of(a)
	b, _ = t.of(b)
	t[a] = b
}
