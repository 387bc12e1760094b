package audit

import (
	"iter"
	"math"
	"slices"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// ways lists every way that ends with a pipe: up to it from any access below,
// and down to it from any access above. Both follow the pipe's own way to the
// outlet, so there is one for each access and side, or where flow divides at an
// access above, one for each pipe that leaves it, in their order.
func (g *ground) ways(pipe int) []way {
	out := slices.Collect(g.waysWithin(pipe, unit.Length(math.Inf(1))))
	down := slices.IndexFunc(out, func(w way) bool { return w.down })
	if down >= 0 {
		slices.SortFunc(out[down:], func(a, b way) int { return a.pipes[0] - b.pipes[0] })
	}
	return out
}

// waysWithin goes through the ways that are no longer than a length, up before
// down and near before far.
func (g *ground) waysWithin(pipe int, most unit.Length) iter.Seq[way] {
	return func(yield func(way) bool) {
		_ = !g.ring(pipe) && g.waysUp(pipe, most, yield) && g.waysDown(pipe, most, yield)
	}
}

// waysUp goes through the ways from accesses below; it reports whether more are
// wanted.
func (g *ground) waysUp(pipe int, most unit.Length, more func(way) bool) bool {
	var up []int
	length := unit.Length(0)
	for p := pipe; p >= 0 && len(up) < len(g.pipes) && !g.ring(p); p = g.graph.Next[p] {
		up = append(up, p)
		if length += g.pipes[p].length; length > most {
			break
		}
		if node := g.graph.Down[p]; g.isAccess(node) {
			pipes := slices.Clone(up)
			slices.Reverse(pipes)
			if !more(way{access: node, pipes: pipes}) {
				return false
			}
		}
	}
	return true
}

// waysDown does so for accesses above.
func (g *ground) waysDown(pipe int, most unit.Length, more func(way) bool) bool {
	type end struct {
		pipe, from int // from is the end below it in the list
		length     unit.Length
	}
	ends := []end{{pipe, -1, g.pipes[pipe].length}}
	for i := 0; i < len(ends); i++ {
		e := ends[i]
		if e.length > most {
			continue
		}
		if node := g.graph.Up[e.pipe]; g.isAccess(node) {
			var pipes []int
			for at := i; at >= 0; at = ends[at].from {
				pipes = append(pipes, ends[at].pipe)
			}
			if !more(way{access: node, down: true, pipes: pipes}) {
				return false
			}
		}
		for _, p := range g.above[e.pipe] {
			ends = append(ends, end{p, i, e.length + g.pipes[p].length})
		}
	}
	return true
}

// findAbove lists the pipes whose way to the outlet goes on in each pipe.
func (g *ground) findAbove() {
	g.above = make([][]int, len(g.pipes))
	for p, next := range g.graph.Next {
		if next >= 0 && !g.ring(p) && !g.ring(next) {
			g.above[next] = append(g.above[next], p)
		}
	}
}

// ring tells whether a pipe ends where it starts; such a pipe leads nowhere.
func (g *ground) ring(pipe int) bool { return g.graph.Up[pipe] == g.graph.Down[pipe] }

func (g *ground) isAccess(node int) bool {
	return node >= 0 && g.net.Nodes[node].Kind == network.KindAccess && g.net.Nodes[node].Access != nil
}
