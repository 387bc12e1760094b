package route

import (
	"context"
	"fmt"
	"testing"

	"linemap/internal/route/sample"

	"github.com/stretchr/testify/require"
)

func BenchmarkSolve(b *testing.B) {
	tab := sample.Tables()
	for _, size := range []struct{ pipes, spots int }{{20, 2}, {60, 3}, {200, 5}} {
		b.Run(fmt.Sprintf("pipes=%d", size.pipes), func(b *testing.B) {
			s := sample.Large(1, size.pipes, size.spots)
			b.ReportAllocs()
			var p *Plan
			for b.Loop() {
				var err error
				p, err = Solve(context.Background(), s, tab, Options{})
				require.NoError(b, err)
			}
			b.ReportMetric(p.Gap()*100, "%gap")
			b.ReportMetric(float64(len(p.Runs())), "runs")
			b.ReportMetric(float64(len(p.Blocks)), "blocks")
		})
	}
}

func BenchmarkCandidates(b *testing.B) {
	tab := sample.Tables()
	for _, size := range []struct{ pipes, spots int }{{20, 2}, {60, 3}, {200, 5}} {
		b.Run(fmt.Sprintf("pipes=%d", size.pipes), func(b *testing.B) {
			m, err := newModel(sample.Large(1, size.pipes, size.spots), tab)
			require.NoError(b, err)
			b.ReportAllocs()
			var c *catalogue
			for b.Loop() {
				c = newCatalogue(m)
			}
			b.ReportMetric(float64(len(c.columns)), "columns")
		})
	}
}
