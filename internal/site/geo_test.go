package site

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// dms is an angle in degrees, minutes and seconds.
func dms(sign, deg, min, sec float64) float64 { return sign * (deg + min/60 + sec/3600) }

// TestGeoAgainstASurvey goes from Flinders Peak to Buninyong, the worked example
// of the Geocentric Datum of Australia Technical Manual (ICSM, version 2.4,
// chapter 4), on GRS 80: it differs from WGS 84 by a tenth of a millimetre.
func TestGeoAgainstASurvey(t *testing.T) {
	flinders := Geo{
		Latitude:  unit.Degrees(dms(-1, 37, 57, 3.72030)),
		Longitude: unit.Degrees(dms(1, 144, 25, 29.52440)),
		Bearing:   unit.Degrees(dms(1, 306, 52, 5.37)),
	}
	lat, lon := flinders.On(network.Point{Y: unit.Metres(54972.271)})
	const second, close = 1.0 / 3600, 1e-4 // 0.0001" is 3 mm
	assert.InDelta(t, dms(-1, 37, 39, 10.15610), lat.Degrees(), close*second)
	assert.InDelta(t, dms(1, 143, 55, 35.38390), lon.Degrees(), close*second)
}

// TestGeoAgainstRadii compares small steps with the radii of curvature along and
// across a meridian (Snyder, "Map Projections: A Working Manual", USGS
// Professional Paper 1395, equations 4-18 and 4-20).
func TestGeoAgainstRadii(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := Geo{
			Latitude:  unit.Degrees(rapid.Float64Range(-80, 80).Draw(t, "latitude")),
			Longitude: unit.Degrees(rapid.Float64Range(-180, 180).Draw(t, "longitude")),
			Bearing:   unit.Degrees(rapid.Float64Range(0, 360).Draw(t, "bearing")),
		}
		x, y := rapid.Float64Range(-300, 300).Draw(t, "x"), rapid.Float64Range(-300, 300).Draw(t, "y")
		lat, lon := g.On(network.Point{X: unit.Metres(x), Y: unit.Metres(y)})

		const e2 = flattening * (2 - flattening)
		mid := (lat + g.Latitude).Radians() / 2
		w := 1 - e2*math.Sin(mid)*math.Sin(mid)
		north := (lat - g.Latitude).Radians() * longRadius * (1 - e2) / math.Pow(w, 1.5)
		turn := math.Remainder((lon - g.Longitude).Radians(), 2*math.Pi)
		east := turn * longRadius / math.Sqrt(w) * math.Cos(mid)
		sin, cos := math.Sincos(g.Bearing.Radians())
		assert.InDelta(t, x*sin*-1+y*cos, north, 0.1)
		assert.InDelta(t, x*cos+y*sin, east, 0.1)
		assert.InDelta(t, math.Hypot(x, y), math.Hypot(north, east), 2e-3)
	})
}

// TestGeoKeepsDistances looks at ways across the direction to the origin, which
// the comment of Geo.On bounds.
func TestGeoKeepsDistances(t *testing.T) {
	for _, away := range []float64{100, 1000, 10000} {
		t.Run(fmt.Sprint(away), func(t *testing.T) {
			g := Geo{Latitude: unit.Degrees(48), Longitude: unit.Degrees(11)}
			lat1, lon1 := g.On(network.Point{X: unit.Metres(away)})
			lat2, _ := g.On(network.Point{X: unit.Metres(away), Y: unit.Metres(1)})
			const e2 = flattening * (2 - flattening)
			sin := math.Sin(lat1.Radians())
			metre := (lat2 - lat1).Radians() * longRadius * (1 - e2) / math.Pow(1-e2*sin*sin, 1.5)
			assert.InDelta(t, 1, metre, 2e-6)
			assert.Greater(t, lon1.Degrees(), 11.0)
		})
	}
}

func TestGeoAcrossTheDateLine(t *testing.T) {
	g := Geo{Latitude: unit.Degrees(-16.8), Longitude: unit.Degrees(180)}
	_, west := g.On(network.Point{X: -10})
	_, east := g.On(network.Point{X: 10})
	assert.InDelta(t, 180, west.Degrees(), 1e-3)
	assert.InDelta(t, -180, east.Degrees(), 1e-3)
	assert.Less(t, west.Degrees(), 180.0)
	assert.Greater(t, east.Degrees(), -180.0)
}
