package route

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/site"
)

func demoPlan(t *testing.T, name string) (*site.Site, *Plan) {
	t.Helper()
	s, err := site.Open("../../assets/demo/" + name + ".linemap")
	require.NoError(t, err)
	tables, err := site.LoadTables()
	require.NoError(t, err)
	p, err := Solve(t.Context(), s, tables, Options{})
	require.NoError(t, err)
	return s, p
}

// What is told of a run that would be allowed but dearer is so: with the run
// itself barred, the plan is dearer by no more.
func TestWhyDearerHolds(t *testing.T) {
	s, p := demoPlan(t, "restaurant")
	tables, err := site.LoadTables()
	require.NoError(t, err)
	checked := 0
	for b := range p.Blocks {
		for r := range p.Blocks[b].Runs {
			run := &p.Blocks[b].Runs[r]
			for _, i := range p.instead(run.Number) {
				if i.Choice != ByAccess && i.Choice != ByDirection || i.Not != nil || i.Leaves > 0 {
					continue
				}
				other := s.Clone()
				other.ByHand.Bar = []site.RunKey{run.Key(&p.Blocks[b])}
				q, err := Solve(t.Context(), other, tables, Options{})
				require.NoError(t, err)
				assert.LessOrEqual(t, dryMinutes(q)-dryMinutes(p), i.Dearer+time.Millisecond, p.Why(run.Number, s.Units))
				checked++
			}
		}
	}
	assert.Greater(t, checked, 2)
}

// The sentences of runs whose reason can be seen on the sketch.
func TestWhySays(t *testing.T) {
	s, p := demoPlan(t, "school")
	said := ""
	for _, r := range p.Runs() {
		why := p.Why(r.Number, s.Units)
		require.LessOrEqual(t, len(why), 2)
		said += strings.Join(why, " ") + "\n"
	}
	for _, want := range []string{
		"Entered at CO-5, not MH-1: at 219 ft 4 in from there, the pull is short by 5 lbf at FD-N lateral.",
		"Downstream from CO-G1, not upstream from CO-E3: at 217 ft 2 in from there, the way is blocked at BWV-1 (backwater valve).",
		"Upstream from MH-4, not downstream from MH-5: over the reel length by 5 ft.",
		"Entered at MH-1, not CO-E1: from there 134 ft would be left to another run.",
	} {
		assert.Contains(t, said, want)
	}
	assert.Empty(t, p.Why(0, s.Units))
}
