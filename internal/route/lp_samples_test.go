package route

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"text/tabwriter"
	"time"

	"github.com/stretchr/testify/require"

	"linemap/internal/route/sample"
	"linemap/internal/site"
)

// compared is a site on which the planner is compared with programs.
type compared struct {
	name  string
	pipes int
	site  *site.Site
}

func drain(seed uint64, pipes, spots int) compared {
	return compared{fmt.Sprintf("drain %d of %d pipes", seed, pipes), pipes, sample.Large(seed, pipes, spots)}
}

func aBuilding(seed uint64, pipes int) compared {
	return compared{fmt.Sprintf("building %d of %d pipes", seed, pipes), pipes, sample.Building(seed, pipes)}
}

// samples are compared in every test. Their best plans have one block to seven.
var samples = []compared{
	drain(1, 20, 3), drain(2, 20, 3), drain(7, 20, 3), aBuilding(1, 20),
	drain(4, 30, 3), aBuilding(1, 30), aBuilding(4, 30),
	drain(0, 50, 3), drain(2, 50, 3), aBuilding(0, 50), aBuilding(2, 50),
	drain(2, 100, 4), aBuilding(1, 100),
}

// largeSamples are for benchmarks.
var largeSamples = []compared{drain(1, 100, 4), drain(2, 100, 4), aBuilding(2, 100), aBuilding(1, 250), aBuilding(1, 500)}

// planned is the catalogue of a site and the search with its best solution, nil
// where there is nothing to clean.
func planned(tb testing.TB, s *site.Site) (*catalogue, *search, time.Duration) {
	tb.Helper()
	start := time.Now()
	m, err := newModel(s, sample.Tables())
	require.NoError(tb, err)
	c := newCatalogue(m)
	for len(c.targets) > 0 {
		se := newSearch(context.Background(), c, nil)
		if se.construct(); se.best.feasible() {
			se.run()
			return c, se, time.Since(start)
		}
		c.drop(se.leftOut())
	}
	return c, nil, time.Since(start)
}

// rows are the rows of a table for the log.
type rows []string

func (r *rows) add(cells ...any) {
	text := make([]string, len(cells))
	for i, c := range cells {
		text[i] = fmt.Sprint(c)
		if d, ok := c.(time.Duration); ok {
			text[i] = fmt.Sprintf("%.4f s", d.Seconds())
		}
	}
	*r = append(*r, strings.Join(text, "\t"))
}

// under writes the table under its heads.
func (r rows) under(heads ...string) string {
	var b strings.Builder
	w := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
	for _, row := range append(rows{"", strings.Join(heads, "\t")}, r...) {
		fmt.Fprintln(w, row)
	}
	w.Flush() // a strings.Builder takes everything
	return b.String()
}
