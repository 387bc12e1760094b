package route

import (
	"math/rand/v2"
	"slices"
	"testing"

	"linemap/internal/route/sample"

	"github.com/stretchr/testify/require"
)

// laidOut are the problems of some odd sites and of a building.
func laidOut(t *testing.T) (out []*problem) {
	t.Helper()
	tab := sample.Tables()
	add := func(m *model, err error) {
		require.NoError(t, err)
		if c := newCatalogue(m); len(c.targets) > 0 && c.searchable() {
			out = append(out, newProblem(c))
		}
	}
	for seed := range uint64(60) {
		r := rand.New(rand.NewPCG(seed, 31))
		add(newModel(sample.Wild(r, 3+r.IntN(25)), tab))
	}
	add(newModel(sample.Building(3, 100), tab))
	require.Greater(t, len(out), 30)
	return out
}

// A rough plan costs, change by change, what a cover of the whole sequence finds
// with the same shares of the openings.
func TestRoughCostsWhatACoverDoes(t *testing.T) {
	changes, left := 0, 0
	for n, p := range laidOut(t) {
		v := newCover(p)
		o := newRough(p, v.pool)
		r := rand.New(rand.NewPCG(uint64(n), 37))
		for range 5 {
			all := slices.Collect(o.changes())
			for i, next := range all {
				if len(all) > 50 && i%17 != 0 {
					continue
				}
				got := o.cost(next)
				require.Equal(t, v.least(next), got, "site %d: %v after %v", n, next, o.seq)
				changes++
				if got >= unreachable {
					left++
				}
			}
			o.take(all[r.IntN(len(all))])
			require.Equal(t, v.least(o.seq), o.total)
		}
	}
	t.Logf("%d changes, %d of them to days that leave something", changes, left)
	require.Greater(t, changes, 2000)
	require.Greater(t, left, 300)
	require.Greater(t, changes-left, 300)
}

// Whatever can be made from a spot is a choice, or is replaced by one that cleans
// the same from there with no more water and at no more cost, its opening included.
func TestChoicesReplaceTheRest(t *testing.T) {
	kept, replaced := 0, 0
	for n, p := range laidOut(t) {
		usable := p.usable()
		for i := range p.columns {
			if !usable[i] {
				continue
			}
			col := &p.columns[i]
			end := &p.places[col.end]
			for bit, near := range p.access[end.access].near {
				if col.spots>>bit&1 == 0 {
					continue
				}
				key := p.keyIndex(blockKey{near.spot, end.hose})
				does := func(ch choice) bool {
					return ch.key == key && ch.low == p.index[col.low] && slices.Equal(sortedChain(p, int(ch.column)), sortedChain(p, i))
				}
				if slices.ContainsFunc(p.all, func(ch choice) bool { return ch.key == key && int(ch.column) == i }) {
					kept++
					continue
				}
				replaced++
				require.True(t, slices.ContainsFunc(p.all, func(ch choice) bool {
					cost := ch.cost
					if int(ch.access) != end.access {
						cost += p.openPrice(int(ch.access), key)
					}
					return does(ch) && cost <= col.cost && ch.water <= col.water
				}), "site %d: column %d from spot %d", n, i, near.spot)
			}
		}
	}
	t.Logf("%d choices, %d others", kept, replaced)
	require.Positive(t, replaced)
}

func sortedChain(p *problem, column int) []int {
	out := p.chain(column)
	slices.Sort(out)
	return out
}
