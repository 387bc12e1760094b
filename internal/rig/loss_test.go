package rig

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/unit"
)

// reference is the water of the check values: 20 C by the figures most
// handbooks print.
var reference = Water{Density: 998.2, Viscosity: 1.002e-3}

func TestHoseLoss(t *testing.T) {
	t.Parallel()
	// Computed with the fluid mechanics library fluids 1.0.22 (Colebrook,
	// roughness 0.0015 mm); an independent fixed-point iteration agrees to 8
	// digits. Swamee and Jain, J. Hydraul. Div. ASCE 102 (1976) 657, by the
	// same library.
	for _, c := range []struct{ gpm, in, ft, speed, re, colebrook, swameeJain, psi float64 }{
		{4, 0.375, 400, 11.61949, 33606.002, 0.02331791, 0.02326198, 271.00179},
		{8, 0.375, 400, 23.23898, 67212.004, 0.02022847, 0.02017871, 940.38463},
		{12, 0.375, 400, 34.85847, 100818.006, 0.01877313, 0.01874283, 1963.63940},
		{12, 0.375, 200, 34.85847, 100818.006, 0.01877313, 0.01874283, 981.81970},
		{4, 0.5, 400, 6.53596, 25204.502, 0.02476356, 0.02470861, 68.29705},
		{8, 0.5, 400, 13.07193, 50409.003, 0.02127510, 0.02120068, 234.70404},
		{12, 0.5, 400, 19.60789, 75613.505, 0.01961219, 0.01954810, 486.80774},
		{18, 0.5, 400, 29.41183, 113420.257, 0.01818584, 0.01814139, 1015.65750},
		{25, 0.5, 200, 40.84977, 157528.134, 0.01718620, 0.01716170, 925.76071},
		{40, 0.5, 400, 65.35963, 252045.015, 0.01597601, 0.01598244, 4406.13015},
		{12, 0.625, 400, 12.54905, 60490.804, 0.02040481, 0.02032229, 165.96403},
		{18, 0.625, 400, 18.82357, 90736.205, 0.01882988, 0.01876077, 344.59696},
		{25, 0.625, 400, 26.14385, 126022.508, 0.01771605, 0.01766357, 625.41156},
		{40, 0.625, 400, 41.83016, 201636.012, 0.01634866, 0.01632508, 1477.47762},
		{12, 0.75, 400, 8.71462, 50409.003, 0.02113648, 0.02104428, 69.08881},
		{18, 0.75, 400, 13.07193, 75613.505, 0.01944004, 0.01935523, 142.97322},
		{25, 0.75, 400, 18.15545, 105018.756, 0.01823457, 0.01816285, 258.69514},
		{40, 0.75, 400, 29.04872, 168030.010, 0.01674294, 0.01669692, 608.08493},
		{40, 1.0, 400, 16.33991, 126022.508, 0.01750932, 0.01743352, 150.90659},
	} {
		q, bore := unit.GallonsPerMinute(c.gpm), unit.Inches(c.in)
		v := float64(q) / area(bore)
		assert.InDelta(t, c.speed, unit.Speed(v).FeetPerSecond(), 6e-6, "%v: speed", c)
		re := float64(reference.Density) * v * float64(bore) / float64(reference.Viscosity)
		assert.InDelta(t, c.re, re, 6e-4, "%v: Re", c)
		f := FrictionFactor(re, float64(DefaultRoughness/bore))
		assert.InEpsilon(t, c.colebrook, f, 1e-6, "%v: Colebrook", c)
		assert.InEpsilon(t, c.swameeJain, f, 5e-3, "%v: Swamee-Jain", c)
		loss := HoseLoss(q, bore, unit.Feet(c.ft), DefaultRoughness, reference)
		assert.InEpsilon(t, c.psi, loss.Psi(), 1e-6, "%v: loss", c)
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
	// Hazen-Williams with C = 150 (computed) is another law; it lies within 2 %.
	assert.InEpsilon(t, 491.74184, loss(DefaultRoughness, reference), 0.02, "Hazen-Williams")

	h := Hose{Bore: unit.Inches(0.5), Length: unit.Feet(400)}
	assert.InEpsilon(t, 486.80774, h.loss(unit.GallonsPerMinute(12), reference).Psi(), 1e-6,
		"a hose that names no roughness")
}

func TestFrictionFactor(t *testing.T) {
	t.Parallel()
	assert.InEpsilon(t, 0.018513866077471648, FrictionFactor(1e5, 1e-4), 1e-12, "fluids 1.0.22")
	// Laminar, by Hagen-Poiseuille: 0.3 gpm in 1/2 in (computed).
	assert.InEpsilon(t, 0.0338563861, FrictionFactor(1890.3376, 1e-4), 1e-8, "laminar")
	q, bore := unit.GallonsPerMinute(0.3), unit.Inches(0.5)
	poiseuille := 128 * float64(reference.Viscosity) * float64(q) / (math.Pi * math.Pow(float64(bore), 4))
	assert.InEpsilon(t, 100*poiseuille,
		float64(HoseLoss(q, bore, 100, DefaultRoughness, reference)), 1e-12, "laminar loss")
	assert.Less(t, FrictionFactor(2039.9, 0), FrictionFactor(2040, 0), "the jump into turbulence")
}

func TestColebrookIsSolved(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		re := math.Pow(10, rapid.Float64Range(3.4, 12).Draw(t, "log Re"))
		relative := rapid.Float64Range(0, roughest).Draw(t, "relative roughness")
		f := FrictionFactor(re, relative)
		x := 1 / math.Sqrt(f)
		require.InEpsilon(t, x, -2*math.Log10(relative/3.7+2.51/re*x), 1e-12)
	})
}

func TestHoseLossTakesAnything(t *testing.T) {
	t.Parallel()
	assert.Zero(t, HoseLoss(0, 1, 1, 0, reference))
	assert.Zero(t, HoseLoss(-1, 1, 1, 0, reference))
	assert.Zero(t, HoseLoss(1, 0, 0, 0, reference), "no plumbing")
	assert.True(t, math.IsInf(float64(HoseLoss(1, 0, 1, 0, reference)), 1), "no bore")
	assert.Zero(t, FrictionFactor(math.NaN(), 0))
	assert.Positive(t, FrictionFactor(math.Inf(1), 0))
	assert.Equal(t, FrictionFactor(1e5, roughest), FrictionFactor(1e5, 1e9), "rougher than the chart")
	assert.Equal(t, FrictionFactor(1e5, 0), FrictionFactor(1e5, -1), "roughness below nothing")
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) float64 {
			size := math.Pow(10, rapid.Float64Range(-30, 30).Draw(t, name))
			return rapid.SampledFrom([]float64{-size, 0, size}).Draw(t, "signed")
		}
		got := HoseLoss(unit.Flow(draw("q")), unit.Length(draw("bore")),
			unit.Length(draw("length")), unit.Length(draw("roughness")), reference)
		require.False(t, math.IsNaN(float64(got)) || got < 0, "%v", got)
	})
}
