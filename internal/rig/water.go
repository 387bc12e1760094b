package rig

import (
	"math"

	"linemap/internal/unit"
)

// Water holds what the physics needs to know of the water in the hose.
type Water struct {
	Density   unit.Density
	Viscosity unit.Viscosity
}

// The temperatures between which both formulas of [WaterAt] hold.
const (
	coldest unit.Temperature = 0
	hottest unit.Temperature = 100
)

// WaterAt returns the properties of water at atmospheric pressure. Outside 0
// to 100 C it answers for the nearer of the two. Pressure is left out: 25 MPa
// make water about 1 % denser.
//
// Density is by G. S. Kell, J. Chem. Eng. Data 20 (1975) 97, and viscosity by
// L. Korson, W. Drost-Hansen and F. J. Millero, J. Phys. Chem. 73 (1969) 34,
// which rests on 1.0020 mPa s at 20 C.
func WaterAt(t unit.Temperature) Water {
	c := float64(max(coldest, min(t, hottest)))
	density := (999.83952 + c*(16.945176+c*(-7.9870401e-3+c*(-46.170461e-6+
		c*(105.56302e-9-c*280.54253e-12))))) / (1 + 16.879850e-3*c)
	viscosity := 1.0020e-3 *
		math.Pow(10, (1.1709*(20-c)-0.001827*(c-20)*(c-20))/(c+89.93))
	return Water{unit.Density(density), unit.Viscosity(viscosity)}
}
