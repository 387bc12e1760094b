package audit

import (
	"slices"

	"linemap/internal/network"
)

// ways lists every way that ends with a pipe: up to it from any access below,
// and down to it from any access above. Both follow the pipe's own way to the
// outlet, so there is one for each access and side.
func (g *ground) ways(pipe int) []way {
	var out []way
	var up []int
	for p := pipe; p >= 0 && len(up) < len(g.pipes) && !g.ring(p); p = g.graph.Next[p] {
		up = append(up, p)
		if node := g.graph.Down[p]; g.isAccess(node) {
			pipes := slices.Clone(up)
			slices.Reverse(pipes)
			out = append(out, way{access: node, pipes: pipes})
		}
	}
	for first := range g.pipes {
		node := g.graph.Up[first]
		if !g.isAccess(node) {
			continue
		}
		var down []int
		for p := first; p >= 0 && len(down) < len(g.pipes) && !g.ring(p); p = g.graph.Next[p] {
			down = append(down, p)
			if p == pipe {
				out = append(out, way{access: node, down: true, pipes: down})
				break
			}
		}
	}
	return out
}

// ring tells whether a pipe ends where it starts; such a pipe leads nowhere.
func (g *ground) ring(pipe int) bool { return g.graph.Up[pipe] == g.graph.Down[pipe] }

func (g *ground) isAccess(node int) bool {
	return node >= 0 && g.net.Nodes[node].Kind == network.KindAccess && g.net.Nodes[node].Access != nil
}
