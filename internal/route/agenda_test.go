package route

import (
	"context"
	"math/rand/v2"
	"testing"

	"linemap/internal/route/sample"

	"github.com/stretchr/testify/require"
)

// An agenda gives back the nodes with the lowest bounds first and as they were, and
// where there are too many it leaves those with the highest, at their bound.
func TestAgenda(t *testing.T) {
	m, err := newModel(sample.Building(1, 50), sample.Tables())
	require.NoError(t, err)
	s := newSearch(context.Background(), newCatalogue(m), nil)
	s.best.cost = unreachable
	r := rand.New(rand.NewPCG(1, 53))
	a := s.newAgenda()
	require.Greater(t, a.most, 100)
	a.most = 3
	for _, bound := range []ticks{7, 3, 9, 5, 4} {
		var choices []choice
		for _, ch := range s.all {
			if ch.number%9 != int32(bound) {
				choices = append(choices, ch)
			}
		}
		n := &node{bound: bound, pool: s.newPool(choices), share: make([]float64, s.shares)}
		for i := range n.share {
			n.share[i] = float64(r.IntN(1000))
		}
		a.add(n)
		require.Nil(t, n.pool)
	}
	require.Equal(t, ticks(7), a.lowest)
	for _, bound := range []ticks{3, 4, 5} {
		n := a.next()
		require.Equal(t, bound, n.bound)
		for _, ch := range n.pool.choices {
			require.NotEqual(t, int32(bound), ch.number%9)
			require.Equal(t, s.all[ch.number], ch)
		}
		require.Len(t, n.share, s.shares)
	}
	require.Nil(t, a.next())
}
