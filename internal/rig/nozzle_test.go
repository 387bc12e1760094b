package rig

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"linemap/internal/unit"
)

// heavy is water of the density behind the round SI forms.
var heavy = Water{Density: 1000, Viscosity: 1.002e-3}

// hole is a nozzle of one rear orifice.
func hole(d unit.Length, discharge, degrees float64) *Nozzle {
	return &Nozzle{
		Discharge: discharge,
		Orifices:  []Orifice{{Count: 1, Diameter: d, Angle: unit.Degrees(degrees), Facing: Rear}},
	}
}

func TestOrificeConstants(t *testing.T) {
	t.Parallel()
	// Computed: K in Q[gpm] = K Cd d[in]^2 sqrt(p[psi]), usually printed as
	// 29.84, and Kf in F[lbf] = Kf Q sqrt(p), usually printed as 0.0526.
	for _, c := range []struct{ density, k, kf, kv float64 }{
		{998.2, 29.851155, 0.0526210, 12.19413},
		{62.4 * 0.45359237 / (0.3048 * 0.3048 * 0.3048), 29.830958, 0.0526566, 12.18588},
		{1000, 29.824277, 0.0526684, 12.18315},
	} {
		w := Water{Density: unit.Density(c.density)}
		n := hole(unit.Inches(1), 1, 0)
		q := n.Flow(unit.Psi(1), w)
		assert.InDelta(t, c.k, q.GallonsPerMinute(), 6e-7, "K at %v", c.density)
		f := n.Thrust(unit.Psi(1)).PoundsForce()
		assert.InDelta(t, c.kf, f/q.GallonsPerMinute(), 6e-8, "Kf at %v", c.density)
		v := unit.Speed(float64(q) / area(unit.Inches(1)))
		assert.InDelta(t, c.kv, v.FeetPerSecond(), 6e-6, "Kv at %v", c.density)
		assert.InEpsilon(t, math.Pi/2, f, 1e-9, "K Kf is pi/2 for water of any density")
	}
}

func TestNozzleFlow(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name                      string
		inch, psi, discharge, gpm float64
		printed                   float64 // by the form with 29.84
	}{
		{"0.040 in", 0.040, 3000, 0.90, 2.352302, 2.353542},
		{"1/16 in", 0.0625, 2000, 0.95, 4.949582, 4.952192},
		{"0.055 in", 0.055, 3000, 0.90, 4.447321, 4.449665},
		{"1 in", 1, 100, 1, 298.242770, 298.4},
	} {
		n := hole(unit.Inches(c.inch), c.discharge, 0)
		q := n.Flow(unit.Psi(c.psi), heavy)
		assert.InEpsilon(t, c.gpm, q.GallonsPerMinute(), 5e-7, c.name)
		assert.InEpsilon(t, c.printed, q.GallonsPerMinute(), 6e-4, c.name)
		assert.InEpsilon(t, c.psi, n.Pressure(q, heavy).Psi(), 1e-12, "%s: there and back", c.name)
	}
	// Round SI forms (computed): Q[L/min] = 0.666432 Cd d[mm]^2 sqrt(p[bar]).
	got := hole(unit.Millimetres(1), 1, 0).Flow(unit.Bar(1), heavy)
	assert.InEpsilon(t, 0.666432, got.LitresPerMinute(), 1e-6)
	assert.Zero(t, hole(1, 1, 0).Flow(-1, heavy))
}

// passing returns a nozzle of one rear orifice that passes q at p.
func passing(q unit.Flow, p unit.Pressure, degrees float64) *Nozzle {
	unity := hole(1, 1, degrees).Flow(p, heavy)
	return hole(unit.Length(math.Sqrt(float64(q/unity))), 1, degrees)
}

func TestThrust(t *testing.T) {
	t.Parallel()
	// Computed: F = density Q v at 1000 kg/m3, and the printed form 0.0526 Q
	// sqrt(p).
	for _, c := range []struct{ gpm, psi, lbf, printed float64 }{
		{12, 3000, 34.61719, 34.57225},
		{12, 2000, 28.26482, 28.22812},
		{18, 4000, 59.95873, 59.88089},
		{40, 2000, 94.21606, 94.09374},
	} {
		n := passing(unit.GallonsPerMinute(c.gpm), unit.Psi(c.psi), 0)
		f := n.Thrust(unit.Psi(c.psi)).PoundsForce()
		assert.InEpsilon(t, c.lbf, f, 5e-7, "%v gpm at %v psi", c.gpm, c.psi)
		assert.InEpsilon(t, c.printed, f, 1.5e-3, "%v gpm at %v psi", c.gpm, c.psi)
	}
	n := passing(unit.GallonsPerMinute(12), unit.Psi(3000), 0)
	assert.InEpsilon(t, 153.9849, n.Thrust(unit.Psi(3000)).Newtons(), 5e-7)

	// Axial share of jets at 30 degrees, by the printed form.
	for psi, axial := range map[float64]float64{3000: 29.94044, 2000: 24.44627} {
		n := passing(unit.GallonsPerMinute(12), unit.Psi(psi), 30)
		assert.InEpsilon(t, axial, n.Thrust(unit.Psi(psi)).PoundsForce()*0.0526/0.0526684, 2e-6)
	}

	// Published: a 15 mm jet at 3 bar gives 106 N (engineeringtoolbox.com, jet
	// propulsion); 23.4 mm at 1.52 bar gives 130 N by 0.157 p d^2
	// (physicsforums.com thread 838884).
	assert.InDelta(t, 106, hole(unit.Millimetres(15), 1, 0).Thrust(unit.Bar(3)).Newtons(), 0.05)
	assert.InEpsilon(t, 130.6697, hole(unit.Millimetres(23.4), 1, 0).Thrust(unit.Bar(1.52)).Newtons(), 6e-4)
}

func TestThrustOfFrontJets(t *testing.T) {
	t.Parallel()
	n := Nozzle{Discharge: 0.9, Orifices: []Orifice{
		{Count: 6, Diameter: unit.Millimetres(1), Angle: unit.Degrees(20), Facing: Rear},
		{Count: 1, Diameter: unit.Millimetres(1), Facing: Front},
	}}
	one := hole(unit.Millimetres(1), 0.9, 0).Thrust(unit.Bar(150)).Newtons()
	cos20 := math.Cos(20 * math.Pi / 180)
	assert.InEpsilon(t, one*(6*cos20-1), n.Thrust(unit.Bar(150)).Newtons(), 1e-12)
	n.Orifices[0].Count = 1
	assert.Negative(t, float64(n.Thrust(unit.Bar(150))), "the front jet wins")
	assert.Zero(t, n.Thrust(-1))
}
