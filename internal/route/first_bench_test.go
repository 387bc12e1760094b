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

// BenchmarkFirstPlan tells how long a window waits for the first plan of ten
// buildings of a size, from the site to the first report, and how much dearer that
// plan is than the last one.
func BenchmarkFirstPlan(b *testing.B) {
	tab := sample.Tables()
	for _, pipes := range []int{50, 100, 200, 300} {
		b.Run(fmt.Sprintf("pipes=%d", pipes), func(b *testing.B) {
			var took []time.Duration
			var over []float64
			for b.Loop() {
				s := sample.Building(uint64(len(took)%10), pipes)
				var first Progress
				var start time.Time
				var after time.Duration
				start = time.Now()
				m, err := newModel(s, tab)
				require.NoError(b, err)
				se := newSearch(context.Background(), newCatalogue(m), func(p Progress) {
					if after == 0 {
						first, after = p, time.Since(start)
					}
				})
				se.construct()
				b.StopTimer()
				se.run()
				took = append(took, after)
				over = append(over, float64(first.Cost-se.best.cost.duration())/float64(se.best.cost.duration()))
				b.StartTimer()
			}
			slices.Sort(took)
			slices.Sort(over)
			b.ReportMetric(float64(took[len(took)/2].Microseconds())/1e3, "median-ms")
			b.ReportMetric(float64(took[len(took)-1].Microseconds())/1e3, "worst-ms")
			b.ReportMetric(100*over[len(over)/2], "%median-over")
			b.ReportMetric(100*over[len(over)-1], "%worst-over")
		})
	}
}
