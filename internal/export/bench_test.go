package export

import (
	"context"
	"fmt"
	"slices"
	"testing"
	"time"

	"github.com/govalues/decimal"
	"github.com/stretchr/testify/require"

	"linemap/internal/route"
	"linemap/internal/route/sample"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// BenchmarkPapers makes each paper of the flats and of streets of up to 10,000
// pipes, and all of them at once. Goals on two cores: all of the flats within a
// second, all of the largest site within ten.
func BenchmarkPapers(b *testing.B) {
	all := demos(b)
	works := []demo{all[slices.IndexFunc(all, func(d demo) bool { return d.name == "flats" })]}
	for _, pipes := range []int{480, 2000, 10_000} {
		d := demo{name: fmt.Sprint(pipes, " pipes"), site: sample.Streets(1, pipes), tables: all[0].tables}
		ctx, stop := context.WithTimeout(b.Context(), 20*time.Second)
		var err error
		d.plan, err = route.Solve(ctx, d.site, d.tables, route.Options{})
		stop()
		require.NoError(b, err)
		works = append(works, d)
	}
	for _, d := range works {
		s := d.site.Clone()
		s.Geo = &site.Geo{Latitude: unit.Degrees(41.88), Longitude: unit.Degrees(-87.63)}
		s.Prices.Currency, s.Prices.Units, s.Prices.CallOut = "USD", unit.US, decimal.MustParse("95")
		try := func(name string, papers []Paper) {
			b.Run(d.name+"/"+name, func(b *testing.B) {
				dir := b.TempDir()
				for b.Loop() {
					files, err := WritePapers(dir, papers, s, d.tables, d.plan, Options{})
					require.NoError(b, err)
					b.ReportMetric(float64(len(files)), "files")
				}
			})
		}
		papers := slices.DeleteFunc(Papers(), func(p Paper) bool { return p.Lacks(s) != nil })
		for _, p := range papers {
			try(p.Key, []Paper{p})
		}
		try("all", papers)
	}
}
