package network_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// No figure, however wild, makes the package fail, and a length stays a
// length.
func TestWildFigures(t *testing.T) {
	wild := rapid.SampledFrom([]float64{
		0, 1, -1, 5e-324, 1e-9, 1e9, 1e300, -1e300, math.MaxFloat64, math.Inf(1), math.Inf(-1), math.NaN(),
	})
	length := func(t *rapid.T) unit.Length { return unit.Length(wild.Draw(t, "length")) }
	rapid.Check(t, func(t *rapid.T) {
		n := anyNetwork(t)
		n = moved(n, func(network.Point) network.Point { return network.Point{X: length(t), Y: length(t)} })
		n.Levels[0].Elevation = length(t)
		for i := range n.Nodes {
			node := &n.Nodes[i]
			node.Turn = unit.Angle(wild.Draw(t, "turn"))
			if node.Invert != nil {
				z := length(t)
				node.Invert = &z
			}
			if node.Access != nil {
				node.Access.Entry = unit.Angle(wild.Draw(t, "entry"))
			}
		}
		for i := range n.Pipes {
			p := &n.Pipes[i]
			p.Size = unit.Size(wild.Draw(t, "size"))
			s := unit.Slope(wild.Draw(t, "slope"))
			p.Slope = &s
			if p.Length != nil {
				l := length(t)
				p.Length = &l
			}
		}
		g, _ := network.Trace(n)
		touch(g)
		g.Findings(ipc, pvcOnly)
		for p := range n.Pipes {
			l := g.Length(p).Metres()
			assert.False(t, math.IsNaN(l) || math.IsInf(l, 0) || l < 0, "length %g", l)
			c := g.Climb(p).Degrees()
			assert.True(t, c >= -90 && c <= 90, "climb %g", c)
		}
	})
}

// IDs that stand twice or name nothing come from a half-made edit.
func TestWildIDs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := anyNetwork(t)
		id := rapid.SampledFrom([]string{"", "n0", "n1", "n99", "p0", "p1"})
		for i := range n.Nodes {
			if rapid.Bool().Draw(t, "again") {
				n.Nodes[i].ID = network.NodeID(id.Draw(t, "id"))
			}
		}
		for i := range n.Pipes {
			if rapid.Bool().Draw(t, "again") {
				n.Pipes[i].ID = network.PipeID(id.Draw(t, "id"))
			}
		}
		g, _ := network.Trace(n)
		touch(g)
		g.Findings(ipc, pvcOnly)
		assert.Len(t, g.Order, len(n.Pipes))
	})
}

// A ring of pipes and a line of them, each far longer than any call stack
// should be deep.
func TestLongChains(t *testing.T) {
	const long = 60_000
	n := &network.Network{Nodes: make([]network.Node, long), Pipes: make([]network.Pipe, long)}
	name := func(i int) string { return string([]rune{rune('a' + i/1000), rune('a' + i%1000)}) }
	for i := range long {
		n.Nodes[i] = network.Node{ID: network.NodeID(name(i)), Kind: network.KindBend, At: network.Point{X: unit.Length(i)}}
		n.Pipes[i] = network.Pipe{ID: network.PipeID(name(i)), From: network.NodeID(name(i)), To: network.NodeID(name((i + 1) % long)), Size: 4}
	}
	n.Nodes[0].Kind = network.KindOutlet
	g, findings := network.Trace(n)
	assert.Len(t, findings, 1)
	assert.True(t, g.Looped[long/2])
	n.Pipes = n.Pipes[:long-1]
	g, findings = network.Trace(n)
	assert.Empty(t, findings)
	assert.False(t, g.Looped[long/2])
}
