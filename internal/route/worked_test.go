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

// only keeps one hose of the test rig.
func only(s *site.Site, id string) *rig.Hose {
	for _, h := range s.Rig.Hoses {
		if h.ID == id {
			s.Rig.Hoses = []rig.Hose{h}
		}
	}
	return &s.Rig.Hoses[0]
}

func shortOf(t *testing.T, p *route.Plan, pipe network.PipeID) route.Shortfall {
	t.Helper()
	for _, s := range p.Shortfalls {
		if s.Pipe == pipe {
			return s
		}
	}
	require.Failf(t, "no shortfall", "pipe %s; shortfalls %v", pipe, p.Shortfalls)
	return route.Shortfall{}
}

// Each case is worked by hand: it just goes, and fails by one when the limit
// is one less.
func TestFailsByOne(t *testing.T) {
	t.Run("one bend", func(t *testing.T) {
		// Three quarter bends between the cleanout and the cap.
		text := "OUT -10ft/4in/out- CO1(up) -20ft- B1 -10ft- B2(right) -10ft- B3 -10ft- CAP1"
		s := sample.Sketch(text, [2]float64{10, 5})
		only(s, "half").Bends = 3
		p := solve(t, s)
		assert.Empty(t, p.Shortfalls)
		assert.InDelta(t, 3, p.Runs()[0].Bends, 1e-9)
		s.Rig.Hoses[0].Bends = 2
		short := shortOf(t, solve(t, s), "B3-CAP1")
		assert.Equal(t, route.OverBends, short.Reason)
		assert.InDelta(t, 1, short.ByBends, 1e-9)
		assert.Contains(t, short.Why(unit.US), "1 quarter bend too many")
	})
	t.Run("one foot", func(t *testing.T) {
		// Lay 5 ft, path 80 + 100 ft, reserve 10 ft: 195 ft of hose.
		s := sample.Sketch("OUT -10ft/4in/out- CO1(up) -80ft- CO2(down) -100ft- CAP1", [2]float64{10, 5})
		only(s, "half").Length = unit.Feet(195)
		s.Network.Nodes[2].Access.OutOfService = true
		p := solve(t, s)
		assert.Empty(t, p.Shortfalls)
		assert.InDelta(t, 185, p.Runs()[0].End.Feet(), 1e-6)
		s.Rig.Hoses[0].Length = unit.Feet(194)
		short := shortOf(t, solve(t, s), "CO2-CAP1")
		assert.Equal(t, route.OverReel, short.Reason)
		assert.InDelta(t, 1, short.ByLength.Feet(), 1e-6)
		assert.Equal(t, route.LongerHose, short.Cure.Kind)
		assert.InDelta(t, 1, short.Cure.Length.Feet(), 1e-6)
		assert.Contains(t, short.Why(unit.US), "over the reel length by 1 ft")
		assert.Contains(t, short.Cure.Say(unit.US), "longer by 1 ft")
	})
	t.Run("one size", func(t *testing.T) {
		// The half-inch hose takes 3 in and up; the branch is 2 in.
		s := sample.Sketch("OUT -10ft/4in/out- CO1(up) -40ft- W1 -20ft- CAP1 ; W1 ~20ft/3in- CAP2", [2]float64{10, 5})
		only(s, "half")
		assert.Empty(t, solve(t, s).Shortfalls)
		s.Network.Pipes[3].Size = 2
		short := shortOf(t, solve(t, s), "W1-CAP2")
		assert.Equal(t, route.HoseTooLarge, short.Reason)
		assert.Equal(t, route.SmallerHose, short.Cure.Kind)
	})
	t.Run("pull", func(t *testing.T) {
		s := sample.Sketch("OUT -10ft/4in/out- CO1(up) -100ft- CAP1", [2]float64{10, 5})
		h := only(s, "half")
		p := solve(t, s)
		require.Empty(t, p.Shortfalls)
		pass := p.Runs()[0].Passes[0]
		require.Greater(t, pass.Thrust, pass.Drag)
		// Drag is in proportion to the hose's weight, so the hose that is short
		// by one pound-force can be worked out from this one.
		water := unit.LinearMass(0.0849697 * 0.45359237 / 0.3048) // 1/2 in, check-values section 3
		weight := float64(h.Mass + water)
		want := weight * float64(pass.Thrust+unit.PoundsForce(1)) / float64(pass.Drag)
		h.Mass = unit.LinearMass(want) - water
		short := shortOf(t, solve(t, s), "CO1-CAP1")
		assert.Equal(t, route.PullShort, short.Reason)
		assert.InDelta(t, 1, short.ByForce.PoundsForce(), 0.05)
		assert.Contains(t, short.Why(unit.US), "short by 1 lbf")
	})
}

