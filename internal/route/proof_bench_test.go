package route

import (
	"context"
	"fmt"
	"slices"
	"testing"
	"time"

	"linemap/internal/route/sample"

	"github.com/stretchr/testify/require"
)

// BenchmarkProof plans buildings of a size, one after the other, and tells the
// median time, how many plans are proved to be the best in the dry, and the widest
// gap of the others.
func BenchmarkProof(b *testing.B) {
	tab := sample.Tables()
	for _, pipes := range []int{50, 100, 200, 300} {
		b.Run(fmt.Sprintf("pipes=%d", pipes), func(b *testing.B) {
			var took []time.Duration
			proven, worst := 0, 0.
			for b.Loop() {
				s := sample.Building(uint64(len(took)), pipes)
				start := time.Now()
				m, err := newModel(s, tab)
				require.NoError(b, err)
				se := newSearch(context.Background(), newCatalogue(m), nil)
				se.construct()
				if se.run() {
					proven++
				}
				took = append(took, time.Since(start))
				worst = max(worst, float64(se.best.cost-se.bound)/float64(se.best.cost))
			}
			slices.Sort(took)
			b.ReportMetric(float64(took[len(took)/2].Milliseconds()), "median-ms")
			b.ReportMetric(100*float64(proven)/float64(len(took)), "%proven")
			b.ReportMetric(100*worst, "%worst-gap")
		})
	}
}

// BenchmarkWhole plans the same buildings, and larger ones, with their water: it
// tells the median time, how many plans are proved to be the best with all their
// waiting, and the mean and the widest gap.
func BenchmarkWhole(b *testing.B) {
	tab := sample.Tables()
	for _, pipes := range []int{50, 100, 200, 300, 600, 1000} {
		b.Run(fmt.Sprintf("pipes=%d", pipes), func(b *testing.B) {
			var took []time.Duration
			var proven int
			var sum, worst float64
			for b.Loop() {
				s := sample.Building(uint64(len(took)), pipes)
				start := time.Now()
				p, err := Solve(context.Background(), s, tab, Options{})
				require.NoError(b, err)
				took = append(took, time.Since(start))
				if p.Proven {
					proven++
				}
				sum, worst = sum+p.Gap(), max(worst, p.Gap())
			}
			slices.Sort(took)
			n := float64(len(took))
			b.ReportMetric(float64(took[len(took)/2].Milliseconds()), "median-ms")
			b.ReportMetric(float64(took[len(took)-1].Milliseconds()), "worst-ms")
			b.ReportMetric(100*float64(proven)/n, "%proven")
			b.ReportMetric(100*sum/n, "%mean-gap")
			b.ReportMetric(100*worst, "%worst-gap")
		})
	}
}
