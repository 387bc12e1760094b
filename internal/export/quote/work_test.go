package quote

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/rig"
	"linemap/internal/route"
	"linemap/internal/route/sample"
	"linemap/internal/site"
	"linemap/internal/unit"
)

func TestNightHours(t *testing.T) {
	for _, c := range []struct {
		name            string
		start, from, to string
		shift, work     float64 // hours
		want            float64
		unknown         bool
	}{
		{"in the day", "08:00", "19:00", "06:00", 0, 8, 0, false},
		{"into the evening", "16:30", "19:00", "06:00", 0, 4, 1.5, false},
		{"before dawn", "04:15", "19:00", "06:00", 0, 4, 1.75, false},
		{"through the night", "18:00", "19:00", "06:00", 0, 14, 11, false},
		{"two nights", "18:00", "19:00", "06:00", 0, 36, 22, false},
		{"night after midnight", "22:00", "00:30", "05:00", 0, 4, 1.5, false},
		{"three days of eight hours and two", "12:00", "19:00", "06:00", 8, 26, 3, false},
		{"night all day", "12:00", "06:00", "06:00", 0, 5, 5, false},
		{"no start", "", "19:00", "06:00", 0, 5, 0, true},
		{"no night", "20:00", "", "", 0, 5, 0, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := &site.Site{
				Job: site.Job{Start: c.start}, Rig: rig.Rig{Crew: rig.Crew{Shift: c.shift * 60}},
				Prices: site.Prices{NightPercent: d("50"), NightFrom: c.from, NightTo: c.to},
			}
			got, unknown := night(s, time.Duration(c.work*float64(time.Hour)))
			assert.Equal(t, c.want, got.Hours())
			assert.Equal(t, c.unknown, unknown)
		})
	}
}

// The work is the plan's: pipe by size sums to what the runs clean, water to
// what they use.
func TestMeasure(t *testing.T) {
	s := sample.Sketch("OUT -20ft/6in/out- MH1 -60ft/4in/roots- CO1 -40ft/4in- W1 -10ft/2in/roots- F1", [2]float64{10, 20})
	p, err := route.Solve(t.Context(), s, sample.Tables(), route.Options{})
	require.NoError(t, err)
	w := Measure(s, p)
	assert.Equal(t, p.Cost, w.Hours)
	assert.Equal(t, len(p.Runs()), w.Runs)
	var water unit.Volume
	cleaned, roots := 0.0, 0.0
	for _, r := range p.Runs() {
		water += r.Water
		for _, l := range r.Path {
			if l.Cleaned {
				cleaned += (l.To - l.From).Feet()
			}
			if l.Cleaned && (l.Pipe == "MH1-CO1" || l.Pipe == "W1-F1") {
				roots += (l.To - l.From).Feet()
			}
		}
	}
	assert.Positive(t, roots)
	assert.InDelta(t, cleaned, w.Length().Feet(), 1e-9)
	assert.InDelta(t, roots, w.Roots.Feet(), 1e-9)
	assert.Equal(t, water, w.Water)
	assert.Positive(t, w.RootRuns)
	for _, stretch := range w.Pipe {
		assert.NotEqual(t, unit.Size(6), stretch.Size, "pipe out of the job costs nothing")
	}
}
