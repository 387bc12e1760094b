package rig

import (
	"time"

	"linemap/internal/unit"
)

// The level of the tank is a straight line over time at steady flows, cut off
// at the brim; so the functions below are exact and take no steps.

// Need returns the least level with which a run that draws water for d may
// start: the engine's start level, or more where the tank would fall below
// Stop before the run ends. It reports false where the tank does not hold that
// much.
func (t *Tank) Need(draw, inflow unit.Flow, d time.Duration) (unit.Volume, bool) {
	need := max(t.Start, t.Stop)
	if draw > inflow {
		need = max(need, t.Stop+over(draw-inflow, d))
	}
	return need, need <= t.Volume
}

// After returns the level after drawing and filling for d, at most Volume and
// at least 0.
func (t *Tank) After(level unit.Volume, draw, inflow unit.Flow, d time.Duration) unit.Volume {
	return max(0, min(level+over(inflow-draw, d), t.Volume))
}

// over returns the volume of a flow over a time.
func over(q unit.Flow, d time.Duration) unit.Volume {
	return unit.Volume(float64(q) * d.Seconds())
}
