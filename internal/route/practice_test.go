package route_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/route"
	"linemap/internal/route/sample"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// The facts in this file are common practice of the trade, without a published
// source.

// Jet from the lower end: with a cleanout at each end of a line, the one at the
// lower end is entered, and the nozzle goes upstream.
func TestJetsFromTheLowerEnd(t *testing.T) {
	s := sample.Sketch("OUT -10ft/4in/out- CO1 -120ft- CO2", [2]float64{70, 10})
	p := solve(t, s)
	require.Len(t, p.Runs(), 1)
	assert.Equal(t, network.NodeID("CO1"), p.Runs()[0].Access)
	assert.Equal(t, route.Upstream, p.Runs()[0].Direction)
	assert.Empty(t, flagsOf(p.Runs()[0], route.FlagDownstream))
}

// What cannot be jetted from below is jetted from above, flagged, and takes
// longer.
func TestDownstreamIsFlaggedAndSlower(t *testing.T) {
	up := solve(t, sample.Sketch("OUT -10ft/4in/out- CO1(up) -80ft- CAP1", [2]float64{10, 5}))
	down := solve(t, sample.Sketch("OUT -80ft/4in- CO1(down) -10ft/out- CAP1", [2]float64{80, 5}))
	require.Len(t, down.Runs(), 1)
	assert.Equal(t, route.Downstream, down.Runs()[0].Direction)
	assert.NotEmpty(t, flagsOf(down.Runs()[0], route.FlagDownstream))
	assert.Greater(t, down.Runs()[0].Minutes, up.Runs()[0].Minutes)
}

// The deposit decides the passes and their nozzles.
func TestPassesByDeposit(t *testing.T) {
	kinds := func(deposit string) (out []site.PassKind, nozzles []string) {
		p := solve(t, sample.Sketch("OUT -10ft/4in/out- CO1(up) -60ft/"+deposit+"- CAP1", [2]float64{10, 5}))
		require.Len(t, p.Runs(), 1, deposit)
		for _, pass := range p.Runs()[0].Passes {
			out, nozzles = append(out, pass.Kind), append(nozzles, pass.Nozzle)
		}
		return out, nozzles
	}
	got, nozzles := kinds("roots")
	assert.Equal(t, []site.PassKind{site.RootCutPass, site.CleanPass}, got)
	assert.Equal(t, "cutter", nozzles[0])
	got, nozzles = kinds("grease/heavy")
	assert.Equal(t, []site.PassKind{site.OpenPass, site.CleanPass, site.FinishPass}, got)
	assert.Equal(t, "breaker", nozzles[0])
	got, nozzles = kinds("scale")
	assert.Equal(t, []site.PassKind{site.CleanPass, site.FinishPass}, got)
	assert.Equal(t, "spinner", nozzles[1])
}

// Every change of nozzle brings the hose back and is paid for; one nozzle that
// serves two passes is not changed.
func TestNozzleChangesCost(t *testing.T) {
	text := "OUT -10ft/4in/out- CO1(up) -60ft/grease- CAP1"
	s := sample.Sketch(text, [2]float64{10, 5})
	two := solve(t, s)
	assert.Equal(t, 1, count(two, route.EventNozzleChange))
	s = sample.Sketch(text, [2]float64{10, 5})
	for i := range s.Rig.Nozzles {
		if s.Rig.Nozzles[i].ID == "flusher" {
			s.Rig.Nozzles[i].Purposes = []rig.Purpose{rig.Flushing, rig.Pulling}
		}
	}
	s.Rig.Nozzles = s.Rig.Nozzles[2:3]
	one := solve(t, s)
	assert.Zero(t, count(one, route.EventNozzleChange))
	assert.InDelta(t, s.Rig.Crew.NozzleChange, (two.Cost - one.Cost).Minutes(), 0.011)
}

// A fragile pipe caps the pressure at the nozzle for the pass through it.
func TestFragilePipeCapsPressure(t *testing.T) {
	p := solve(t, sample.Sketch("OUT -10ft/4in/out- CO1(up) -30ft/fragile/ceiling=900psi- CAP1", [2]float64{10, 5}))
	require.Len(t, p.Runs(), 1)
	for _, pass := range p.Runs()[0].Passes {
		assert.LessOrEqual(t, pass.Operating.Nozzle.Psi(), 900.001)
		assert.Less(t, pass.Setting, sample.Rig().Pump.Unloader)
	}
	assert.NotEmpty(t, flagsOf(p.Runs()[0], route.FlagFragile))
}

// A spot out of reach of water works from the tank, and fetches more; the
// trailer is towed full or empty.
func TestFetchesWater(t *testing.T) {
	s := sample.Sketch("OUT -10ft/4in/out- CO1 -100ft- CO2 -100ft- CO3 -100ft- CAP1", [2]float64{10, 5})
	s.Rig.Hoses[0].Length = unit.Feet(500)
	s.Rig.Tank.Start = unit.Gallons(100)
	s.Water[0].At.X += 2 * s.Rig.Supply.Length
	p := solve(t, s)
	assert.Empty(t, p.Shortfalls)
	assert.Positive(t, count(p, route.EventFill))
	assert.Zero(t, count(p, route.EventWait))
	for _, e := range p.Day {
		if e.Kind == route.EventPackUp {
			assert.True(t, e.After == 0 || e.After == s.Rig.Tank.Volume, "towed with %v", e.After)
		}
	}
}

// Half-inch hose serves 4 to 12 in lines and three-eighths 3 to 8 in; 400 ft is
// an ordinary reel. A rig like that does a 3 in branch with the three-eighths
// hose only.
func TestHoseBySize(t *testing.T) {
	s := sample.Sketch("OUT -10ft/4in/out- CO1(up) -80ft- W1 -80ft- CAP1 ; W1 ~60ft/3in- CAP2", [2]float64{10, 5})
	for i, size := range [][2]unit.Size{{4, 12}, {3, 8}} {
		h := &s.Rig.Hoses[i]
		h.Length, h.Reserve, h.MinPipe, h.MaxPipe = unit.Feet(400), unit.Feet(10), size[0], size[1]
	}
	for i := range s.Rig.Nozzles {
		s.Rig.Nozzles[i].MaxPipe = 12
	}
	p := solve(t, s)
	assert.Empty(t, p.Shortfalls)
	for _, b := range p.Blocks {
		for _, r := range b.Runs {
			for _, leg := range r.Path {
				if leg.Pipe == "W1-CAP2" {
					assert.Equal(t, "three-eighths", b.Hose)
				}
			}
		}
	}
}

func flagsOf(r *route.Run, kind route.FlagKind) (out []route.Flag) {
	for _, f := range r.Flags {
		if f.Kind == kind {
			out = append(out, f)
		}
	}
	return out
}

func count(p *route.Plan, kind route.EventKind) (n int) {
	for _, e := range p.Day {
		if e.Kind == kind {
			n++
		}
	}
	return n
}
