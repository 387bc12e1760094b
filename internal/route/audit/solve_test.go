package audit_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/rig"
	"linemap/internal/route"
	"linemap/internal/route/audit"
	"linemap/internal/route/sample"
	"linemap/internal/site"
)

func usRig(tb testing.TB) *rig.Rig {
	tb.Helper()
	r, err := site.DefaultRig("us")
	require.NoError(tb, err)
	return r
}

// The planner and the checker share no code but the physics and the flow, so
// that an error in either shows here.
func TestPlansOfRandomSitesKeepTheRules(t *testing.T) {
	tables, base := sample.Tables(), usRig(t)
	rapid.Check(t, func(t *rapid.T) {
		s := randomSite(t, base, 14)
		p, err := route.Solve(context.Background(), s, tables, route.Options{})
		if err != nil {
			t.Fatal(err)
		}
		audit.Require(t, s, tables, p)
	})
}

func TestPlansOfTheDemoSitesKeepTheRules(t *testing.T) {
	names, err := site.Demos()
	require.NoError(t, err)
	for _, name := range names {
		t.Run(name, func(t *testing.T) {
			s, err := site.Demo(name)
			require.NoError(t, err)
			p, err := route.Solve(context.Background(), s, sample.Tables(), route.Options{})
			require.NoError(t, err)
			audit.Require(t, s, sample.Tables(), p)
		})
	}
}
