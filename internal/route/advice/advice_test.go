package advice

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/route"
	"linemap/internal/route/audit"
	"linemap/internal/route/sample"
	"linemap/internal/site"
)

// On random sites a set of new cleanouts never makes the plan reach less, has no
// more cleanouts than pipes are missing, and with it put in all is reached that
// one cleanout can reach.
func TestCleanoutsReachWhatTheyPromise(t *testing.T) {
	tables, some := sample.Tables(), 0
	for seed := range 60 {
		s := sample.Random(rand.New(rand.NewPCG(uint64(seed), 3)), 8)
		base, err := Weigh(t.Context(), s, tables)
		require.NoError(t, err)
		c, err := Accesses(t.Context(), s, tables, base)
		require.NoError(t, err)
		require.LessOrEqual(t, len(c.Set), len(base.Plan.Shortfalls), "seed %d", seed)
		require.LessOrEqual(t, c.Least, len(c.Set))
		require.GreaterOrEqual(t, float64(c.With.Wins), -1e-6, "seed %d", seed)
		if len(c.Set) > 0 {
			some++
			require.Greater(t, float64(c.With.Wins), 0.0, "seed %d", seed)
		}
	}
	assert.Greater(t, some, 5)
}

// The exact cover is never larger than one found by trying every subset.
func TestCoverIsTheSmallest(t *testing.T) {
	for seed := range 200 {
		r := rand.New(rand.NewPCG(uint64(seed), 5))
		var c cover
		n := 1 + r.IntN(7)
		for range n {
			var ids []network.PipeID
			for i := range 6 {
				if r.IntN(3) == 0 {
					ids = append(ids, network.PipeID(rune('a'+i)))
				}
			}
			c.add(ids)
		}
		least := n + 1
		for mask := range 1 << n {
			held, size := map[int]bool{}, 0
			for i := range n {
				if mask&(1<<i) != 0 {
					size++
					for _, item := range c.sets[i] {
						held[item] = true
					}
				}
			}
			if len(held) == len(c.items) {
				least = min(least, size)
			}
		}
		got := c.least()
		require.Len(t, got, least, "seed %d", seed)
		require.True(t, c.exact)
		require.LessOrEqual(t, c.bound(), least)
		require.GreaterOrEqual(t, len(c.greedy()), least)
	}
}

// A rig compared with itself is as good as itself; a relaxed limit on hose never
// reaches less on a site where pressure is no matter; and every plan compared
// keeps the rules.
func TestRigsAndRules(t *testing.T) {
	s, err := site.Open("../../../assets/demo/restaurant.linemap")
	require.NoError(t, err)
	tables, err := site.LoadTables()
	require.NoError(t, err)
	base, err := Weigh(t.Context(), s, tables)
	require.NoError(t, err)
	rows, best, err := Rigs(t.Context(), s, tables, base, []rig.Rig{s.Rig, s.Rig})
	require.NoError(t, err)
	assert.Equal(t, rows[0], rows[1])
	assert.Zero(t, best)
	assert.Zero(t, rows[0].Saves)
	assert.Zero(t, rows[0].Wins)
	assert.False(t, rows[0].Better(&base))
	assert.LessOrEqual(t, base.Low, base.Likely)
	assert.LessOrEqual(t, base.Likely, base.High)

	rules, err := Rules(t.Context(), s, tables, base)
	require.NoError(t, err)
	assert.Len(t, rules, len(changes(s.Units))-2, "the demo's rig comes full already and turns a quarter bend")
	for _, r := range rules {
		assert.GreaterOrEqual(t, r.Wins.Metres(), -1e-6, r.What)
		assert.GreaterOrEqual(t, r.Saves.Minutes(), -0.01, r.What)
	}
}

// With one spot far off, a stand area by the drain gives a spot that reaches
// more, out of the ground to be kept clear; the plan with it keeps the rules.
func TestSpotsInStandAreas(t *testing.T) {
	s, err := site.Open("../../../assets/demo/restaurant.linemap")
	require.NoError(t, err)
	tables, err := site.LoadTables()
	require.NoError(t, err)
	low, high := network.Bounds(places0(s))
	s.Spots = s.Spots[:1]
	s.Spots[0].At = network.Point{X: high.X + 60, Y: high.Y + 60}
	s.Lays, s.Water = nil, nil
	s.Areas = []site.Area{
		{ID: "a1", Kind: site.Stand, Outline: []network.Point{low, {X: high.X, Y: low.Y}, high, {X: low.X, Y: high.Y}}},
		{ID: "a2", Kind: site.KeepClear, Outline: []network.Point{low, {X: (low.X + high.X) / 2, Y: low.Y}, {X: (low.X + high.X) / 2, Y: high.Y}, {X: low.X, Y: high.Y}}},
	}
	base, err := Weigh(t.Context(), s, tables)
	require.NoError(t, err)
	got, err := Spots(t.Context(), s, tables, base)
	require.NoError(t, err)
	require.NotEmpty(t, got)
	for i, p := range got {
		assert.True(t, s.Areas[0].Contains(p.At))
		assert.False(t, s.Areas[1].Contains(p.At))
		assert.True(t, p.Better(&base))
		assert.False(t, i > 0 && p.Better(&got[i-1].Outcome), "the best come first")
	}
}

func places0(s *site.Site) (out []network.Point) {
	for i := range s.Network.Nodes {
		out = append(out, s.Network.Nodes[i].At)
	}
	return out
}

// What is told to be reached in the likely case was short by its pull, and the
// plan in that case keeps the rules of that case.
func TestDoubts(t *testing.T) {
	s, err := site.Open("../../../assets/demo/flats.linemap")
	require.NoError(t, err)
	tables, err := site.LoadTables()
	require.NoError(t, err)
	p, err := route.Solve(context.Background(), s, tables, route.Options{})
	require.NoError(t, err)
	got, err := Doubts(t.Context(), s, tables, p)
	require.NoError(t, err)
	for _, d := range got {
		assert.NotEmpty(t, d.Say())
		assert.NotEmpty(t, d.Name)
	}
	with, other := inCase(s, tables, rig.LikelyReach)
	q, err := route.Solve(t.Context(), with, other, route.Options{})
	require.NoError(t, err)
	audit.Require(t, with, other, q)
	assert.LessOrEqual(t, len(q.Shortfalls), len(p.Shortfalls))
}

// A stopped report is none.
func TestStopped(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	_, err := On(ctx, sample.Random(rand.New(rand.NewPCG(1, 1)), 4), sample.Tables(), nil, nil)
	assert.ErrorIs(t, err, context.Canceled)
}
