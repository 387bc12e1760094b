package network_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/network/sketch"
	"linemap/internal/unit"
)

// star is a junction W with an outlet leg OUT-W to the west and a leg in each of
// some directions, in degrees from east: p0, p1, p2 in order.
func star(sizes map[int]unit.Size, directions ...float64) *network.Network {
	n := sketch.Must("OUT -9ft/4in- W")
	n.Pipes[0].Length = nil
	n.Nodes[1].At = network.Point{}
	n.Nodes[0].At = network.Point{X: -3}
	for i, deg := range directions {
		sin, cos := math.Sincos(unit.Degrees(deg).Radians())
		end := network.NodeID(fmt.Sprint("F", i))
		n.Nodes = append(n.Nodes, network.Node{ID: end, Kind: network.KindFixture, At: network.Point{X: unit.Length(3 * cos), Y: unit.Length(3 * sin)}})
		p := network.Pipe{ID: network.PipeID(fmt.Sprint("p", i)), From: end, To: "W", Size: 4, Material: network.PVC40, Class: network.Branch}
		if s, ok := sizes[i]; ok {
			p.Size = s
		}
		n.Pipes = append(n.Pipes, p)
	}
	return n
}

// Which fitting goes with which turn: table 706.3 of the IPC as Chicago prints
// it, 18-29-706.3, has sanitary tees from level to upright alone, wyes and
// combinations everywhere. That a wye's branch turns 45 degrees and the others'
// 90, and that a right angle between level pipes is a combination, is common
// practice.
func TestSuitLyingPipe(t *testing.T) {
	for _, c := range []struct {
		name       string
		directions []float64 // 0 is straight on upstream
		sizes      map[int]unit.Size
		want       network.JunctionKind
		branches   []network.PipeID
		err        string
	}{
		{name: "a wye", directions: []float64{0, 45}, want: network.Wye, branches: []network.PipeID{"p1"}},
		{name: "the order drawn does not matter", directions: []float64{-45, 0}, want: network.Wye, branches: []network.PipeID{"p0"}},
		{name: "a wye drawn by hand", directions: []float64{3, 38}, want: network.Wye, branches: []network.PipeID{"p1"}},
		{name: "the steepest wye", directions: []float64{0, 67}, want: network.Wye, branches: []network.PipeID{"p1"}},
		{name: "half way it is the sharper one", directions: []float64{0, 67.5}, want: network.Combination, branches: []network.PipeID{"p1"}},
		{name: "square", directions: []float64{0, -90}, want: network.Combination, branches: []network.PipeID{"p1"}},
		{name: "against the flow", directions: []float64{0, 135}, want: network.Combination, branches: []network.PipeID{"p1"}},
		{name: "the outflow is of the run", directions: []float64{90, -90}, want: network.Combination, branches: []network.PipeID{"p1"}},
		{name: "the larger of two equally straight is the run", directions: []float64{30, -30}, sizes: map[int]unit.Size{0: 2}, want: network.Wye, branches: []network.PipeID{"p0"}},
		{name: "a straighter one is the run, though smaller", directions: []float64{0, 45}, sizes: map[int]unit.Size{0: 2}, want: network.Wye, branches: []network.PipeID{"p1"}},
		{name: "double wye", directions: []float64{45, 0, -45}, want: network.DoubleWye, branches: []network.PipeID{"p0", "p2"}},
		{name: "cross", directions: []float64{90, 0, -90}, want: network.Cross, branches: []network.PipeID{"p0", "p2"}},
		{name: "two branches on one side", directions: []float64{0, 45, 60}, err: "come in on the same side"},
		{name: "two branches that turn unlike", directions: []float64{0, 45, -90}, err: "pipe p1 turns 45 degrees into the run and pipe p2 turns 90"},
		{name: "two legs", directions: []float64{0}, err: "2 pipes meet there"},
		{name: "five legs", directions: []float64{0, 45, -45, 90}, err: "5 pipes meet there, a fitting joins 3 or 4"},
	} {
		t.Run(c.name, func(t *testing.T) {
			g, _ := network.Trace(star(c.sizes, c.directions...))
			j, err := g.Suit(1)
			if c.err != "" {
				assert.ErrorContains(t, err, c.err)
				assert.ErrorContains(t, err, "W", "names the node")
				return
			}
			require.NoError(t, err)
			assert.Equal(t, network.Junction{Kind: c.want, Branches: c.branches}, j)
		})
	}
}

func TestSuitUprightPipe(t *testing.T) {
	for _, c := range []struct {
		name, text string
		node       network.NodeID
		want       network.JunctionKind
		branches   []network.PipeID
	}{
		{"level into a stack", "OUT -9ft- B1 -9ft/stack- W1 -9ft/stack- VT1; W1 ~9ft- F1", "W1", network.SanitaryTee, []network.PipeID{"W1-F1"}},
		{"two sides into a stack", "OUT -9ft- B1 -9ft/stack- X1 -9ft/stack- VT1; X1 ~9ft- F1; X1 ~9ft- F2", "X1", network.Cross, []network.PipeID{"X1-F1", "X1-F2"}},
		{"a stack into a level run", "OUT -9ft- W1 -9ft- F1; W1 ~9ft/stack- F2", "W1", network.Combination, []network.PipeID{"W1-F2"}},
		{"the end of a run drops into a stack", "OUT -9ft- B1 -9ft/stack- W1 -9ft/stack- VT1; W1 ~9ft/2in- F1", "W1", network.SanitaryTee, []network.PipeID{"W1-F1"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			g, _ := network.Trace(sketch.Must(c.text))
			node, _ := g.NodeIndex(c.node)
			j, err := g.Suit(node)
			require.NoError(t, err)
			assert.Equal(t, network.Junction{Kind: c.want, Branches: c.branches}, j)
		})
	}
}
