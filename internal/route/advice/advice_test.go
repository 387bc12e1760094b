package advice

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/route/sample"
	"linemap/internal/site"
)

// comparing is a comparison with no rigs.
func comparing(t *testing.T, s *site.Site) *comparison {
	t.Helper()
	c, err := compare(t.Context(), s, sample.Tables(), nil, nil)
	require.NoError(t, err)
	return c
}

// A rig compared with itself is as good as itself; a relaxed limit on hose never
// reaches less on a site where pressure is no matter; and every plan compared
// keeps the rules.
func TestRigsAndRules(t *testing.T) {
	s, err := site.Open("../../../assets/demo/restaurant.linemap")
	require.NoError(t, err)
	c := comparing(t, s)
	c.rigs = []rig.Rig{s.Rig, s.Rig}
	base := c.now
	rows, best, err := c.rigRows(t.Context())
	require.NoError(t, err)
	assert.Equal(t, rows[0], rows[1])
	assert.Zero(t, best)
	assert.Zero(t, rows[0].Saves)
	assert.Zero(t, rows[0].Wins)
	assert.False(t, rows[0].Better(&base))
	assert.LessOrEqual(t, base.Low, base.Likely)
	assert.LessOrEqual(t, base.Likely, base.High)

	rules, err := c.rules(t.Context())
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
	low, high := network.Bounds(places0(s))
	s.Spots = s.Spots[:1]
	s.Spots[0].At = network.Point{X: high.X + 75, Y: high.Y + 75}
	s.Lays, s.Water = nil, s.Water[:1]
	s.Water[0].At = network.Point{X: (low.X + high.X) / 2, Y: (low.Y + high.Y) / 2}
	s.Areas = []site.Area{
		{ID: "a1", Kind: site.Stand, Outline: []network.Point{low, {X: high.X, Y: low.Y}, high, {X: low.X, Y: high.Y}}},
		{ID: "a2", Kind: site.KeepClear, Outline: []network.Point{low, {X: (low.X + high.X) / 2, Y: low.Y}, {X: (low.X + high.X) / 2, Y: high.Y}, {X: low.X, Y: high.Y}}},
	}
	c := comparing(t, s)
	got, err := c.spots(t.Context())
	require.NoError(t, err)
	require.NotEmpty(t, got)
	for i, p := range got {
		assert.True(t, s.Areas[0].Contains(p.At))
		assert.False(t, s.Areas[1].Contains(p.At))
		assert.True(t, p.pays())
		assert.Positive(t, float64(p.Wins))
		assert.False(t, i > 0 && p.Better(&got[i-1].Outcome), "the best come first")
		for _, q := range got[:i] {
			assert.GreaterOrEqual(t, p.At.Distance(q.At), apart)
		}
	}
}

func places0(s *site.Site) (out []network.Point) {
	for i := range s.Network.Nodes {
		out = append(out, s.Network.Nodes[i].At)
	}
	return out
}

// A stopped report is none.
func TestStopped(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	_, err := On(ctx, sample.Random(rand.New(rand.NewPCG(1, 1)), 4), sample.Tables(), nil, nil)
	assert.ErrorIs(t, err, context.Canceled)
}
