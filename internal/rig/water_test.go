package rig

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"linemap/internal/unit"
)

func TestWaterAt(t *testing.T) {
	t.Parallel()
	// Viscosity: Korson, Drost-Hansen and Millero (1969), table II, mPa s.
	// Density: standard density of water as printed in handbooks, kg/m3, to two
	// decimals, from memory; TestWaterAgainstOtherFormulas holds it to a source.
	for _, c := range []struct {
		celsius, density, viscosity float64
	}{
		{0, 999.84, 1.7916},
		{5, 999.97, 1.5192},
		{10, 999.70, 1.3069},
		{15, 999.10, 1.1382},
		{20, 998.20, 1.0020},
		{25, 997.05, 0.8903},
		{30, 995.65, 0.7975},
		{35, 994.03, 0.7195},
		{40, 992.22, 0.6532},
	} {
		got := WaterAt(unit.Temperature(c.celsius))
		assert.InDelta(t, c.density, float64(got.Density), 0.01, "density at %v C", c.celsius)
		assert.InDelta(t, c.viscosity, float64(got.Viscosity)*1e3, 5e-4, "viscosity at %v C", c.celsius)
	}
	assert.Equal(t, WaterAt(0), WaterAt(-40), "below the range")
	assert.Equal(t, WaterAt(100), WaterAt(1e9), "above the range")
}

func TestWaterAgainstOtherFormulas(t *testing.T) {
	t.Parallel()
	for c := 0.0; c <= 40; c++ {
		got := WaterAt(unit.Temperature(c))
		// M. Tanaka et al., Metrologia 38 (2001) 301: the CIPM density.
		density := 999.974950 * (1 - (c-3.983035)*(c-3.983035)*(c+301.797)/(522528.9*(c+69.34881)))
		assert.InDelta(t, density, float64(got.Density), 0.01, "density at %v C", c)
		// IAPWS SR6-08(2011), viscosity of liquid water at 0.1 MPa.
		k := (c + 273.15) / 300
		viscosity := 1e-6 * (280.68*math.Pow(k, -1.9) + 511.45*math.Pow(k, -7.7) +
			61.131*math.Pow(k, -19.6) + 0.45903*math.Pow(k, -40))
		assert.InEpsilon(t, viscosity, float64(got.Viscosity), 1e-3, "viscosity at %v C", c)
	}
}
