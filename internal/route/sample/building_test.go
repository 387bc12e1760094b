package sample_test

import (
	"context"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/route/sample"
	"linemap/internal/site"
)

// sound asserts that nothing in a site needs mending, and that it comes back from
// a file as it was.
func sound(t *testing.T, s *site.Site) {
	t.Helper()
	all, err := s.Findings()
	require.NoError(t, err)
	for _, f := range all {
		assert.NotEqual(t, network.Error, f.Gravity, "%s: %s", f.Place, f.What)
		assert.NotContains(t, []string{"duplicate_label", "crosses_unjoined", "no_fitting", "slope_under_code"}, f.Kind, "%s: %s", f.Place, f.What)
	}
	for _, n := range s.Network.Nodes {
		assert.Less(t, len(n.Label), 10)
		assert.NotEmpty(t, n.Label)
	}
	data, err := site.Encode(s)
	require.NoError(t, err)
	back, err := site.Decode(data)
	require.NoError(t, err)
	again, err := site.Encode(back)
	require.NoError(t, err)
	assert.True(t, string(data) == string(again), "comes back from a file otherwise")
}

// loops counts the pipes on a loop.
func loops(s *site.Site) int {
	g, _ := network.Trace(&s.Network)
	n := 0
	for _, on := range g.Looped {
		if on {
			n++
		}
	}
	return n
}

func TestBuildingIsSound(t *testing.T) {
	for _, pipes := range []int{5, 6, 7, 8, 12, 20, 30, 40, 60, 100, 250, 500} {
		for seed := range uint64(3) {
			t.Run(fmt.Sprintf("%d pipes, seed %d", pipes, seed), func(t *testing.T) {
				s := sample.Building(seed, pipes)
				sound(t, s)
				assert.InDelta(t, pipes, len(s.Network.Pipes), max(1, 0.03*float64(pipes)))
				assert.Zero(t, loops(s))
				assert.Equal(t, s, sample.Building(seed, pipes))
				openings := 0
				for _, n := range s.Network.Nodes {
					if n.Access != nil {
						openings++
					}
				}
				if pipes >= 40 {
					assert.InEpsilon(t, float64(pipes)/7.5, openings, 0.6, "openings")
				}
			})
		}
	}
}

// Most of a building can be cleaned with the rig that comes to it, or a benchmark
// would time the explanations.
func TestBuildingIsReachable(t *testing.T) {
	for _, pipes := range []int{40, 100} {
		left, all := 0, 0
		for seed := range uint64(4) {
			s := sample.Building(seed, pipes)
			p, err := route.Solve(context.Background(), s, sample.Tables(), route.Options{})
			require.NoError(t, err)
			all += len(s.Network.Pipes)
			left += len(p.Shortfalls)
		}
		reached := 1 - float64(left)/float64(all)
		t.Logf("%d pipes: %.0f %% reached", pipes, math.Floor(100*reached))
		assert.Greater(t, reached, 0.85, "%d pipes", pipes)
	}
}
