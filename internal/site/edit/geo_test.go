package edit_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

func TestSetGeo(t *testing.T) {
	s, err := site.Demo("restaurant")
	require.NoError(t, err)
	first := s.Geo
	g := &site.Geo{Latitude: unit.Degrees(41.9), Longitude: unit.Degrees(-87.6), Bearing: unit.Degrees(12)}
	e, err := edit.SetGeo(s, g)
	require.NoError(t, err)
	assert.Equal(t, "change place on Earth", e.Name())
	e.Do(s)
	assert.Equal(t, g, s.Geo)
	g.Bearing = 0
	assert.InDelta(t, 12, s.Geo.Bearing.Degrees(), 1e-9, "the site has its own copy")
	e.Undo(s)
	assert.Equal(t, first, s.Geo)

	e.Do(s)
	gone, err := edit.SetGeo(s, nil)
	require.NoError(t, err)
	gone.Do(s)
	assert.Nil(t, s.Geo)
	gone.Undo(s)
	assert.InDelta(t, 41.9, s.Geo.Latitude.Degrees(), 1e-9)

	_, err = edit.SetGeo(s, &site.Geo{Latitude: unit.Degrees(90)})
	assert.ErrorContains(t, err, "place on Earth: latitude: found 90 deg, must be a number from -89 to 89 deg")
}
