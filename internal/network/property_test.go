package network_test

import (
	"math"
	"testing"

	"github.com/dominikbraun/graph"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/network"
	"linemap/internal/unit"
)

func TestAnyNetworkTraces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g, _ := network.Trace(anyNetwork(t))
		checkGraph(t, g)
		touch(g)
		for _, code := range []network.Code{ipc, upc, local} {
			g.Findings(code, pvcOnly)
		}
	})
}

// Every node's way is the one that a general graph library finds: fewest
// contradicted inverts, then the least length.
func TestWaysAreShortest(t *testing.T) {
	const contradiction = 1e9 // outweighs any length, in millimetres
	rapid.Check(t, func(t *rapid.T) {
		n := anyNetwork(t)
		for i := range n.Pipes { // whole millimetres, as the library counts
			l := unit.Length(rapid.IntRange(0, 9).Draw(t, "length"))
			n.Pipes[i].Length = &l
		}
		g, _ := network.Trace(n)
		oracle := graph.New(func(n network.NodeID) network.NodeID { return n }, graph.Directed(), graph.Weighted())
		for _, node := range n.Nodes {
			require.NoError(t, oracle.AddVertex(node.ID))
		}
		weight := func(p int, up, down *network.Node) int {
			w := int(math.Round(g.Length(p).Millimetres()))
			if up.Invert != nil && down.Invert != nil && *up.Invert < *down.Invert {
				w += contradiction
			}
			return w
		}
		for p := range n.Pipes {
			a, b := &n.Nodes[g.Up[p]], &n.Nodes[g.Down[p]]
			for _, way := range [][2]*network.Node{{a, b}, {b, a}} {
				w := weight(p, way[0], way[1])
				if e, err := oracle.Edge(way[0].ID, way[1].ID); err == nil && e.Properties.Weight > w {
					require.NoError(t, oracle.UpdateEdge(way[0].ID, way[1].ID, graph.EdgeWeight(w)))
				} else if err != nil {
					require.NoError(t, oracle.AddEdge(way[0].ID, way[1].ID, graph.EdgeWeight(w)))
				}
			}
		}
		for p := range n.Pipes {
			ours := 0
			for q := g.Next[p]; q >= 0; q = g.Next[q] {
				ours += weight(q, &n.Nodes[g.Up[q]], &n.Nodes[g.Down[q]])
			}
			best := math.MaxInt
			for _, outlet := range g.Outlets {
				from, to := n.Nodes[g.Down[p]].ID, n.Nodes[outlet].ID
				path, err := graph.ShortestPath(oracle, from, to)
				if from == to {
					path, err = nil, nil
				}
				if err != nil {
					continue
				}
				sum := 0
				for i := 1; i < len(path); i++ {
					e, err := oracle.Edge(path[i-1], path[i])
					require.NoError(t, err)
					sum += e.Properties.Weight
				}
				best = min(best, sum)
			}
			require.Equal(t, best, ours, "the way of %s", n.Pipes[p].ID)
		}
	})
}

// A pipe lies on a loop when its ends stay joined without it.
func TestLoopedPipes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := anyNetwork(t)
		g, _ := network.Trace(n)
		for p := range n.Pipes {
			rest := graph.New(graph.IntHash)
			for i := range n.Nodes {
				require.NoError(t, rest.AddVertex(i))
			}
			for q := range n.Pipes {
				if q != p {
					_ = rest.AddEdge(g.Up[q], g.Down[q]) // side by side counts once
				}
			}
			joined := false
			require.NoError(t, graph.BFS(rest, g.Up[p], func(node int) bool { joined = node == g.Down[p]; return joined }))
			require.Equal(t, joined, g.Looped[p], "pipe %s", n.Pipes[p].ID)
		}
	})
}

// The sums of length down to the outlet are the same whether they are walked
// pipe by pipe or carried along the order.
func TestLengthsToTheOutlet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g, _ := network.Trace(anyNetwork(t))
		carried := make([]unit.Length, len(g.Next))
		for _, p := range g.Order {
			carried[p] = g.Length(p)
			if next := g.Next[p]; next >= 0 {
				carried[p] += carried[next]
			}
			walked, steps := unit.Length(0), 0
			for q := p; q >= 0; q = g.Next[q] {
				walked += g.Length(q)
				steps++
				require.LessOrEqual(t, steps, len(g.Next), "a way never comes back")
			}
			assert.InDelta(t, walked.Metres(), carried[p].Metres(), 1e-9)
		}
	})
}
