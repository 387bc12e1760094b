package route

import (
	"context"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/route/sample"
	"linemap/internal/site"
)

// begun is a district with its first day of visits.
func begun(t *testing.T, s *site.Site) *district {
	t.Helper()
	m, err := newModel(s, sample.Tables())
	require.NoError(t, err)
	c := newCatalogue(m)
	d := &district{relaxed: newRelaxation(c, false)}
	d.relaxed.value()
	d.lineup = newLineup(context.Background(), c)
	d.set(slices.Compact(append(d.sweep(), d.relaxed.schedule()...)))
	return d
}

// What is asked again after a change comes to what asking for everything comes to.
func TestRefresh(t *testing.T) {
	for seed := range uint64(4) {
		d := begun(t, sample.LoopedStreets(seed, 500))
		d.settle()
		for _, change := range []func() int{d.shut, d.thin} {
			require.Positive(t, change())
			total, base, stairs := d.total, slices.Clone(d.base), make([][]step, len(d.stairs))
			for p, s := range d.stairs {
				stairs[p] = slices.Clone(s)
			}
			d.askAll()
			require.Equal(t, d.total, total)
			require.Equal(t, d.base, base)
			for p, s := range d.stairs {
				require.True(t, slices.Equal(s, stairs[p]), "seed %d, target %d", seed, p)
			}
		}
	}
}

// A better order of visits takes no longer than the one before, leaves none out, and
// cleans no target before the one below it.
func TestReorder(t *testing.T) {
	shorter := 0
	for seed := range uint64(6) {
		d := begun(t, sample.Streets(seed, 600))
		d.settle()
		d.thin()
		keys, runs := d.keysInOrder(), d.runs()
		order := d.reorder(keys, runs)
		sorted := slices.Sorted(slices.Values(order))
		place, day := make([]int, len(keys)), []blockKey{}
		for at, v := range order {
			require.Equal(t, at, sorted[at])
			place[v], day = at, append(day, keys[v])
		}
		by := map[int]int{}
		for _, r := range runs {
			for _, p := range d.chain(r.column) {
				by[p] = r.block
			}
		}
		for p, v := range by {
			if below := d.parent[p]; below >= 0 {
				require.LessOrEqual(t, place[by[below]], place[v], "seed %d", seed)
			}
		}
		was, is := d.dayCost(slices.Compact(keys)), d.dayCost(slices.Compact(day))
		require.LessOrEqual(t, is, was, "seed %d", seed)
		if is < was {
			shorter++
		}
	}
	assert.Positive(t, shorter)
}
