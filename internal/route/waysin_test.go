package route

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/route/sample"
)

// In a building the ways into a pipe are those that trying every access finds.
func TestWaysInAreAllOfABuilding(t *testing.T) {
	found := 0
	for seed := range 100 {
		s := sample.Random(rand.New(rand.NewPCG(uint64(seed), 11)), 9)
		m, err := newModel(s, sample.Tables())
		require.NoError(t, err)
		e := newExplainer(newCatalogue(m))
		for p := range m.pipes {
			var want, got [][]int
			for a := range m.access {
				want = append(want, m.waysFrom(m.access[a].node, p)...)
			}
			for _, in := range e.waysIn(p) {
				got = append(got, in.path)
				assert.Contains(t, m.waysFrom(m.access[in.access].node, p), in.path)
			}
			slices.SortFunc(want, slices.Compare[[]int])
			slices.SortFunc(got, slices.Compare[[]int])
			require.Equal(t, want, got, "seed %d pipe %d", seed, p)
			found += len(got)
		}
	}
	assert.Greater(t, found, 500)
}

// Where a branch cannot be steered into, a cleanout is cheaper than a hose that
// can be, and so comes first.
func TestCleanoutBeforeSteerableHose(t *testing.T) {
	_, p := demoPlan(t, "flats")
	require.Len(t, p.Shortfalls, 1)
	assert.Equal(t, NewCleanout, p.Shortfalls[0].Cure.Kind)
}

// A street network of thousands of pipes is explained, every cure that was tried
// gaining its own pipe at the least.
func TestExplainStreets(t *testing.T) {
	s := sample.Streets(1, 2000)
	for i := range s.Network.Nodes {
		if a := s.Network.Nodes[i].Access; a != nil && i%4 == 0 {
			a.OutOfService = true
		}
	}
	m, err := newModel(s, sample.Tables())
	require.NoError(t, err)
	all := newCatalogue(m).explain(context.Background(), nil, 0, nil)
	require.NotEmpty(t, all)
	for _, f := range all {
		switch f.Cure.Kind {
		case LongerHose, OtherSpot, NewCleanout:
			assert.GreaterOrEqual(t, f.Cure.Gains, f.Length-slackLength, f.Name)
		}
	}
}

func BenchmarkExplainStreets(b *testing.B) {
	s := sample.Streets(1, 10_000)
	for i := range s.Network.Nodes {
		if a := s.Network.Nodes[i].Access; a != nil && i%4 == 0 {
			a.OutOfService = true
		}
	}
	m, err := newModel(s, sample.Tables())
	require.NoError(b, err)
	c := newCatalogue(m)
	for b.Loop() {
		c.explain(context.Background(), nil, 0, nil)
	}
}
