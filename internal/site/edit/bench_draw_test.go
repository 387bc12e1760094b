package edit_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

// district is a drain of mains with laterals on both sides: n pipes.
func district(t testing.TB, n int) *site.Site {
	s, err := site.New(unit.US)
	require.NoError(t, err)
	net := &s.Network
	node := func(k network.NodeKind, x, y unit.Length) network.NodeID {
		id := network.NodeID(fmt.Sprint("n", len(net.Nodes)))
		net.Nodes = append(net.Nodes, network.Node{ID: id, Kind: k, At: pt(x, y)})
		return id
	}
	join := func(from, to network.NodeID, size unit.Size) network.PipeID {
		id := network.PipeID(fmt.Sprint("p", len(net.Pipes)))
		net.Pipes = append(net.Pipes, network.Pipe{ID: id, From: from, To: to, Size: size, Material: network.PVC40, Class: network.Main})
		return id
	}
	row := unit.Length(0)
	below := node(network.KindOutlet, -5, 0)
	for len(net.Pipes) < n {
		for i := range 200 {
			x := unit.Length(5 * i)
			w := node(network.KindJunction, x, row)
			join(w, below, 6)
			branch := join(node(network.KindFixture, x+2, row+2), w, 3)
			for k := range net.Nodes {
				if net.Nodes[k].ID == w {
					net.Nodes[k].Junction = &network.Junction{Kind: network.Wye, Branches: []network.PipeID{branch}}
				}
			}
			below = w
		}
		join(node(network.KindCap, 1000, row), below, 6)
		row += 20
		below = node(network.KindOutlet, -5, row)
	}
	return s
}

// BenchmarkDrawPipe ends a pipe on one of 10,000.
func BenchmarkDrawPipe(b *testing.B) {
	s := district(b, 10_000)
	for b.Loop() {
		e, err := edit.DrawPipe(s, free(502, -3), nil, onPipe("p200", 502, 0), plastic(3))
		if err != nil || e.Empty() {
			b.Fatal(err)
		}
	}
}
