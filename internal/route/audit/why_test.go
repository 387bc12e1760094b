package audit_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/route"
	"linemap/internal/route/audit"
	"linemap/internal/site"
)

// A plan that tells something else of the runs that it does not make is found
// out.
func TestWhyIsChecked(t *testing.T) {
	s, err := site.Open("../../../assets/demo/flats.linemap")
	require.NoError(t, err)
	tables, err := site.LoadTables()
	require.NoError(t, err)
	solved := func() *route.Plan {
		p, err := route.Solve(t.Context(), s, tables, route.Options{})
		require.NoError(t, err)
		return p
	}
	require.Empty(t, audit.Check(s, tables, solved()))
	barred := func(p *route.Plan) *route.Instead {
		for w := range p.Whys {
			for i := range p.Whys[w].Instead {
				if o := &p.Whys[w].Instead[i]; o.Not != nil && o.Not.Rule != nil {
					return o
				}
			}
		}
		return nil
	}
	for name, spoil := range map[string]func(p *route.Plan){
		"no run":         func(p *route.Plan) { barred(p).Run.Access = "nowhere" },
		"another run":    func(p *route.Plan) { barred(p).Not.Key.End = "nothing" },
		"another reason": func(p *route.Plan) { barred(p).Not.Rule.Reason = route.OverBends },
		"possible":       func(p *route.Plan) { barred(p).Not = nil },
		"order":          func(p *route.Plan) { p.Whys[0], p.Whys[1] = p.Whys[1], p.Whys[0] },
	} {
		t.Run(name, func(t *testing.T) {
			p := solved()
			spoil(p)
			found := false
			for _, problem := range audit.Check(s, tables, p) {
				found = found || problem.Rule == audit.RuleWhy || problem.Rule == audit.RuleShortfall
			}
			assert.True(t, found)
		})
	}
}
