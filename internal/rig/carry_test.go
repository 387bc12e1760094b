package rig

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/unit"
)

func TestSegment(t *testing.T) {
	t.Parallel()
	// Computed from the circular segment, as shares of the full pipe: the
	// hydraulic elements of a round pipe. The flow ratio at 0.938 is the
	// greatest, the speed ratio at 0.8128.
	fullArea, fullRadius := segment(1, 1)
	assert.InEpsilon(t, math.Pi/4, fullArea, 1e-15)
	assert.InEpsilon(t, 0.25, fullRadius, 1e-15)
	for _, c := range []struct{ depth, area, radius, speed, flow float64 }{
		{.1, .052044, .254081, .401157, .020878},
		{.2, .142378, .482365, .615060, .087571},
		{.3, .252316, .683764, .776135, .195831},
		{.5, .5, 1, 1, .5},
		{.75, .804499, 1.206748, 1.133473, .911878},
		{.8128, .870499, 1.217234, 1.140029, .992395},
		{.938, .974285, 1.160143, 1.104098, 1.075706},
	} {
		a, r := segment(c.depth, 1)
		assert.InDelta(t, c.area, a/fullArea, 6e-7, "area at %v", c.depth)
		assert.InDelta(t, c.radius, r/fullRadius, 6e-7, "radius at %v", c.depth)
		speed := math.Pow(r/fullRadius, 2.0/3)
		assert.InDelta(t, c.speed, speed, 6e-7, "speed at %v", c.depth)
		assert.InDelta(t, c.flow, speed*a/fullArea, 6e-7, "flow at %v", c.depth)
	}
	// Where the series for thin films takes over, nothing jumps.
	depth := math.Pow(math.Sin(0.01/4), 2)
	thin, _ := segment(depth*(1-1e-9), 1)
	thick, _ := segment(depth*(1+1e-9), 1)
	assert.InEpsilon(t, thick, thin, 1e-5)
}

// gpm, in and inPerFoot spell out a case in the trade's units.
func carry(gpm, in, inPerFoot, manning float64) Carry {
	return CarryAt(unit.GallonsPerMinute(gpm), unit.Inches(in), unit.InchesPerFoot(inPerFoot), manning)
}

// fullFlow is Manning's full-pipe flow in gpm, computed with the US constant
// 1.486, which is 5.5e-5 above the SI form that CarryAt uses.
const (
	full4at14  = 123.29092
	full4at18  = 87.17984
	full6at18  = 257.03530
	full3at14  = 57.24811
	usConstant = 1e-4 // tolerance that the two constants ask for
)

func TestCarryPartFull(t *testing.T) {
	t.Parallel()
	// Computed by Manning for 12 gpm and others.
	for _, c := range []struct {
		name                        string
		gpm, in, inPerFoot, manning float64
		depth, speed                float64 // ft/s; depth 0 where the source gives none
	}{
		{"4 in, 1/4", 12, 4, 0.25, 0.013, .210735, 1.996938},
		{"4 in, 1/8", 12, 4, 0.125, 0.013, .250611, 1.561731},
		{"6 in, 1/8", 12, 6, 0.125, 0.013, .147097, 1.489269},
		{"4 in, 1/4, smooth", 12, 4, 0.25, 0.010, .185152, 2.403489},
		{"4 in, 1/8, smooth", 12, 4, 0.125, 0.010, .219740, 1.881380},
		{"18 gpm", 18, 4, 0.25, 0.013, 0, 2.246443},
		{"40 gpm", 40, 6, 0.125, 0.013, 0, 2.120046},
		{"just 2 ft/s in 4 in, 1/4", 12.0630, 4, 0.25, 0.013, 0, 2},
		{"just 2 ft/s in 4 in, 1/8", 28.9445, 4, 0.125, 0.013, 0, 2},
		{"just 2 ft/s in 6 in, 1/8", 32.6800, 6, 0.125, 0.013, 0, 2},
		{"half full runs as fast as full, 4 in 1/4", full4at14 / 2, 4, 0.25, 0.013, 0.5, 3.147753},
		{"half full, 4 in 1/8", full4at18 / 2, 4, 0.125, 0.013, 0.5, 2.225798},
		{"half full, 6 in 1/8", full6at18 / 2, 6, 0.125, 0.013, 0.5, 2.916620},
		{"half full, 3 in 1/4", full3at14 / 2, 3, 0.25, 0.013, 0.5, 2.598413},
		{"half full, 8 in at 0.4 %", 343.02704 / 2, 8, 0.004 * 12, 0.013, 0.5, 2.189465},
		{"three quarters", .911878 * full4at14, 4, 0.25, 0.013, 0.75, 1.133473 * 3.147753},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			got := carry(c.gpm, c.in, c.inPerFoot, c.manning)
			assert.False(t, got.Full)
			assert.InEpsilon(t, c.speed, got.Velocity.FeetPerSecond(), usConstant)
			if c.depth > 0 {
				assert.InEpsilon(t, c.depth, got.Depth, usConstant)
			}
		})
	}
}

