package export

import (
	"context"
	"fmt"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"linemap/internal/route"
	"linemap/internal/route/sample"
)

// BenchmarkPapers makes each paper of the flats and of streets of up to 10,000
// pipes, and all of them at once. Goals on two cores: all of the flats within a
// second, all of the largest site within ten.
func BenchmarkPapers(b *testing.B) {
	all := demos(b)
	b.Run("flats", func(b *testing.B) {
		writeEach(b, all[slices.IndexFunc(all, func(d demo) bool { return d.name == "flats" })])
	})
	for _, pipes := range []int{480, 2000, 10_000} {
		b.Run(fmt.Sprint(pipes, " pipes"), func(b *testing.B) {
			d := demo{site: sample.Streets(1, pipes), tables: all[0].tables}
			ctx, stop := context.WithTimeout(b.Context(), 20*time.Second)
			defer stop()
			var err error
			d.plan, err = route.Solve(ctx, d.site, d.tables, route.Options{})
			require.NoError(b, err)
			writeEach(b, d)
		})
	}
}

// writeEach writes each paper of a job, then all.
func writeEach(b *testing.B, d demo) {
	s := complete(d)
	try := func(name string, papers []Paper) {
		b.Run(name, func(b *testing.B) {
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
