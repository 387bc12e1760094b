package route

import (
	"context"
	"testing"

	"linemap/internal/network"
	"linemap/internal/route/sample"
	"linemap/internal/unit"

	"github.com/stretchr/testify/require"
)

// Days of more stints than fit a bit mask are left at their bound, not taken for
// what they are not: with moves that cost nothing there is no end of stays.
func TestTooManyStints(t *testing.T) {
	s := sample.Building(0, 100)
	s.Rig.Crew.SetUp, s.Rig.Crew.PackUp, s.Rig.Crew.Move = 0, 0, 0
	for i := range s.Spots {
		s.Spots[i].At = network.Point{X: unit.Metres(float64(i)), Y: s.Spots[0].At.Y}
	}
	m, err := newModel(s, sample.Tables())
	require.NoError(t, err)
	se := newSearch(context.Background(), newCatalogue(m), nil)
	se.construct()
	root := se.root
	var choices []choice // from two spots
	for _, ch := range se.all {
		if se.tour.of[se.keys[ch.key].spot] < 2 {
			choices = append(choices, ch)
		}
	}
	root.pool, root.spots = se.newPool(choices), 3
	require.Len(t, s.Rig.Hoses, 3)
	se.ease(root, rootRounds)
	root.stays = 1 + mostStints/3
	se.best.cost = unreachable
	parts, last := se.arrange(root)
	require.True(t, last)
	require.Empty(t, parts)
	root.stays--
	parts, last = se.arrange(root)
	require.False(t, last)
	require.Len(t, parts, 3) // from either spot first, and all that have more stays
}
