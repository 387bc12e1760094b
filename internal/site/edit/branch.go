package edit

import "linemap/internal/network"

// Branch is the part of the drain that hangs on a pipe or a node, with the thing
// itself: upstream all that flows into it, downstream its way to the outlet. It is empty for anything else.
func Branch(g *network.Graph, r Ref, upstream bool) Selection {
	b := branch{graph: g, pipes: map[int]bool{}, nodes: map[int]bool{}, upstream: upstream}
	switch r.Kind {
	case Pipe:
		if p, ok := g.PipeIndex(network.PipeID(r.ID)); ok {
			b.pipe(p)
		}
	case Node:
		if n, ok := g.NodeIndex(network.NodeID(r.ID)); ok {
			b.node(n)
		}
	}
	for len(b.open) > 0 {
		p := b.open[len(b.open)-1]
		b.open = b.open[:len(b.open)-1]
		b.beyond(p)
	}
	return b.selection()
}

// branch is a walk along the drain.
type branch struct {
	graph        *network.Graph
	pipes, nodes map[int]bool // those reached, by index
	open         []int        // pipes to go on from
	upstream     bool
}

func (b *branch) pipe(p int) {
	if p >= 0 && !b.pipes[p] {
		b.pipes[p] = true
		b.open = append(b.open, p)
	}
}

// node goes on from a node. Downstream a node that no pipe flows into goes on by
// every pipe out of it; from any other the way of that pipe is the way on.
func (b *branch) node(n int) {
	if n < 0 || b.nodes[n] {
		return
	}
	b.nodes[n] = true
	g := b.graph
	switch {
	case b.upstream:
		for _, p := range g.Above[n] {
			b.pipe(p)
		}
	case len(g.Above[n]) > 0:
		b.pipe(g.Next[g.Above[n][0]])
	default:
		for _, p := range g.Below[n] {
			b.pipe(p)
		}
	}
}

func (b *branch) beyond(p int) {
	if b.upstream {
		b.node(b.graph.Up[p])
	} else {
		b.node(b.graph.Down[p])
	}
}

func (b *branch) selection() Selection {
	s := Selection{make(map[Ref]struct{}, len(b.pipes)+len(b.nodes))}
	for p := range b.pipes {
		s.refs[PipeRef(b.graph.Net.Pipes[p].ID)] = struct{}{}
	}
	for n := range b.nodes {
		s.refs[NodeRef(b.graph.Net.Nodes[n].ID)] = struct{}{}
	}
	return s
}
