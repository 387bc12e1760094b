package rig

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"linemap/internal/unit"
)

// reference is the water of the check values: 20 C by the figures most
// handbooks print.
var reference = Water{Density: 998.2, Viscosity: 1.002e-3}

func TestHoseLoss(t *testing.T) {
	t.Parallel()
	// Computed with the fluid mechanics library fluids 1.0.22 (Colebrook), and
	// by an independent fixed-point iteration that agrees to 8 digits.
	for _, c := range []struct{ gpm, in, ft, psi float64 }{
		{4, 0.375, 400, 271.00179},
		{8, 0.375, 400, 940.38463},
		{12, 0.375, 400, 1963.63940},
		{12, 0.375, 200, 981.81970},
		{4, 0.5, 400, 68.29705},
		{8, 0.5, 400, 234.70404},
		{12, 0.5, 400, 486.80774},
		{18, 0.5, 400, 1015.65750},
		{25, 0.5, 200, 925.76071},
		{40, 0.5, 400, 4406.13015},
		{12, 0.625, 400, 165.96403},
		{18, 0.625, 400, 344.59696},
		{25, 0.625, 400, 625.41156},
		{40, 0.625, 400, 1477.47762},
		{12, 0.75, 400, 69.08881},
		{18, 0.75, 400, 142.97322},
		{25, 0.75, 400, 258.69514},
		{40, 0.75, 400, 608.08493},
		{40, 1.0, 400, 150.90659},
	} {
		got := HoseLoss(unit.GallonsPerMinute(c.gpm), unit.Inches(c.in), unit.Feet(c.ft),
			DefaultRoughness, reference)
		assert.InEpsilonf(t, c.psi, got.Psi(), 1e-6, "%v gpm, %v in, %v ft", c.gpm, c.in, c.ft)
	}
}

func TestHoseLossSensitivity(t *testing.T) {
	t.Parallel()
	// Same source: 12 gpm through 1/2 in x 400 ft.
	loss := func(roughness unit.Length, w Water) float64 {
		return HoseLoss(unit.GallonsPerMinute(12), unit.Inches(0.5), unit.Feet(400), roughness, w).Psi()
	}
	assert.InEpsilon(t, 473.72736, loss(0, reference), 1e-6, "smooth")
	assert.InEpsilon(t, 549.46495, loss(unit.Millimetres(0.01), reference), 1e-6, "0.01 mm")
	cold := Water{Density: 999.97, Viscosity: 1.567e-3}
	assert.InEpsilon(t, 533.43930, loss(DefaultRoughness, cold), 1e-6, "4 C")
	assert.InEpsilon(t, 533.43930, loss(DefaultRoughness, WaterAt(4)), 1e-3, "4 C by formula")
	assert.InEpsilon(t, 486.80774, loss(DefaultRoughness, WaterAt(20)), 1e-5, "20 C by formula")
}
