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
