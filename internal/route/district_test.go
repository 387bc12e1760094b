package route_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"runtime"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/route"
	"linemap/internal/route/audit"
	"linemap/internal/route/sample"
)

// The checker passes the plans of whole districts, rings and all, and their
// bounds hold them to a few parts in a hundred.
func TestDistricts(t *testing.T) {
	for _, pipes := range []int{700, 1500, 10_000} {
		if pipes > 1500 && testing.Short() || pipes > 700 && raced {
			continue // it takes the race detector minutes
		}
		t.Run(fmt.Sprint(pipes), func(t *testing.T) {
			p := solve(t, sample.Streets(2, pipes))
			assert.Less(t, p.Gap(), 0.015)
			p = solve(t, sample.LoopedStreets(3, pipes))
			assert.Less(t, p.Gap(), 0.015)
		})
	}
}

// So are those of any district, with rings or without, short of spots and water.
func TestDistrictsAtRandom(t *testing.T) {
	tab, rounds := sample.Tables(), uint64(5)
	if raced {
		rounds = 2
	}
	for seed := range rounds {
		r := rand.New(rand.NewPCG(seed, 41))
		draw := sample.Streets
		if r.IntN(2) == 0 {
			draw = sample.LoopedStreets
		}
		pipes := 450 + r.IntN(250)
		if seed == 0 && !raced && !testing.Short() {
			pipes += 1400 // too large for a search beside
		}
		s := draw(seed, pipes)
		if r.IntN(2) == 0 {
			s.Water = s.Water[:r.IntN(len(s.Water)+1)]
		}
		if r.IntN(2) == 0 {
			s.Spots = s.Spots[:len(s.Spots)/2+r.IntN(len(s.Spots)/2+1)]
		}
		p, err := route.Solve(context.Background(), s, tab, route.Options{})
		require.NoError(t, err)
		require.Empty(t, audit.Check(s, tab, p), "seed %d", seed)
		require.LessOrEqual(t, p.Bound, p.Cost, "seed %d", seed)
	}
}

// A district is planned the same twice, and a cancelled search still covers all
// that can be reached.
func TestDistrictStopped(t *testing.T) {
	s, tab := sample.Streets(4, 2000), sample.Tables()
	whole, err := route.Solve(context.Background(), s, tab, route.Options{})
	require.NoError(t, err)
	again, err := route.Solve(context.Background(), s, tab, route.Options{})
	require.NoError(t, err)
	assert.Equal(t, whole, again)

	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	stopped, err := route.Solve(ctx, s, tab, route.Options{})
	require.NoError(t, err)
	assert.True(t, stopped.Stopped)
	assert.Empty(t, audit.Check(s, tab, stopped))
	assert.Len(t, stopped.Shortfalls, len(whole.Shortfalls))
	assert.GreaterOrEqual(t, stopped.Cost, whole.Cost)
}

func BenchmarkDistrict(b *testing.B) {
	tab := sample.Tables()
	for _, pipes := range []int{1000, 3000, 10_000, 30_000, 100_000} {
		b.Run(fmt.Sprintf("pipes=%d", pipes), func(b *testing.B) {
			s := sample.Streets(1, pipes)
			var p *route.Plan
			for b.Loop() {
				var err error
				p, err = route.Solve(context.Background(), s, tab, route.Options{})
				require.NoError(b, err)
			}
			var m runtime.MemStats
			runtime.ReadMemStats(&m)
			b.ReportMetric(p.Gap()*100, "%gap")
			b.ReportMetric(float64(pipes)/(b.Elapsed()/time.Duration(b.N)).Seconds(), "pipes/s")
			b.ReportMetric(float64(m.HeapSys)/(1<<20), "MB-heap")
			b.ReportMetric(float64(len(p.Blocks)), "blocks")
		})
	}
}
