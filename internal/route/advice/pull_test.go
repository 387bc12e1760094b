package advice

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/route"
	"linemap/internal/route/audit"
	"linemap/internal/route/sample"
	"linemap/internal/unit"
)

// With a weak pump some pipe fails by its pull at the low reach and not at the
// likely one, or only not at the best. A plan made for that reach, which keeps the
// rules of it, is short of just what is told to fail there.
func TestDoubts(t *testing.T) {
	likely, best := 0, 0
	for seed := range 300 {
		s := sample.Random(rand.New(rand.NewPCG(uint64(seed), 9)), 6)
		s.Rig.Pump.Unloader /= 6
		tables := sample.Tables()
		p, err := route.Solve(t.Context(), s, tables, route.Options{})
		require.NoError(t, err)
		got, err := doubts(s, tables, p)
		require.NoError(t, err)
		if len(got) == 0 {
			continue
		}
		told := map[network.PipeID]Doubt{}
		for _, d := range got {
			told[d.Pipe] = d
			assert.True(t, d.High, "seed %d: what the likely reach cleans, the best does", seed)
			if likely++; !d.Likely {
				likely, best = likely-1, best+1
			}
		}
		var left unit.Length
		for _, c := range []rig.Case{rig.LikelyReach, rig.HighReach} {
			with, other := inCase(s, tables, c)
			q, err := route.Solve(t.Context(), with, other, route.Options{})
			require.NoError(t, err)
			audit.Require(t, with, other, q)
			fails := map[network.PipeID]bool{}
			left = 0
			for _, f := range q.Shortfalls {
				fails[f.Pipe], left = true, left+f.Length
			}
			for _, f := range p.Shortfalls {
				d, doubted := told[f.Pipe]
				reached := doubted && (c == rig.HighReach || d.Likely)
				assert.Equal(t, !reached, fails[f.Pipe], "seed %d: %s in case %d", seed, f.Pipe, c)
			}
		}
		o, err := outcomeOf(s, tables, p)
		require.NoError(t, err)
		o.Doubts = got
		_, high := o.MissingAt()
		assert.InDelta(t, float64(left), float64(high), 1e-6)
	}
	assert.Positive(t, likely)
	assert.Positive(t, best)
}
