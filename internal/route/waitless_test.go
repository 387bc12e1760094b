package route

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"linemap/internal/route/sample"

	"github.com/stretchr/testify/require"
)

// The runs of a block come in an order in which the crew waits no longer than in
// any other that was given, and often less: the same runs, and none before the run
// that cleans the pipe below it.
func TestWaitLess(t *testing.T) {
	tab := sample.Tables()
	wet, less := 0, 0
	for seed := range 600 {
		r := rand.New(rand.NewPCG(uint64(seed), 41))
		m, err := newModel(thirsty(r, 3+r.IntN(12)), tab)
		require.NoError(t, err)
		c := newCatalogue(m)
		s := newSearch(context.Background(), c, nil)
		if s.construct(); len(c.targets) == 0 || !s.best.feasible() {
			continue
		}
		seq, runs := s.best.seq, s.orderRuns(s.best)
		for j := range runs {
			shuffleRuns(r, c, runs[j])
		}
		var before, after Plan
		lacking := c.carryOut(seq, runs, &before)
		if len(lacking) > 0 || toTicks(before.Cost) == s.best.cost {
			continue
		}
		given := slices.Clone(runs)
		for j := range runs {
			given[j] = slices.Clone(runs[j])
		}
		c.waitLess(seq, runs)
		for j := range runs {
			require.ElementsMatch(t, given[j], runs[j], "seed %d", seed)
			require.True(t, c.lowestFirst(runs[j]), "seed %d", seed)
		}
		require.Empty(t, c.carryOut(seq, runs, &after), "seed %d", seed)
		require.LessOrEqual(t, after.Cost, before.Cost, "seed %d", seed)
		wet++
		if after.Cost < before.Cost {
			less++
		}
	}
	t.Logf("%d of %d are shorter", less, wet)
	require.Greater(t, wet, 100)
	require.Greater(t, less, wet/4)
}

// lowestFirst tells whether no run of a block comes before the run that cleans the
// pipe below it.
func (c *catalogue) lowestFirst(columns []int) bool {
	for i, col := range columns {
		below := c.parent[c.columns[col].low]
		for _, later := range columns[i+1:] {
			if slices.Contains(c.chain(later), below) {
				return false
			}
		}
	}
	return true
}

// shuffleRuns puts the runs of a block in a random order, lowest first.
func shuffleRuns(r *rand.Rand, c *catalogue, columns []int) {
	for range 4 * len(columns) {
		i, j := r.IntN(len(columns)), r.IntN(len(columns))
		columns[i], columns[j] = columns[j], columns[i]
		if !c.lowestFirst(columns) {
			columns[i], columns[j] = columns[j], columns[i]
		}
	}
}

// In a building where the runs lowest first would have the crew wait for some
// 20 min at a slow tap, another order lets the tank fill between thirsty runs, so
// that it waits for none.
func TestNoWaitAtASlowTap(t *testing.T) {
	m, err := newModel(sample.Building(3, 300), sample.Tables())
	require.NoError(t, err)
	c := newCatalogue(m)
	plan := c.plan(context.Background(), Options{}).plan
	require.False(t, slices.ContainsFunc(plan.Day, func(e Event) bool { return e.Kind == EventWait }))
	require.Equal(t, dryMinutes(plan), plan.Cost)
}