func TestCarryFull(t *testing.T) {
	t.Parallel()
	// The greatest part-full flow is 1.0757 of the full flow.
	assert.False(t, carry(1.0755*full4at14, 4, 0.25, 0.013).Full)
	got := carry(1.0759*full4at14, 4, 0.25, 0.013)
	assert.True(t, got.Full)
	assert.InDelta(t, 1, got.Depth, 0)
	assert.InEpsilon(t, 1.0759*3.147753, got.Velocity.FeetPerSecond(), 1e-6)
	// Shear of full flow, gamma R S (computed): 5.18 Pa at a quarter inch, and by
	// the square of the flow above that.
	assert.InEpsilon(t, 1.0759*1.0759*5.1800125, float64(got.Shear), 2*usConstant)
	// A pipe without fall stands full; at 2 ft/s full 4 in has 2.0914 Pa.
	q := unit.Flow(float64(unit.FeetPerSecond(2)) * area(unit.Inches(4)))
	level := CarryAt(q, unit.Inches(4), 0, 0.013)
	assert.True(t, level.Full)
	assert.InEpsilon(t, 2.0914, float64(level.Shear), usConstant)
	assert.Equal(t, level, CarryAt(q, unit.Inches(4), -0.01, 0.013), "nor one that falls backwards")
}

func TestShearAndGrain(t *testing.T) {
	t.Parallel()
	assert.InEpsilon(t, 2.61744, float64(carry(12, 4, 0.25, 0.013).Shear), usConstant)
	assert.InEpsilon(t, 1.52224, float64(carry(12, 4, 0.125, 0.013).Shear), usConstant)
	// R. Soulsby, Dynamics of Marine Sands (1997): theta = 0.3/(1+1.2 D*) +
	// 0.055 (1-exp(-0.02 D*)), grains of 2650 kg/m3 (computed).
	for mm, shear := range map[float64]float64{
		.2: .154769, .5: .249846, 1: .508521, 2: 1.290712, 5: 4.257423, 10: 9.012013,
	} {
		assert.InDelta(t, shear, float64(threshold(unit.Millimetres(mm), reference)), 6e-7, "%v mm", mm)
		assert.InEpsilon(t, mm, grain(unit.Pressure(shear), reference).Millimetres(), 1e-5, "%v mm", mm)
	}
	assert.InDelta(t, 3.373552, grain(2.61744, reference).Millimetres(), 1e-6)
	assert.InDelta(t, 2.253254, grain(1.52224, reference).Millimetres(), 1e-6)
	assert.Zero(t, grain(0, reference))
	assert.InEpsilon(t, 3.373552, carry(12, 4, 0.25, 0.013).Grain.Millimetres(), 2*usConstant)
}

func TestCarryTakesAnything(t *testing.T) {
	t.Parallel()
	assert.Equal(t, Carry{}, CarryAt(0, 0.1, 0.01, 0.013), "no flow")
	assert.Equal(t, Carry{}, CarryAt(1, 0, 0.01, 0.013), "no bore")
	assert.Equal(t, Carry{}, CarryAt(1, 0.1, 0.01, 0), "no roughness")
	assert.Equal(t, Carry{}, CarryAt(1e-300, 0.1, unit.Slope(math.Inf(1)), 0.013), "a film")
	rapid.Check(t, func(t *rapid.T) {
		q := unit.LitresPerMinute(math.Pow(10, rapid.Float64Range(-6, 6).Draw(t, "log q")))
		bore := unit.Length(rapid.Float64Range(0.01, 2).Draw(t, "bore"))
		slope := unit.Slope(rapid.Float64Range(-0.1, 2).Draw(t, "slope"))
		got := CarryAt(q, bore, slope, rapid.Float64Range(0.005, 0.05).Draw(t, "manning"))
		require.Positive(t, got.Depth)
		require.LessOrEqual(t, got.Depth, 1.0)
		require.Equal(t, got.Full, got.Depth > fullest)
		a, _ := segment(got.Depth, bore)
		require.InEpsilon(t, float64(q), a*float64(got.Velocity), 1e-12, "what flows in flows out")
		require.Positive(t, float64(got.Shear))
		require.InEpsilon(t, float64(got.Shear), float64(threshold(got.Grain, WaterAt(20))), 1e-9)
		more := CarryAt(2*q, bore, slope, 0.013)
		require.GreaterOrEqual(t, more.Depth, CarryAt(q, bore, slope, 0.013).Depth)
	})
}
