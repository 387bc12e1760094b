package route

import (
	"math/rand/v2"
	"slices"
	"testing"

	"linemap/internal/route/sample"

	"github.com/stretchr/testify/require"
)

// The same as [TestExhaustive] on odder networks: of up to eight pipes and two
// loops, with up to three spots and three hoses, where water is short.
func TestExhaustiveWild(t *testing.T) {
	rounds := 3000
	if testing.Short() {
		rounds = 200
	}
	var solved, multi, loops, dry int
	for seed := range rounds {
		r := rand.New(rand.NewPCG(uint64(seed), 17))
		c, se, _ := planned(t, sample.Wild(r, 1+r.IntN(8)))
		if len(c.targets) == 0 {
			continue
		}
		want := oracle(c)
		require.Equal(t, want, se.best.cost, "seed %d", seed)
		require.Equal(t, want, se.bound, "seed %d", seed)
		solved++
		count := func(n *int, is bool) {
			if is {
				*n++
			}
		}
		count(&multi, len(se.best.seq) > 1)
		count(&loops, slices.Contains(c.g.Looped, true))
		count(&dry, slices.ContainsFunc(c.spots, func(s modelSpot) bool { return s.inflow == 0 }))
	}
	t.Logf("%d networks: %d with more than one block, %d with loops, %d with a spot without water",
		solved, multi, loops, dry)
	require.Greater(t, solved, rounds/2)
	require.Greater(t, multi, rounds/20)
	require.Greater(t, loops, rounds/10)
	require.Greater(t, dry, rounds/10)
}
