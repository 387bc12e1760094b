package chart

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// tower is a shop with storeys more floors on top, a fixture on each.
func tower(floors int) *site.Site {
	s := shop()
	net := &s.Network
	below := network.NodeID("T9")
	at := net.Nodes[len(net.Nodes)-3].At
	for i := range floors {
		level := network.Level{Name: fmt.Sprintf("Floor %d", i+3), Elevation: unit.Feet(float64(11 * (i + 2)))}
		tee := network.NodeID(fmt.Sprintf("tee%d", i))
		wc := network.NodeID(fmt.Sprintf("WC-%d", i+3))
		net.Levels = append(net.Levels, level)
		net.Nodes = append(net.Nodes,
			network.Node{ID: tee, Kind: network.KindJunction, Level: level.Name, At: at, Junction: &network.Junction{Kind: network.SanitaryTee}},
			network.Node{ID: wc, Label: string(wc), Kind: network.KindFixture, Level: level.Name, At: network.Point{X: at.X - 3, Y: at.Y}})
		net.Pipes = append(net.Pipes,
			network.Pipe{ID: network.PipeID("s" + tee), From: tee, To: below, Size: 3, Material: network.CastIron, Class: network.Stack},
			network.Pipe{ID: network.PipeID("l" + wc), From: wc, To: tee, Size: 3, Material: network.CastIron, Class: network.Lateral})
		below = tee
	}
	return s
}

func TestStoreys(t *testing.T) {
	g, _ := network.Trace(&shop().Network)
	all := storeys(g, true)
	require.Len(t, all, 2)
	assert.True(t, all[0].main)
	assert.Equal(t, "Ground floor", all[0].name())
	require.Len(t, all[0].rises, 1)
	up := all[0].rises[0]
	assert.Equal(t, network.PipeID("S1"), g.Net.Pipes[up.pipe].ID)
	assert.Equal(t, network.NodeID("F1"), g.Net.Nodes[up.node].ID)
	assert.True(t, up.up)
	assert.Equal(t, "Second floor", all[1].name())
	assert.False(t, all[1].rises[0].up)

	// A pipe that runs across from one level to another makes them one plan.
	s := shop()
	s.Network.Levels = append(s.Network.Levels, network.Level{Name: "Yard", Elevation: -1})
	for i := range s.Network.Nodes {
		if id := s.Network.Nodes[i].ID; id == "OUT" || id == "MH1" {
			s.Network.Nodes[i].Level = "Yard"
		}
	}
	g, _ = network.Trace(&s.Network)
	all = storeys(g, true)
	require.Len(t, all, 2)
	assert.Equal(t, "Yard, Ground floor", all[0].name())
}

func TestTower(t *testing.T) {
	for floors, most := range map[int]int{1: 1, 6: 1, 60: 4} {
		s := tower(floors)
		c, err := Draw(s, shopPlan(), papers[0])
		require.NoError(t, err)
		assert.LessOrEqual(t, len(c.Sheets), most, "%d floors", floors)
		said := texts(c)
		for i := range floors {
			assert.Contains(t, said, fmt.Sprintf("WC-%d", i+3))
		}
		assert.Contains(t, said, fmt.Sprintf("%d of %d", len(c.Sheets), len(c.Sheets)))
		for _, p := range panels(c) {
			assert.Empty(t, overlaps(&p), p.Name)
		}
	}
}
