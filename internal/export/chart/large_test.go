package chart

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/export/svg"
	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// estate is a site of rows of drains, two pipes to each of columns places.
func estate(rows, columns int) *site.Site {
	s := &site.Site{}
	add := func(id string, x, y float64, kind network.NodeKind) network.NodeID {
		n := network.Node{ID: network.NodeID(id), Label: id, Kind: kind, At: network.Point{X: unit.Metres(x), Y: unit.Metres(y)}}
		if kind == network.KindAccess {
			n.Access = &network.Access{Kind: network.TwoWayCleanout, Size: 4, Room: "Room " + id}
		}
		s.Network.Nodes = append(s.Network.Nodes, n)
		return n.ID
	}
	pipe := func(from, to network.NodeID, size unit.Size) {
		id := network.PipeID(from)
		s.Network.Pipes = append(s.Network.Pipes, network.Pipe{ID: id, From: from, To: to, Size: size, Material: network.PVC40})
	}
	outlet := add("OUT", 0, 0, network.KindOutlet)
	ends := []network.NodeKind{network.KindFixture, network.KindAccess}
	for r := range rows {
		below := outlet
		for c := range columns {
			x, y := 4*float64(c+1), 8*float64(r)
			tee := add(fmt.Sprintf("J%d-%d", r, c), x, y, network.KindJunction)
			end := add(fmt.Sprintf("F%d-%d", r, c), x, y+2, ends[c%2])
			pipe(tee, below, 4)
			pipe(end, tee, 2)
			below = tee
		}
	}
	return s
}

func TestLargeSite(t *testing.T) {
	rows, columns := 10, 60
	if raced {
		rows, columns = 5, 60
	}
	s := estate(rows, columns)
	c, err := Draw(s, nil, papers[0])
	require.NoError(t, err)
	assert.Greater(t, len(c.Sheets), 2, "an overview and its tiles")
	said := map[string]bool{}
	for _, text := range texts(c) {
		said[text] = true
	}
	for _, n := range s.Network.Nodes {
		if n.Kind == network.KindFixture {
			assert.True(t, said[n.Label], n.Label)
		}
	}
}

func BenchmarkDraw10000(b *testing.B) {
	s := estate(50, 100)
	require.Len(b, s.Network.Pipes, 10_000)
	for b.Loop() {
		c, err := Draw(s, nil, papers[0])
		require.NoError(b, err)
		b.ReportMetric(float64(len(c.Sheets)), "sheets")
	}
}

// A coordinate with a slip in it makes a pipe of thirty kilometres, of which
// the tiles show a few feet: nothing is patterned that no sheet shows.
func TestStrayNode(t *testing.T) {
	s := estate(1, 20)
	s.Network.Nodes[len(s.Network.Nodes)-1].At.X = unit.Metres(30e3)
	plan := &route.Plan{}
	for _, p := range s.Network.Pipes {
		plan.Shortfalls = append(plan.Shortfalls, route.Shortfall{Pipe: p.ID, Reason: route.NoSpot})
	}
	c, err := Draw(s, plan, papers[0])
	require.NoError(t, err)
	assert.Greater(t, len(c.Sheets), 1, "an overview and its tiles")
	assert.Less(t, len(svg.Encode(c.Sheets, "en", "stray", "")), 1<<20)
}
