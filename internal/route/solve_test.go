package route_test

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"linemap/internal/route"
	"linemap/internal/route/audit"
	"linemap/internal/route/sample"
	"linemap/internal/site"
)

// solve plans a site, and has the independent checker go over the plan.
func solve(t *testing.T, s *site.Site) *route.Plan {
	t.Helper()
	tab := sample.Tables()
	p, err := route.Solve(context.Background(), s, tab, route.Options{})
	require.NoError(t, err)
	audit.Require(t, s, tab, p)
	return p
}

// The same site gets the same plan twice.
func TestDeterministic(t *testing.T) {
	tab := sample.Tables()
	for seed := range uint64(4) {
		a, err := route.Solve(context.Background(), sample.Large(seed, 60, 3), tab, route.Options{})
		require.NoError(t, err)
		b, err := route.Solve(context.Background(), sample.Large(seed, 60, 3), tab, route.Options{})
		require.NoError(t, err)
		require.Equal(t, a, b)
	}
}

// A cancelled search still returns a whole plan, and says so.
func TestCancelled(t *testing.T) {
	s := sample.Large(1, 200, 5)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	p, err := route.Solve(ctx, s, sample.Tables(), route.Options{})
	require.NoError(t, err)
	require.True(t, p.Stopped)
	full := solve(t, s)
	require.Len(t, p.Shortfalls, len(full.Shortfalls))
	require.GreaterOrEqual(t, p.Cost, full.Cost)
	require.LessOrEqual(t, p.Bound, full.Cost)
	var sum time.Duration
	for _, e := range p.Day {
		sum += e.Takes
	}
	require.Equal(t, p.Cost, sum)
}
