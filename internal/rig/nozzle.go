package rig

import (
	"math"

	"linemap/internal/unit"
)

// Flow returns what the nozzle passes at a pressure: Cd A sqrt(2 p / density),
// summed over its orifices. Below zero pressure it passes nothing.
func (n *Nozzle) Flow(p unit.Pressure, w Water) unit.Flow {
	return unit.Flow(n.effectiveArea() * math.Sqrt(2*max(0, float64(p))/float64(w.Density)))
}

// Pressure is the inverse of [Nozzle.Flow]: the pressure at the nozzle that
// drives a flow through it. A nozzle with no orifice asks for endless pressure.
func (n *Nozzle) Pressure(q unit.Flow, w Water) unit.Pressure {
	v := float64(q) / n.effectiveArea()
	return unit.Pressure(float64(w.Density) / 2 * v * v)
}

// Thrust returns the forward pull at a pressure, negative where the front jets
// win: density Q v cos(angle) summed over the orifices, rear less front, with
// v = sqrt(2 p / density). All of Cd is taken as contraction of the jet, none
// as loss of speed.
func (n *Nozzle) Thrust(p unit.Pressure) unit.Force {
	return unit.Force(2 * n.Discharge * n.rearArea() * max(0, float64(p)))
}

// rearArea returns the orifices' area by what it pulls, in m^2: rear less
// front, each by the cosine of its angle.
func (n *Nozzle) rearArea() float64 {
	var sum float64
	for _, o := range n.Orifices {
		pull := o.area() * math.Cos(float64(o.Angle))
		if o.Facing == Front {
			pull = -pull
		}
		sum += pull
	}
	return sum
}

// effectiveArea returns Cd times the area of all orifices, in m^2.
func (n *Nozzle) effectiveArea() float64 {
	var sum float64
	for _, o := range n.Orifices {
		sum += o.area()
	}
	return n.Discharge * sum
}

// area returns the area of all holes of the set, in m^2.
func (o Orifice) area() float64 { return float64(o.Count) * area(o.Diameter) }
