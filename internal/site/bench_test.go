package site

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// largeSite is a comb of n pipes: a main with a branch at every other node.
func largeSite(t testing.TB, n int) *Site {
	s := wholeSite(t)
	s.Lays = s.Lays[1:]
	s.Notes[0].Level, s.Underlays[0].Level = "", ""
	net := network.Network{Nodes: []network.Node{{ID: "n0", Kind: network.KindOutlet}}}
	for i := 1; i <= n; i++ {
		node := network.Node{
			ID: network.NodeID(fmt.Sprint("n", i)), Label: fmt.Sprint("CO-", i), Kind: network.KindAccess,
			At:     network.Point{X: unit.Feet(float64(i)), Y: unit.Feet(float64(i % 7))},
			Access: &network.Access{Kind: network.TwoWayCleanout, Size: 4, Riser: unit.Feet(3), Entry: unit.Degrees(45)},
		}
		invert := unit.Inches(float64(i) / 4)
		node.Invert = &invert
		net.Nodes = append(net.Nodes, node)
		length := unit.Feet(float64(10 + i%13))
		net.Pipes = append(net.Pipes, network.Pipe{
			ID: network.PipeID(fmt.Sprint("p", i)), From: node.ID, To: net.Nodes[i-1-(i%2)*min(i-1, 1)].ID,
			Size: 4, Material: network.CastIron, Class: network.Main, Deposit: network.Grease, Length: &length,
			Via: []network.Point{{X: unit.Feet(float64(i)), Y: 1}},
		})
	}
	s.Network = net
	return s
}

const manyPipes = 10_000

// TestLargeDocument reads back what a town would fill; [BenchmarkDecode] tells
// how long that takes.
func TestLargeDocument(t *testing.T) {
	s := largeSite(t, manyPipes)
	data, err := Encode(s)
	require.NoError(t, err)
	back, err := Decode(data)
	require.NoError(t, err)
	assert.Equal(t, s, back)
}

func BenchmarkDecode(b *testing.B) {
	data, err := Encode(largeSite(b, manyPipes))
	require.NoError(b, err)
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Decode(data); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkEncode(b *testing.B) {
	s := largeSite(b, manyPipes)
	data, err := Encode(s)
	require.NoError(b, err)
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Encode(s); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkClone(b *testing.B) {
	s := largeSite(b, manyPipes)
	b.ReportAllocs()
	for b.Loop() {
		s.Clone()
	}
}

func BenchmarkLoadTables(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := LoadTables(); err != nil {
			b.Fatal(err)
		}
	}
}