// The nearest access is the wrong one: from it the second quarter bend is one
// too many, from the farther one the way is straight.
func TestNearestAccessIsWrong(t *testing.T) {
	s := sample.Sketch("OUT -10ft/4in/out- MH1 -60ft- W1 -30ft- CAP1 ; W1 ~10ft- B1 -10ft- CO2(up) -5ft- B2 -20ft- B3 -20ft- CAP2",
		[2]float64{10, 5})
	only(s, "half").Bends = 2
	p := solve(t, s)
	// From CO2 two quarter bends lead to CAP2; from the manhole the eighth of
	// the wye and the bend at B1 come first.
	for _, r := range p.Runs() {
		for _, leg := range r.Path {
			if leg.Pipe == "B3-CAP2" {
				assert.Equal(t, network.NodeID("CO2"), r.Access)
			}
		}
	}
	assert.Empty(t, p.Shortfalls)
}

// The three-pipe chain: access A under p1, access B under p2, and p3 out of A's
// reach. The longest run from A would be p1 and p2; but then the run from B
// travels p2 again on its way to p3. A to the end of p1 and B from there is
// cheaper, so taking only the longest runs would miss it.
func TestThreePipeChain(t *testing.T) {
	s := sample.Sketch("OUT -10ft/4in/out- CO1 -60ft/id=p1- CO2 -60ft/id=p2- B3(turn=0) -60ft/id=p3- CAP1", [2]float64{40, 5})
	only(s, "half").Length = unit.Feet(165)
	p := solve(t, s)
	require.Empty(t, p.Shortfalls)
	require.True(t, p.Proven)
	runs := p.Runs()
	require.Len(t, runs, 2)
	assert.Equal(t, network.NodeID("CO1"), runs[0].Access)
	assert.Len(t, runs[0].Path, 1)
	assert.Equal(t, network.NodeID("CO2"), runs[1].Access)
	require.Len(t, runs[1].Path, 2)
	assert.True(t, runs[1].Path[0].Cleaned)
}

// A site without a water point has the tank's water and no more.
func TestRunsOutOfWater(t *testing.T) {
	s := sample.Sketch("OUT -10ft/4in/out- CO1 -100ft- CO2 -100ft- CO3 -100ft- CO4 -100ft- CAP1", [2]float64{10, 5})
	only(s, "half").Length = unit.Feet(500)
	p := solve(t, s)
	require.Empty(t, p.Shortfalls, "with a hydrant everything is cleaned")
	s.Water = nil
	s.Rig.Tank.Start = unit.Gallons(100)
	p = solve(t, s)
	require.NotEmpty(t, p.Shortfalls)
	require.NotEmpty(t, p.Runs(), "what the tank can do is done")
	for _, short := range p.Shortfalls {
		assert.Equal(t, route.NoWater, short.Reason)
		assert.Positive(t, short.ByWater)
		assert.Equal(t, route.MoreWater, short.Cure.Kind)
	}
	var drawn unit.Volume
	for _, r := range p.Runs() {
		drawn += r.Water
	}
	assert.LessOrEqual(t, drawn, s.Rig.Tank.Volume-s.Rig.Tank.Stop)
	assert.False(t, p.Proven)
}

// Without a hose, a spot or an access nothing is cleaned, and each says so.
func TestNothingToWorkWith(t *testing.T) {
	text := "OUT -10ft/4in/out- CO1(up) -80ft- CAP1"
	for _, c := range []struct {
		name string
		take func(*site.Site)
		want route.Reason
	}{
		{"no hose", func(s *site.Site) { s.Rig.Hoses = nil }, route.NoHose},
		{"no spot", func(s *site.Site) { s.Spots[0].Uneven = true }, route.NoSpot},
		{"no access", func(s *site.Site) { s.Network.Nodes[1].Access.OutOfService = true }, route.NoAccess},
		{"no nozzle", func(s *site.Site) { s.Rig.Nozzles = nil }, route.NoNozzle},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := sample.Sketch(text, [2]float64{10, 5})
			c.take(s)
			p := solve(t, s)
			assert.Empty(t, p.Runs())
			assert.Zero(t, p.Cost)
			assert.Equal(t, c.want, shortOf(t, p, "CO1-CAP1").Reason)
		})
	}
}
