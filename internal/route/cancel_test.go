package route_test

import (
	"context"
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"linemap/internal/route"
	"linemap/internal/route/audit"
	"linemap/internal/route/sample"
	"linemap/internal/site"
)

// fuse is a context that is cancelled when it has been asked so many times, and
// so at the same place of a search every time.
type fuse struct {
	context.Context
	asked, left int
	burnt       time.Time
}

func (f *fuse) Err() error {
	f.asked++
	if f.asked <= f.left {
		return nil
	}
	if f.burnt.IsZero() {
		f.burnt = time.Now()
	}
	return context.Canceled
}

// stopAt cancels the planning of a site after a share of all the times that it
// asks for that, which are asks.
func stopAt(tb testing.TB, s *site.Site, asks int, share float64) (*route.Plan, *fuse) {
	tb.Helper()
	f := &fuse{Context: context.Background(), left: int(share * float64(asks-1))}
	p, err := route.Solve(f, s, sample.Tables(), route.Options{})
	require.NoError(tb, err)
	return p, f
}

// asksOf counts how often the planning of a site asks whether it is cancelled.
func asksOf(tb testing.TB, s *site.Site) (*route.Plan, int) {
	tb.Helper()
	f := &fuse{Context: context.Background(), left: math.MaxInt}
	p, err := route.Solve(f, s, sample.Tables(), route.Options{})
	require.NoError(tb, err)
	return p, f.asked
}

// Wherever the planning of a district is cancelled, the plan is whole and by the
// rules, and says that it was stopped.
func TestStoppedAnywhere(t *testing.T) {
	large := 2000
	if raced || testing.Short() {
		large = 700
	}
	sites := map[string]*site.Site{"streets": sample.Streets(4, large), "loops": sample.LoopedStreets(5, 700)}
	sites["decided"] = sample.Streets(4, 700)
	keys := solve(t, sites["decided"]).Keys()
	sites["decided"].ByHand = site.ByHand{Keep: keys[3:5], Bar: keys[8:9]}
	for name, s := range sites {
		whole, asks := asksOf(t, s)
		for i, share := range []float64{0, 0.3, 0.95, 0.05, 0.6, 0.8, 1} {
			if raced && i > 2 {
				break
			}
			t.Run(fmt.Sprint(name, " ", share), func(t *testing.T) {
				p, _ := stopAt(t, s, asks, share)
				audit.Require(t, s, sample.Tables(), p)
				require.True(t, p.Stopped)
				require.Empty(t, p.Whys)
				require.GreaterOrEqual(t, p.Cost, whole.Cost)
				require.Len(t, p.Shortfalls, len(whole.Shortfalls))
				for i, short := range p.Shortfalls {
					require.Equal(t, whole.Shortfalls[i].Pipe, short.Pipe)
					require.NotEmpty(t, short.Reason)
				}
			})
		}
	}
}

// How long a district takes to return once it is cancelled.
func BenchmarkCancel(b *testing.B) {
	s := sample.Streets(1, 10_000)
	_, asks := asksOf(b, s)
	for _, share := range []float64{0, 0.1, 0.5, 0.7, 0.8, 0.9, 0.99} {
		b.Run(fmt.Sprintf("after=%.0f%%", 100*share), func(b *testing.B) {
			var since time.Duration
			for b.Loop() {
				_, f := stopAt(b, s, asks, share)
				since += time.Since(f.burnt)
			}
			b.ReportMetric(float64(since.Milliseconds())/float64(b.N), "ms-to-return")
		})
	}
}
