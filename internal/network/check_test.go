package network_test

import (
	"slices"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
)

// tester is what a table test and a rapid property have in common.
type tester interface {
	require.TestingT
	Helper()
}

// checkGraph checks what holds for every graph of a sound network.
func checkGraph(t tester, g *network.Graph) {
	t.Helper()
	n := g.Net
	require.Len(t, g.Order, len(n.Pipes))
	stands := make([]int, len(n.Pipes))
	for i := range stands {
		stands[i] = -1
	}
	for i, p := range g.Order {
		require.Equal(t, -1, stands[p], "pipe %d stands twice in the order", p)
		stands[p] = i
	}
	ways := make([]int, len(n.Nodes))
	for i := range ways {
		ways[i] = -1
	}
	for p := range n.Pipes {
		ends := []network.NodeID{n.Nodes[g.Up[p]].ID, n.Nodes[g.Down[p]].ID}
		assert.ElementsMatch(t, []network.NodeID{n.Pipes[p].From, n.Pipes[p].To}, ends)
		assert.Contains(t, g.Below[g.Up[p]], p)
		assert.Contains(t, g.Above[g.Down[p]], p)
		next := g.Next[p]
		if next < 0 {
			assert.Contains(t, g.Outlets, g.Down[p], "the way ends at an outlet")
			continue
		}
		assert.Equal(t, g.Down[p], g.Up[next], "the next pipe starts where this one ends")
		assert.Greater(t, stands[p], stands[next], "a pipe stands after its way")
		if w := ways[g.Down[p]]; w >= 0 {
			assert.Equal(t, w, next, "all pipes into a node go on the same way")
		}
		ways[g.Down[p]] = next
	}
	in, out := 0, 0
	for node := range n.Nodes {
		in += len(g.Above[node])
		out += len(g.Below[node])
		assert.True(t, slices.IsSortedFunc(g.Above[node], byID(n)))
		assert.True(t, slices.IsSortedFunc(g.Below[node], byID(n)))
	}
	assert.Equal(t, len(n.Pipes), in)
	assert.Equal(t, len(n.Pipes), out)
}

func byID(n *network.Network) func(a, b int) int {
	return func(a, b int) int {
		if n.Pipes[a].ID < n.Pipes[b].ID {
			return -1
		}
		return 1
	}
}

// touch calls everything there is on a graph.
func touch(g *network.Graph) {
	for p := range g.Net.Pipes {
		g.Length(p)
		g.Corners(p)
		g.Polyline(p)
		g.Fall(p)
		g.Climb(p)
		g.PipeName(p)
		for q := range g.Net.Pipes {
			g.Passage(p, q)
		}
		for node := range g.Net.Nodes {
			g.Entry(node, p)
		}
	}
	for node := range g.Net.Nodes {
		g.Elevation(node)
		g.NodeName(node)
	}
	g.Passage(-1, len(g.Net.Pipes))
	g.Entry(-1, len(g.Net.Pipes))
	g.NodeName(-1)
	g.PipeName(len(g.Net.Pipes))
}
