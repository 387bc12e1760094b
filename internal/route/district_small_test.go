package route

import (
	"context"
	"math/rand/v2"
	"testing"

	"linemap/internal/route/sample"

	"github.com/stretchr/testify/require"
)

// On sites so small that every plan can be tried, rings and dry spots among them,
// a district's plan is never better than the best, seldom worse, and its bound, in
// which water is fetched, never passes what a plan really costs.
func TestDistrictOnSmallSites(t *testing.T) {
	rounds := 1500
	if testing.Short() {
		rounds = 150
	}
	ctx := context.Background()
	var solved, best int
	for seed := range rounds {
		r := rand.New(rand.NewPCG(uint64(seed), 23))
		c, se, _ := planned(t, sample.Wild(r, 1+r.IntN(8)))
		if len(c.targets) == 0 {
			continue
		}
		want := oracle(c)
		var searched, district Plan
		lacking := c.carryOut(se.best.seq, c.orderRuns(se.best), &searched)
		left, beside := c.planDistrict(ctx, nil, &district)
		require.Empty(t, beside, "seed %d", seed)
		if len(left) > 0 || len(lacking) > 0 {
			continue
		}
		solved++
		dry := toTicks(dryMinutes(&district))
		require.GreaterOrEqual(t, dry, want, "seed %d", seed)
		require.LessOrEqual(t, district.Bound, min(district.Cost, searched.Cost), "seed %d", seed)
		require.LessOrEqual(t, newRelaxation(c, true).bound(ctx, want, boundRounds), want, "seed %d", seed)
		if float64(dry) <= 1.02*float64(want) {
			best++
		}
	}
	t.Logf("%d of %d within 2%%", best, solved)
	require.Greater(t, solved, rounds/3)
	require.Greater(t, best, solved*2/3)
}

// On streets that the search can plan too, a district's plan is about as good.
func TestDistrictBesideSearch(t *testing.T) {
	for seed := range uint64(2) {
		m, err := newModel(sample.Streets(seed, 350), sample.Tables())
		require.NoError(t, err)
		c := newCatalogue(m)
		require.Less(t, len(c.targets), searchTargets)
		searched := c.plan(context.Background(), Options{}).plan
		var district Plan
		left, beside := c.planDistrict(context.Background(), nil, &district)
		require.Empty(t, left)
		require.Empty(t, beside)
		require.LessOrEqual(t, float64(district.Cost), 1.03*float64(searched.Cost), "seed %d", seed)
		require.LessOrEqual(t, district.Bound, searched.Cost, "seed %d", seed)
		require.LessOrEqual(t, searched.Bound, district.Cost, "seed %d", seed)
	}
}
