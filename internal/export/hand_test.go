package export

import (
	"bytes"
	"context"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/route"
	"linemap/internal/site"
)

// Papers say in a line what decisions made by hand cost, and warn at the run
// that an order made by hand makes too early.
func TestDecisionsByHandOnPaper(t *testing.T) {
	s, err := site.Demo("restaurant")
	require.NoError(t, err)
	tables, err := site.LoadTables()
	require.NoError(t, err)
	solve := func() *route.Plan {
		p, err := route.Solve(context.Background(), s, tables, route.Options{})
		require.NoError(t, err)
		return p
	}
	order := solve().Keys()
	slices.Reverse(order)

	s.ByHand = site.ByHand{Bar: order[:1]}
	p := solve()
	said := Summary(s, tables, p, Options{})
	assert.Contains(t, said, "under the rules and the decisions made by hand for this site")
	assert.Contains(t, said, "  "+p.ByHand.Line())

	s.ByHand = site.ByHand{Order: order}
	p = solve()
	require.NotEmpty(t, p.ByHand.Broken)
	said = Summary(s, tables, p, Options{})
	assert.Contains(t, said, "The runs and their order were set by hand.")
	assert.Contains(t, said, "  "+p.ByHand.Line())
	warned := false
	for _, b := range newSheet(s, tables, p, Options{}).Blocks {
		for _, r := range b.Runs {
			warned = warned || slices.ContainsFunc(r.Warnings, func(w string) bool { return w != "" && w[:14] == "By hand before" })
		}
	}
	assert.True(t, warned)
	j, err := PlanJSON(s, p)
	require.NoError(t, err)
	for _, member := range []string{`"by_hand"`, `"free_minutes"`, `"more_minutes"`, `"broken"`, `"not_lowest_first"`} {
		assert.True(t, bytes.Contains(j, []byte(member)), member)
	}
	for _, line := range p.ByHand.Say(s) {
		t.Log(line)
	}
}
