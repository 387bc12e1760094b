package route_test

import (
	"context"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"linemap/internal/route"
	"linemap/internal/route/audit"
	"linemap/internal/route/sample"
	"linemap/internal/site"
)

func demos(tb testing.TB) map[string]*site.Site {
	tb.Helper()
	out := map[string]*site.Site{}
	for _, name := range []string{"restaurant", "flats", "school"} {
		s, err := site.Open(filepath.Join("..", "..", "assets", "demo", name+site.Extension))
		require.NoError(tb, err)
		out[name] = s
	}
	return out
}

// The checker passes the plan of every demo.
func TestDemos(t *testing.T) {
	for name, s := range demos(t) {
		t.Run(name, func(t *testing.T) {
			p := solve(t, s)
			t.Logf("%v, bound %v, %d runs, %d blocks, %d shortfalls", p.Cost, p.Bound, len(p.Runs()), len(p.Blocks), len(p.Shortfalls))
		})
	}
}

func BenchmarkDemos(b *testing.B) {
	tab := sample.Tables()
	for name, s := range demos(b) {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			var p *route.Plan
			for b.Loop() {
				var err error
				p, err = route.Solve(context.Background(), s, tab, route.Options{})
				require.NoError(b, err)
			}
			b.ReportMetric(p.Gap()*100, "%gap")
			b.ReportMetric(p.Cost.Minutes(), "crew-min")
		})
	}
}

func BenchmarkAudit(b *testing.B) {
	tab := sample.Tables()
	s := demos(b)["flats"]
	p, err := route.Solve(context.Background(), s, tab, route.Options{})
	require.NoError(b, err)
	for b.Loop() {
		audit.Check(s, tab, p)
	}
}
