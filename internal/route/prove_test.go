package route

import (
	"context"
	"math/bits"
	"math/rand/v2"
	"slices"
	"testing"

	"linemap/internal/route/sample"

	"github.com/stretchr/testify/require"
)

// What a relaxation says of a part of all plans holds for the best plan in that
// part, and the choices that it rules out are in no better plan: with more and
// more of the best plan decided, no bound passes its cost, and its runs stay.
func TestDecisionsKeepTheBest(t *testing.T) {
	tab := sample.Tables()
	parts, orders := 0, 0
	for seed := range 400 {
		r := rand.New(rand.NewPCG(uint64(seed), 23))
		m, err := newModel(sample.Wild(r, 3+r.IntN(6)), tab)
		require.NoError(t, err)
		c := newCatalogue(m)
		s := newSearch(context.Background(), c, nil)
		if s.construct(); len(c.targets) == 0 || !s.best.feasible() || !s.run() {
			continue
		}
		best := s.best
		var in uint64
		for _, b := range best.seq {
			in |= 1 << s.keyIndex(b)
		}
		fresh := newSearch(context.Background(), c, nil)
		fresh.best = solution{cost: best.cost + 1} // so that the best is still to be found
		check := func(n node) {
			n.pool, n.share = fresh.pool, make([]float64, fresh.shares)
			fresh.evaluate(&n, 5+r.IntN(40))
			require.LessOrEqual(t, n.bound, best.cost, "seed %d", seed)
			for _, run := range best.runs {
				key := fresh.keyIndex(best.seq[run.block])
				require.True(t, slices.ContainsFunc(n.pool.keyed[key].choices, func(ch choice) bool {
					return int(ch.column) == run.column || c.replaces(&ch, run.column)
				}), "seed %d", seed)
			}
			parts++
		}
		some := in & r.Uint64()
		check(node{spots: s.tour.spotsOf(s.problem, some), in: some})
		check(node{spots: s.tour.spotsOf(s.problem, in), in: in})
		for n := 1; n <= len(best.seq); n++ {
			seq := best.seq[:n]
			left := in
			for _, b := range seq {
				left &^= 1 << s.keyIndex(b)
			}
			last := int(s.keyIndex(seq[n-1]))
			check(node{in: in, spots: s.tour.spotsOf(s.problem, in), seq: seq, left: left, day: s.dayCost(seq) + s.tour.rest(s.problem, last, left)})
			orders++
		}
		require.LessOrEqual(t, s.tour.day(s.problem, s.tour.spotsOf(s.problem, in), in), s.dayCost(best.seq), "seed %d", seed)
		require.GreaterOrEqual(t, len(best.seq), bits.OnesCount64(in))
	}
	t.Logf("%d parts, %d of them with blocks in order", parts, orders)
	require.Greater(t, orders, 300)
}

// replaces tells whether a choice cleans what a column does.
func (c *catalogue) replaces(ch *choice, column int) bool {
	return slices.Equal(c.chain(int(ch.column)), c.chain(column))
}
