package site

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
)

// The junctions of the demo sites were chosen by hand, by the rules of the trade.
// The one that is found to suit each is the same.
func TestDemoJunctionsSuit(t *testing.T) {
	names, err := Demos()
	require.NoError(t, err)
	seen := 0
	for _, name := range names {
		s, err := Demo(name)
		require.NoError(t, err)
		g, _ := network.Trace(&s.Network)
		for i := range g.Net.Nodes {
			n := &g.Net.Nodes[i]
			if n.Junction == nil {
				continue
			}
			j, err := g.Suit(i)
			require.NoError(t, err, "%s, %s", name, n.Name())
			assert.Equal(t, n.Junction.Kind, j.Kind, "%s, %s", name, n.Name())
			assert.ElementsMatch(t, n.Junction.Branches, j.Branches, "%s, %s", name, n.Name())
			seen++
		}
	}
	assert.Greater(t, seen, 100)
}
