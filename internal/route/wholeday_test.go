package route

import (
	"context"
	"math/rand/v2"
	"testing"

	"linemap/internal/route/sample"

	"github.com/stretchr/testify/require"
)

// Wherever the search for the best day is cut short, its bound passes no day, and
// with more work it comes closer.
func TestBestDayCutShort(t *testing.T) {
	tab := sample.Tables()
	cut, whole := 0, 0
	for seed := range 300 {
		r := rand.New(rand.NewPCG(uint64(seed), 43))
		m, err := newModel(thirsty(r, 2+r.IntN(6)), tab)
		require.NoError(t, err)
		c := newCatalogue(m)
		if len(c.targets) == 0 {
			continue
		}
		best, ok := newWetOracle(c).optimum(unreachable - 1)
		if !ok {
			continue
		}
		before := ticks(0)
		for _, work := range []int{0, 40, 400, 4_000, 40_000} {
			end, bound := newWholeDay(c).search(context.Background(), unreachable, work)
			require.LessOrEqual(t, bound, best, "seed %d", seed)
			require.GreaterOrEqual(t, bound, before, "seed %d", seed)
			before = bound
			if end < 0 {
				cut++
				continue
			}
			whole++
			require.Equal(t, best, bound, "seed %d", seed)
		}
	}
	t.Logf("%d cut short, %d not", cut, whole)
	require.Greater(t, cut, 300)
	require.Greater(t, whole, 150)
}

// What takes as long as the best day is left as it is, and proven by it.
func TestBestDayKeepsTheBest(t *testing.T) {
	tab := sample.Tables()
	kept := 0
	for seed := range 100 {
		r := rand.New(rand.NewPCG(uint64(seed), 47))
		m, err := newModel(thirsty(r, 2+r.IntN(6)), tab)
		require.NoError(t, err)
		c := newCatalogue(m)
		got := c.plan(context.Background(), Options{})
		if len(c.targets) == 0 || len(got.left) > 0 {
			continue
		}
		bare := *got.plan
		bare.Bound = 0
		again, left := c.bestDay(context.Background(), &bare, nil)
		require.Empty(t, left)
		require.Same(t, &bare, again, "seed %d", seed)
		require.Equal(t, bare.Cost, again.Bound, "seed %d", seed)
		kept++
	}
	require.Greater(t, kept, 40)
}
