package edit

import (
	"fmt"
	"slices"

	"linemap/internal/network"
	"linemap/internal/site"
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
