package export

import (
	"context"
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

// BenchmarkPapers makes each paper of the flats and of a site of 10,000 pipes,
// and all of them at once. Goals on two cores: all of the flats within a second,
// all of the large site within ten.
func BenchmarkPapers(b *testing.B) {
	all := demos(b)
	flats := all[slices.IndexFunc(all, func(d demo) bool { return d.name == "flats" })]
	large := demo{name: "10000 pipes", site: sample.Large(1, 10_000, 8), tables: flats.tables}
	ctx, stop := context.WithTimeout(b.Context(), 20*time.Second)
	defer stop()
	var err error
	large.plan, err = route.Solve(ctx, large.site, large.tables, route.Options{})
	require.NoError(b, err)
	for _, d := range []demo{flats, large} {
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
		for _, p := range Papers() {
			try(p.Key, []Paper{p})
		}
		try("all", Papers())
	}
}
