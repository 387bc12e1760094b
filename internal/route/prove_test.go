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
			fresh.ease(&n, 5+r.IntN(40))
			fresh.strike(&n)
			require.LessOrEqual(t, n.bound, best.cost, "seed %d", seed)
			for _, run := range best.runs {
				key := fresh.keyIndex(best.seq[run.block])
				require.True(t, slices.ContainsFunc(n.pool.keyed[key].choices, func(ch choice) bool {
					return int(ch.column) == run.column || c.replaces(&ch, run.column)
				}), "seed %d", seed)
			}
			parts++
		}
		spots := s.tour.spotsOf(s.problem, in)
		check(node{spots: s.tour.spotsOf(s.problem, in&r.Uint64())})
		check(node{spots: spots})
		for range 4 {
			day := fresh.around(best.seq, r)
			check(node{spots: spots, day: day})
			orders++
			require.LessOrEqual(t, s.dayOf(day), s.dayCost(best.seq), "seed %d", seed)
		}
		require.LessOrEqual(t, s.tour.day(spots), s.dayCost(best.seq), "seed %d", seed)
		require.GreaterOrEqual(t, len(best.seq), bits.OnesCount64(in))
	}
	t.Logf("%d parts, %d of them with blocks in order", parts, orders)
	require.Greater(t, orders, 300)
}

// around is an outline in which a sequence is, with some of what is so of it
// decided on and the rest left open.
func (s *search) around(seq []blockKey, r *rand.Rand) *outline {
	var stays []int
	var of [][]int32 // by stay, the keys of its blocks
	for i, b := range seq {
		if i == 0 || seq[i-1].spot != b.spot {
			stays, of = append(stays, b.spot), append(of, nil)
		}
		of[len(of)-1] = append(of[len(of)-1], s.keyIndex(b))
	}
	o := &outline{stays: stays}
	s.addStints(o, ^uint64(0))
	for j := 0; j < len(o.stints); j++ {
		switch used := slices.Contains(of[o.stints[j].stay], o.stints[j].key); {
		case used:
			o.stints[j].sure = r.IntN(2) == 0
		case r.IntN(2) == 0:
			o = o.without(j)
			j--
		}
	}
	for a := range o.stints {
		for b := range o.stints {
			if !o.unordered(a, b) || r.IntN(2) == 0 {
				continue
			}
			keys := of[o.stints[a].stay]
			at := func(key int32) (first, last int) {
				first, last = slices.Index(keys, key), -1
				for i, k := range keys {
					if k == key {
						last = i
					}
				}
				return first, last
			}
			firstA, lastA := at(o.stints[a].key)
			firstB, _ := at(o.stints[b].key)
			switch {
			case firstA < 0 || firstB < 0:
			case lastA < firstB:
				o = o.ordered(a, b)
			case firstA < firstB && lastA > firstB:
				return o.returned(a, b)
			}
		}
	}
	return o
}

// replaces tells whether a choice cleans what a column does.
func (c *catalogue) replaces(ch *choice, column int) bool {
	return slices.Equal(c.chain(int(ch.column)), c.chain(column))
}
