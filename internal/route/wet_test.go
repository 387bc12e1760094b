package route

import (
	"context"
	"math/rand/v2"
	"testing"

	"linemap/internal/route/sample"

	"github.com/stretchr/testify/require"
)

// In the wet a search bounds what plans take with all their waiting and fetching:
// the bound passes no plan that is known, and the plan that comes of it is never
// dearer than the one made in the dry.
func TestSoak(t *testing.T) {
	tab := sample.Tables()
	cheaper, tighter := 0, 0
	for seed := range 600 {
		r := rand.New(rand.NewPCG(uint64(seed), 29))
		m, err := newModel(sample.Wild(r, 3+r.IntN(9)), tab)
		require.NoError(t, err)
		c := newCatalogue(m)
		s := newSearch(context.Background(), c, nil)
		if s.construct(); len(c.targets) == 0 || !s.best.feasible() {
			continue
		}
		s.run()
		dry, bound := &Plan{}, s.bound
		left := c.carryOut(s.best.seq, c.orderRuns(s.best), dry)
		if len(left) > 0 || toTicks(dry.Cost) == s.best.cost {
			continue
		}
		got := s.soak(dry)
		require.LessOrEqual(t, got.Cost, dry.Cost, "seed %d", seed)
		require.LessOrEqual(t, s.bound, toTicks(got.Cost), "seed %d", seed)
		require.GreaterOrEqual(t, s.bound, bound, "seed %d", seed)
		if got.Cost < dry.Cost {
			cheaper++
		}
		if s.bound > bound {
			tighter++
		}
	}
	t.Logf("%d plans are cheaper, %d bounds tighter", cheaper, tighter)
	require.Greater(t, cheaper, 5)
	require.Greater(t, tighter, 20)
}
