package chart

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/export/drawing"
	"linemap/internal/export/paper"
	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// TestNorthPointsNorth goes a metre towards the arrow's tip on the ground: that
// is due north on Earth.
func TestNorthPointsNorth(t *testing.T) {
	rule, err := paper.NewRuler()
	require.NoError(t, err)
	for _, bearing := range []float64{0, 20, 90, 200, 345} {
		s := &site.Site{Geo: &site.Geo{Latitude: unit.Degrees(45), Longitude: unit.Degrees(7), Bearing: unit.Degrees(bearing)}}
		c := &side{draft: &draft{site: s, rule: rule}, box: drawing.Box{W: sideWidth, H: 100}}
		c.north()
		half := c.list.Items[0].Shape.(drawing.Path).Points
		tip, notch := half[0], half[2]
		long := math.Hypot(tip.X-notch.X, tip.Y-notch.Y)
		lat, lon := s.Geo.On(network.Point{X: unit.Metres((tip.X - notch.X) / long), Y: unit.Metres((notch.Y - tip.Y) / long)})
		assert.InDelta(t, 7, lon.Degrees(), 1e-9, bearing)
		assert.InDelta(t, 45+1/111131.745, lat.Degrees(), 1e-9, bearing) // a degree there is 111.132 km
		for _, it := range c.list.Items {
			if path, ok := it.Shape.(drawing.Path); ok {
				for _, p := range path.Points {
					assert.True(t, p.Y > -1 && p.Y < 14 && p.X > -1 && p.X < 14, "%v is not in its corner", p)
				}
			}
		}
	}
}
