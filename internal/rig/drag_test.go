package rig

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"linemap/internal/unit"
)

// line255 is a hose that weighs 0.255 lbf/ft with its water; dry makes the
// hose's own mass the whole weight.
var (
	line255 = &Hose{Mass: unit.PoundsPerFoot(0.255)}
	dry     = Water{}
)

func steps(mu float64, turnsAndFeet ...[2]float64) []Step {
	var out []Step
	for _, s := range turnsAndFeet {
		out = append(out, Step{
			Turn: unit.Degrees(s[0]), Length: unit.Feet(s[1]),
			Friction: Range{mu, mu, mu},
		})
	}
	return out
}

func TestDragRoute(t *testing.T) {
	t.Parallel()
	// Computed, by the straight and capstan formulas.
	route := steps(0.4, [2]float64{0, 40}, [2]float64{90, 60}, [2]float64{45, 80})
	assert.InEpsilon(t, 4.08, Drag(route[:1], line255, dry, LikelyReach).PoundsForce(), 1e-9)
	assert.InEpsilon(t, 13.767781, Drag(route[:2], line255, dry, LikelyReach).PoundsForce(), 1e-7)
	assert.InEpsilon(t, 27.009576, Drag(route, line255, dry, LikelyReach).PoundsForce(), 1e-7)
	back := steps(0.4, [2]float64{0, 80}, [2]float64{45, 60}, [2]float64{90, 40})
	assert.InEpsilon(t, 36.492944, Drag(back, line255, dry, LikelyReach).PoundsForce(), 1e-7)

	long := steps(0.4, [2]float64{0, 40}, [2]float64{90, 60}, [2]float64{45, 200})
	reach := func(lbf float64) float64 {
		return ReachAlong(long, line255, dry, unit.PoundsForce(lbf), LikelyReach).Feet()
	}
	assert.InEpsilon(t, 154.869560, reach(24.446271), 1e-7)
	assert.InEpsilon(t, 208.734011, reach(29.940445), 1e-7)
	assert.InEpsilon(t, 99.230201,
		PeakPull(route, line255, dry, unit.PoundsForce(24.446271), LikelyReach).PoundsForce(), 1e-7)
}
