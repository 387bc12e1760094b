package route

import (
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/route/sample"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// A plan shifted by nothing is the plan, to the last figure of its runs and its
// day; one with milder deposits never takes more work at the pipes, one with
// worse never less.
func TestShiftedPlans(t *testing.T) {
	moved, stayed := 0, 0
	for seed := range 400 {
		r := rand.New(rand.NewPCG(uint64(seed), 7))
		s := sample.Random(r, 1+r.IntN(9))
		if seed%4 == 0 { // what is in the tank is all the water there is
			s.Water = nil
		}
		before := s.Clone()
		p, err := Solve(t.Context(), s, sample.Tables(), Options{})
		require.NoError(t, err)
		var jets [3]time.Duration
		for i, by := range []Shift{Milder, AsNoted, Worse} {
			q, err := p.Shifted(s, sample.Tables(), by)
			require.NoError(t, err, "seed %d", seed)
			require.Equal(t, p.Keys(), q.Keys(), "the runs are the same")
			require.Equal(t, before, s, "the site is left alone")
			var sum time.Duration
			for _, e := range q.Day {
				sum += e.Takes
				if e.Kind == EventJet || e.Kind == EventNozzleChange {
					jets[i] += e.Takes
				}
			}
			require.Equal(t, q.Cost, sum)
			if by == AsNoted {
				require.Equal(t, p.Blocks, q.Blocks, "seed %d", seed)
				require.Equal(t, p.Day, q.Day, "seed %d", seed)
			}
		}
		require.LessOrEqual(t, jets[0], jets[1], "seed %d", seed)
		require.LessOrEqual(t, jets[1], jets[2], "seed %d", seed)
		if jets[0] < jets[2] {
			moved++
		} else {
			stayed++
		}
	}
	assert.Greater(t, moved, stayed)
}

// Worked by hand. 60 ft of moderate sediment from a manhole, in strokes: the
// strokes are the same for every severity; a heavy one takes a second pull and
// the travel back out for it.
func TestShiftedByHand(t *testing.T) {
	s := sample.Sketch("OUT -20ft/4in/out- MH1 -60ft/sediment/moderate- CAP1", [2]float64{10, 20})
	p, err := Solve(t.Context(), s, sample.Tables(), Options{})
	require.NoError(t, err)
	worse, err := p.Shifted(s, sample.Tables(), Worse)
	require.NoError(t, err)
	milder, err := p.Shifted(s, sample.Tables(), Milder)
	require.NoError(t, err)

	row := sample.Tables().Deposits[network.Sediment].Passes[0]
	extra := row.Pulls[network.Heavy] - row.Pulls[network.Moderate]
	require.Positive(t, extra)
	length := unit.Feet(60).Metres()
	want := float64(extra) * length * (1/float64(row.Pull) + 1/float64(s.Rig.Crew.Travel))
	assert.InDelta(t, want, (worse.Runs()[0].Minutes - p.Runs()[0].Minutes).Seconds(), Tick.Seconds())
	assert.Equal(t, row.Pulls[network.Light] == row.Pulls[network.Moderate], milder.Cost == p.Cost)
}

// A run that the rig cannot make at the other severity counts as noted: without
// a nozzle to open with, moderate grease gets no worse.
func TestShiftedBeyondTheRig(t *testing.T) {
	s := sample.Sketch("OUT -20ft/4in/out- MH1 -60ft/grease/moderate- CAP1", [2]float64{10, 20})
	tables := sample.Tables()
	i := slices.IndexFunc(tables.Deposits[network.Grease].Passes, func(r site.PassRow) bool { return r.Pulls[network.Heavy] > r.Pulls[network.Moderate] })
	require.GreaterOrEqual(t, i, 0)
	tables.Deposits[network.Grease].Passes[i].Nozzles = nil
	require.Zero(t, tables.Deposits[network.Grease].Passes[i].Pulls[network.Moderate])
	p, err := Solve(t.Context(), s, tables, Options{})
	require.NoError(t, err)
	require.NotEmpty(t, p.Runs())
	worse, err := p.Shifted(s, tables, Worse)
	require.NoError(t, err)
	assert.Equal(t, p.Cost, worse.Cost)
}

// A plan of another site is refused.
func TestShiftedPlanOfAnotherSite(t *testing.T) {
	s := sample.Sketch("OUT -20ft/4in/out- MH1 -60ft/grease- CAP1", [2]float64{10, 20})
	p, err := Solve(t.Context(), s, sample.Tables(), Options{})
	require.NoError(t, err)
	p.Blocks[0].Hose = "no such hose"
	_, err = p.Shifted(s, sample.Tables(), Worse)
	require.ErrorContains(t, err, "does not belong to the site")
}
