package replay

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"linemap/internal/rig"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

func feet(readings ...float64) (out []float64) {
	for _, ft := range readings {
		out = append(out, float64(unit.Feet(ft)))
	}
	return out
}

// leg is a leg of some feet.
func leg(from, to float64, pull float64, pulls int, strokes bool) worked {
	w := worked{leg: &route.Leg{From: unit.Feet(from), To: unit.Feet(to)}, pulls: pulls}
	if pulls > 0 {
		w.row = &site.PassRow{Strokes: strokes, Pull: unit.FeetPerMinute(pull)}
	}
	return w
}

var crew = rig.Crew{
	Travel: unit.FeetPerMinute(60), Stroke: unit.Feet(20),
	Forward: unit.FeetPerMinute(40), Back: unit.FeetPerMinute(40), Downstream: 0.5,
}

// readAt reads the counter every so often.
func readAt(phases []phase, every time.Duration, times int) (out []float64) {
	for i := range times {
		p, share, _ := phaseAt(phases, time.Duration(i)*every)
		at, _ := p.reading(share)
		out = append(out, float64(at))
	}
	return out
}

// By hand: 30 ft take three strokes of 20 ft that net 10 ft each, 60 ft forward
// and 30 ft back at 40 ft/min, a turn every quarter minute or two.
func TestStrokes(t *testing.T) {
	b := passBook{crew: &crew}
	b.out(leg(100, 130, 30, 1, true))
	require.InDelta(t, 2.25*60, b.now, 1e-9)
	require.Equal(t, 3, b.phases[0].strokes)
	got := readAt(b.phases, 15*time.Second, 10)
	require.InDeltaSlice(t, feet(100, 110, 120, 110, 120, 130, 120, 130, 120, 130), got, 1e-6)

	// One stroke is longer than the pipe: to the end, back, and to the end.
	one := passBook{crew: &crew}
	one.out(leg(0, 10, 30, 1, true))
	require.InDeltaSlice(t, feet(0, 10, 0, 10), readAt(one.phases, 15*time.Second, 4), 1e-6)
}

// Two pipes that ask for two pulls are pulled as one, twice; the pipe before them
// is only passed.
func TestPulls(t *testing.T) {
	b := passBook{crew: &crew}
	b.back([]worked{leg(60, 120, 30, 2, false), leg(120, 150, 30, 2, false)})
	b.back([]worked{leg(0, 60, 0, 0, false)})
	got := readAt(b.phases, 30*time.Second, 18)
	require.InDeltaSlice(t, feet(
		150, 135, 120, 105, 90, 75, // the first pull
		60, 90, 120, // out again
		150, 135, 120, 105, 90, 75, // the second
		60, 30, 0,
	), got, 1e-6)
	var motions []Motion
	for _, p := range b.phases {
		motions = append(motions, p.motion)
	}
	require.Equal(t, []Motion{Pulling, Pulling, Returning, Returning, Pulling, Pulling, ComingIn}, motions)
}

// Work in a downstream run takes half as long again, travel does not.
func TestDownstream(t *testing.T) {
	b := passBook{crew: &crew, down: true}
	b.out(leg(0, 60, 0, 0, false))
	require.InDelta(t, 60, b.now, 1e-9)
	b.back([]worked{leg(0, 60, 30, 1, false)})
	require.InDelta(t, 60+180, b.now, 1e-9)
}

// The phases fill the time that they are given.
func TestFit(t *testing.T) {
	b := passBook{crew: &crew}
	b.out(leg(0, 60, 0, 0, false))
	b.back([]worked{leg(0, 60, 60, 1, false)})
	b.fit(3 * time.Minute)
	require.InDeltaSlice(t, feet(0, 20, 40, 60, 40, 20, 0), readAt(b.phases, 30*time.Second, 7), 1e-6)

	// A crew that stands still has no pace to show.
	still := passBook{crew: &rig.Crew{}}
	still.out(leg(0, 0, 0, 0, false))
	still.fit(time.Minute)
	_, _, ok := phaseAt(still.phases, time.Second)
	require.False(t, ok)
}
