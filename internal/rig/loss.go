package rig

import (
	"math"

	"linemap/internal/unit"
)

// DefaultRoughness is the roughness of a hose that names none: a drawn tube or
// a smooth plastic liner, 0.0015 mm (common practice; the Moody chart's value
// for drawn tubing).
const DefaultRoughness unit.Length = 0.0015e-3

const (
	// laminarBelow is the Reynolds number at which flow turns turbulent for
	// good: 2040, by Avila et al., Science 333 (2011) 192. The friction factor
	// jumps up there. A jet hose works far above it, so nothing is blended.
	laminarBelow = 2040
	// roughest is the largest relative roughness on the Moody chart, the edge
	// of what Colebrook's formula was fitted to.
	roughest = 0.05
)

// HoseLoss returns the pressure that a flow loses along a hose or pipe, by
// Darcy-Weisbach with the friction factor of [FrictionFactor]. A roughness of
// 0 is a smooth wall. Coiling is left out: hose on a reel loses up to a fifth
// more than hose laid straight. No flow or no length loses nothing; a bore of
// nothing loses without bound.
func HoseLoss(q unit.Flow, bore, length, roughness unit.Length, w Water) unit.Pressure {
	if !(q > 0 && length > 0) {
		return 0
	}
	if !(bore > 0) {
		return unit.Pressure(math.Inf(1))
	}
	d := float64(bore)
	v := float64(q) / area(bore)
	re := float64(w.Density) * v * d / float64(w.Viscosity)
	f := FrictionFactor(re, float64(roughness)/d)
	return unit.Pressure(f * float64(length) / d * float64(w.Density) * v * v / 2)
}

// FrictionFactor returns Darcy's friction factor for a Reynolds number and a
// relative roughness: 64/Re below 2040, else the root of Colebrook's equation
//
//	1/sqrt(f) = -2 log10(relative/3.7 + 2.51/(Re sqrt(f)))
//
// to twelve digits (C. F. Colebrook, J. ICE 11 (1939) 133). A relative
// roughness above 0.05 counts as 0.05.
func FrictionFactor(re, relative float64) float64 {
	if !(re > 0) {
		return 0
	}
	if re < laminarBelow {
		return 64 / re
	}
	a := max(0, min(relative, roughest)) / 3.7
	b := 2.51 / min(re, math.MaxFloat64)
	// Newton on x = 1/sqrt(f). The function is increasing and concave, so from
	// the second step on x climbs to the root from below and cannot overshoot.
	const perLn = 2 / math.Ln10
	x := 7.0
	for range 50 {
		arg := a + b*x
		step := (x + perLn*math.Log(arg)) / (1 + perLn*b/arg)
		x -= step
		if math.Abs(step) < 1e-14*x {
			break
		}
	}
	return 1 / (x * x)
}

// area returns the cross section of a bore in m^2.
func area(bore unit.Length) float64 {
	return math.Pi / 4 * float64(bore) * float64(bore)
}

// loss returns what a flow loses over the whole hose, on and off the reel.
func (h *Hose) loss(q unit.Flow, w Water) unit.Pressure {
	roughness := h.Roughness
	if roughness == 0 {
		roughness = DefaultRoughness
	}
	return HoseLoss(q, h.Bore, h.Length, roughness, w)
}
