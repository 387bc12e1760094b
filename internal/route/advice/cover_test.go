package advice

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
)

// randomCover is a few sets of a few items, some of them of one price.
func randomCover(r *rand.Rand) *cover {
	c := &cover{}
	for range 1 + r.IntN(9) {
		var ids []network.PipeID
		for i := range 8 {
			if r.IntN(3) == 0 {
				ids = append(ids, network.PipeID(rune('a'+i)))
			}
		}
		c.add(ids, float64(1+r.IntN(4)))
	}
	return c
}

// everySubset is what the best cover comes to, found by trying them all.
func everySubset(c *cover) load {
	best := load{count: len(c.sets) + 1}
	for mask := range 1 << len(c.sets) {
		held, l := map[int]bool{}, load{}
		for i := range c.sets {
			if mask&(1<<i) != 0 {
				l = l.plus(load{1, c.sets[i].price})
				for _, item := range c.sets[i].items {
					held[item] = true
				}
			}
		}
		if len(held) == len(c.items) && l.less(best) {
			best = l
		}
	}
	return best
}

// holdsAll tells whether sets hold every item.
func holdsAll(c *cover, sets []int) bool {
	held := map[int]bool{}
	for _, i := range sets {
		for _, item := range c.sets[i].items {
			held[item] = true
		}
	}
	return len(held) == len(c.items)
}

// The cover has the fewest sets, and is the cheapest of those; what it would tell
// as a bound if it were broken off is one.
func TestCoverIsTheFewestAndCheapest(t *testing.T) {
	for seed := range 2000 {
		c := randomCover(rand.New(rand.NewPCG(uint64(seed), 5)))
		want := everySubset(c)
		got := c.choose()
		require.True(t, got.exact, "seed %d", seed)
		require.True(t, holdsAll(c, got.sets), "seed %d", seed)
		have := c.load(got.sets)
		require.Equal(t, want.count, have.count, "seed %d", seed)
		require.InDelta(t, want.price, have.price, 1e-9, "seed %d", seed)
		require.Equal(t, want.count, got.least.count, "seed %d", seed)
		require.False(t, want.less(sumOfBounds(c)), "seed %d", seed)
	}
}

func sumOfBounds(c *cover) (l load) {
	for _, items := range c.parts() {
		l = l.plus(newSearch(c, items, 1).atLeast())
	}
	return l
}

// Where two sets do for what three cheaper ones do, two are taken, and the
// cheaper of equals.
func TestFewestGoesBeforeCheapest(t *testing.T) {
	c := &cover{}
	c.add([]network.PipeID{"a", "b", "c"}, 900)
	c.add([]network.PipeID{"a"}, 100)
	c.add([]network.PipeID{"b", "c"}, 100)
	c.add([]network.PipeID{"a", "b", "c"}, 800)
	assert.Equal(t, []int{3}, c.choose().sets)
}

// A cover too large for the exact search says so, and tells a bound.
func TestLargeCover(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 7))
	c := &cover{}
	for range 300 {
		var ids []network.PipeID
		for range 4 {
			ids = append(ids, network.PipeID(fmt.Sprint(r.IntN(200))))
		}
		c.add(ids, float64(1+r.IntN(9)))
	}
	got := c.choose()
	assert.True(t, holdsAll(c, got.sets))
	assert.False(t, got.exact)
	assert.Less(t, got.least.count, len(got.sets))
	assert.GreaterOrEqual(t, got.least.count, len(c.items)/4)
}
