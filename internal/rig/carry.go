package rig

import (
	"math"

	"linemap/internal/unit"
)

// Carry is what the jet's water does in the pipe below the nozzle, at uniform
// flow.
type Carry struct {
	// Depth is the share of the bore that the water stands high, 0 to 1.
	Depth    float64
	Velocity unit.Speed
	// Shear is the mean shear stress on the wetted wall.
	Shear unit.Pressure
	// Grain is the diameter of the largest quartz grain that it moves.
	Grain unit.Length
	// Full is true where the pipe cannot carry the flow part full.
	Full bool
}

// fullest is the depth of greatest uniform flow in a round pipe, as a share of
// the bore. A pipe that asks for more runs full, at its peril.
const fullest = 0.938

// CarryAt returns the uniform flow of q in a round pipe of bore and slope by
// Manning's formula. A pipe that q fills, or one without fall, is taken as
// full and under pressure. Water is at 20 C.
func CarryAt(q unit.Flow, bore unit.Length, slope unit.Slope, manning float64) Carry {
	if !positive(q) || !positive(bore) || !positive(manning) {
		return Carry{}
	}
	w := WaterAt(20)
	steep := math.Sqrt(max(0, float64(slope)))
	carries := func(depth float64) bool {
		a, r := segment(depth, bore)
		return a*math.Pow(r, 2.0/3)*steep/manning <= float64(q)
	}
	c := Carry{Depth: 1, Full: carries(fullest)}
	if !c.Full {
		c.Depth = bisect(0, fullest, carries)
	}
	a, r := segment(c.Depth, bore)
	if !(a > 0) { // a film too thin to count
		return Carry{}
	}
	c.Velocity = unit.Speed(float64(q) / a)
	fall := float64(slope)
	if c.Full {
		// The fall of the head that drives q through the full pipe.
		k := manning * float64(c.Velocity) / math.Pow(r, 2.0/3)
		fall = k * k
	}
	c.Shear = unit.Pressure(float64(w.Density) * unit.Gravity * r * fall)
	c.Grain = grain(c.Shear, w)
	return c
}

// segment returns the area in m^2 and the hydraulic radius in m of a round
// pipe filled to a share of its bore.
func segment(depth float64, bore unit.Length) (a, r float64) {
	d := float64(bore)
	theta := 4 * math.Asin(math.Sqrt(depth))
	wet := theta - math.Sin(theta)
	if theta < 0.01 { // where the difference above has lost its digits
		wet = theta * theta * theta / 6
	}
	return d * d * wet / 8, d * wet / (4 * theta)
}

// quartz is the density of quartz sand in kg/m^3.
const quartz = 2650

// grain returns the diameter of the largest quartz grain that a bed shear
// moves: the inverse of [threshold].
func grain(shear unit.Pressure, w Water) unit.Length {
	if !positive(shear) {
		return 0
	}
	// The threshold parameter is above 0.02 for every grain.
	largest := float64(shear) / (0.02 * submerged(w))
	return unit.Length(bisect(0, largest, func(d float64) bool {
		return threshold(unit.Length(d), w) <= shear
	}))
}

// threshold returns the bed shear at which quartz grains of diameter d begin
// to move, by R. Soulsby, Dynamics of Marine Sands (1997), equation 77. It
// grows with d.
func threshold(d unit.Length, w Water) unit.Pressure {
	nu := float64(w.Viscosity) / float64(w.Density)
	sized := float64(d) * math.Cbrt(submerged(w)/float64(w.Density)/(nu*nu))
	theta := 0.3/(1+1.2*sized) + 0.055*(1-math.Exp(-0.02*sized))
	return unit.Pressure(theta * submerged(w) * float64(d))
}

// submerged returns the weight of quartz under water in N/m^3.
func submerged(w Water) float64 { return (quartz - float64(w.Density)) * unit.Gravity }
