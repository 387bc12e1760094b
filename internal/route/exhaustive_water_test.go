package route

import (
	"math/rand/v2"
	"testing"

	"linemap/internal/route/sample"
	"linemap/internal/site"
	"linemap/internal/unit"

	"github.com/stretchr/testify/require"
)

// thirsty is a site of [sample.Wild] where water is shorter yet, and where it pays
// more often to move: taps that give little and are far off, tanks that hold
// little, short reels and crews that are quick to move.
func thirsty(r *rand.Rand, pipes int) *site.Site {
	s := sample.Wild(r, pipes)
	for i := range s.Water {
		s.Water[i].Flow = unit.GallonsPerMinute(float64(2 + r.IntN(10)))
		s.Water[i].At.X += unit.Feet(float64(r.IntN(4) * r.IntN(4) * 20))
	}
	if len(s.Water) > 0 && r.IntN(3) == 0 {
		tap := s.Water[0]
		tap.ID, tap.Label, tap.Flow = "h2", "Tap", unit.GallonsPerMinute(float64(2+r.IntN(15)))
		tap.At = s.Spots[len(s.Spots)-1].At
		s.Water = append(s.Water, tap)
	}
	tank := &s.Rig.Tank
	if r.IntN(2) == 0 {
		v := unit.Gallons(float64(60 + 20*r.IntN(8)))
		tank.Volume, tank.Start, tank.Stop = v, v/4, v/10
	}
	tank.Drain = unit.GallonsPerMinute(float64(10 + 10*r.IntN(10)))
	if crew := &s.Rig.Crew; r.IntN(2) == 0 {
		crew.SetUp, crew.PackUp, crew.Move = float64(1+r.IntN(4)), float64(1+r.IntN(4)), float64(1+r.IntN(3))
		for i := range s.Rig.Hoses {
			s.Rig.Hoses[i].Length = unit.Feet(float64(80 + 10*r.IntN(12)))
		}
	}
	return s
}

// The planner finds the best of all plans, with all their waiting, fetching, filling
// and draining, and proves it, on small networks, half of them of [sample.Wild] and
// half of them thirsty. It and the oracle count in whole ticks by the same rules, so
// there is nothing to allow for.
func TestExhaustiveWater(t *testing.T) {
	rounds := 3000
	if testing.Short() {
		rounds = 300
	}
	var n waterTally
	for seed := range rounds {
		r := rand.New(rand.NewPCG(uint64(seed), 37))
		draw := sample.Wild
		if seed%2 == 0 {
			draw = thirsty
		}
		n.compare(t, seed, draw(r, 1+r.IntN(8)))
	}
	n.log(t)
	require.Greater(t, n.plans, rounds/2)
	require.Greater(t, n.wet, n.plans/3)
	require.Greater(t, n.waits, n.plans/6)
	require.Greater(t, n.fetches, n.plans/13)
	require.Greater(t, n.towed, n.wet/20)
	require.Equal(t, n.plans, n.best)
	require.Equal(t, n.plans, n.proven)
	require.Zero(t, n.needless)
}
