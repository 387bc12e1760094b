package route

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// Where a new cleanout would be cut in on the flats, and how deep, read from its
// heights by hand: the ground is where the risers of its openings end.
func TestCutIn(t *testing.T) {
	s, err := site.Open("../../assets/demo/flats.linemap")
	require.NoError(t, err)
	tables, err := site.LoadTables()
	require.NoError(t, err)
	m, err := newModel(s, tables)
	require.NoError(t, err)
	all := m.cutIns()
	count := map[site.Lie]int{}
	for p := range s.Network.Pipes {
		pipe, c := &s.Network.Pipes[p], &all[p]
		count[c.lie]++
		assert.Equal(t, tables.Cures.NewCleanout.Price(c.lie, c.depth, pipe.Size), c.price)
		switch pipe.Class {
		case network.Stack:
			assert.Equal(t, site.InWall, c.lie, m.g.PipeName(p))
		case network.BuildingDrain:
			assert.Equal(t, site.UnderSlab, c.lie, m.g.PipeName(p))
		case network.BuildingSewer:
			assert.Equal(t, site.InYard, c.lie, m.g.PipeName(p))
		default:
			if height, ok := m.height(m.g.Down[p]); ok && height > 2 {
				assert.Equal(t, site.InWall, c.lie, "%s hangs on an upper floor", m.g.PipeName(p))
			}
		}
		if c.lie == site.InWall {
			assert.Zero(t, c.depth, m.g.PipeName(p))
		} else {
			assert.Positive(t, float64(c.depth), m.g.PipeName(p))
		}
	}
	assert.Equal(t, 3, count[site.InYard])
	assert.Greater(t, count[site.UnderSlab], 11)
	assert.Greater(t, count[site.InWall], 15)

	// The last pipe ends at the public sewer, at -2.35 m; the manhole above it has
	// its bottom at -1.975 m and a riser of 1.98 m.
	for p := range s.Network.Pipes {
		if m.g.Next[p] < 0 && m.g.Up[p] >= 0 {
			assert.InDelta(t, 2.355, all[p].depth.Metres(), 1e-9)
		}
	}
}

// Without heights the depth is that of the opening near it, and without openings
// none is told.
func TestCutInWithoutHeights(t *testing.T) {
	s, err := site.Open("../../assets/demo/restaurant.linemap")
	require.NoError(t, err)
	tables, err := site.LoadTables()
	require.NoError(t, err)
	s.Network.Levels = nil
	for i := range s.Network.Nodes {
		n := &s.Network.Nodes[i]
		n.Level, n.Invert = "", nil
		if n.Access != nil && n.Access.Riser > 0 {
			n.Access.Riser = unit.Metres(1.5)
		}
	}
	depths := func() map[unit.Length]int {
		m, err := newModel(s, tables)
		require.NoError(t, err)
		count := map[unit.Length]int{}
		for _, c := range m.cutIns() {
			count[c.depth]++
		}
		return count
	}
	assert.Equal(t, map[unit.Length]int{unit.Metres(1.5): len(s.Network.Pipes)}, depths())
	for i := range s.Network.Nodes {
		if n := &s.Network.Nodes[i]; n.Access != nil {
			n.Access.Riser = 0
		}
	}
	assert.Equal(t, map[unit.Length]int{0: len(s.Network.Pipes)}, depths())
}
