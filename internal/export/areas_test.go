package export

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/route/sample"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// crossedSite is the site of the notice with a fire lane away from everything, a
// walkway between the first spot and the first access of its plan, and one across
// the way of the supply hose.
func crossedSite(t *testing.T) (*site.Site, *route.Plan) {
	s, p := noticeSite(t)
	b := &p.Blocks[0]
	spot := &s.Spots[slices.IndexFunc(s.Spots, func(v site.Spot) bool { return v.ID == b.Spot })]
	access := &s.Network.Nodes[slices.IndexFunc(s.Network.Nodes, func(n network.Node) bool { return n.ID == b.Runs[0].Access })]
	require.Greater(t, spot.At.Distance(access.At), unit.Metres(1))
	s.Areas = []site.Area{
		{ID: "a1", Label: "Fire lane", Kind: site.KeepClear, Outline: square(network.Point{X: 500, Y: 500}, 10)},
		{ID: "a2", Label: "Garden path", Kind: site.Walkway, Outline: square(halfway(spot.At, access.At), 0.2)},
		{ID: "a3", Kind: site.Stand, Outline: square(spot.At, 1000)},
	}
	return s, p
}

func square(mid network.Point, half unit.Length) []network.Point {
	return []network.Point{
		{X: mid.X - half, Y: mid.Y - half}, {X: mid.X + half, Y: mid.Y - half}, {X: mid.X + half, Y: mid.Y + half}, {X: mid.X - half, Y: mid.Y + half},
	}
}

func halfway(a, b network.Point) network.Point {
	return network.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}
}

func TestRunSheetTellsOfHoseInTheWay(t *testing.T) {
	s, p := crossedSite(t)
	sh := newSheet(s, sample.Tables(), p, Options{})
	const say = "Hose crosses walkway Garden path: cover it, cone it."
	assert.Contains(t, sh.Stops[0].Place, say)
	place := sh.Blocks[0].Facts[slices.IndexFunc(sh.Blocks[0].Facts, func(f fact) bool { return f.Name == "Place" })]
	assert.Contains(t, place.Say, say)

	s.Areas[1].Kind = site.KeepClear
	sh = newSheet(s, sample.Tables(), p, Options{})
	assert.Contains(t, sh.Stops[0].Place, "Hose crosses keep-clear area Garden path: cone it, lift it when the way is needed.")
	s.Areas[1].Outline = square(network.Point{X: -500}, 1)
	for _, stop := range newSheet(s, sample.Tables(), p, Options{}).Stops {
		assert.NotContains(t, stop.Place, "crosses")
	}
}

// TestNoticeTellsOfAreas: what to keep clear is told, and where a hose lies across
// a way just then when one of the runs whose hose does is at work.
func TestNoticeTellsOfAreas(t *testing.T) {
	s, p := crossedSite(t)
	n := newNoticeSheet(s, sample.Tables(), p, Options{})
	do := map[string]string{}
	for _, f := range n.Do {
		do[f.Name] = f.Say
	}
	assert.Equal(t, "Fire lane. Nothing may stand there at any time.", do["Keep clear"])
	require.Contains(t, do, "Mind the hose")
	at, ok := events(p, func(e *route.Event) bool {
		for i := range p.Blocks {
			for k := range p.Blocks[i].Runs {
				if r := &p.Blocks[i].Runs[k]; r.Number == e.Run && r.Access == p.Blocks[0].Runs[0].Access && i == 0 {
					return true
				}
			}
		}
		return false
	})
	require.True(t, ok)
	assert.Contains(t, do["Mind the hose"], "It lies across your way. Garden path: ")
	assert.Contains(t, do["Mind the hose"], Clock(s, at.to))

	s.Areas = nil
	for _, f := range newNoticeSheet(s, sample.Tables(), p, Options{}).Do {
		assert.NotContains(t, []string{"Keep clear", "Mind the hose"}, f.Name)
	}
}

// TestGeoJSONAreaAtTheDateLine cuts an area that lies across it, a hook that
// comes over it twice.
func TestGeoJSONAreaAtTheDateLine(t *testing.T) {
	s := &site.Site{Geo: &site.Geo{Latitude: unit.Degrees(52), Longitude: unit.Degrees(180)}}
	at := func(x, y float64) network.Point { return network.Point{X: unit.Metres(x), Y: unit.Metres(y)} }
	s.Areas = []site.Area{
		{ID: "over", Kind: site.Walkway, Outline: []network.Point{at(-30, 0), at(-30, 20), at(10, 20), at(10, 0)}},
		{ID: "hook", Kind: site.Stand, Outline: []network.Point{at(-30, 0), at(10, 0), at(10, 5), at(-20, 5), at(-20, 15), at(10, 15), at(10, 20), at(-30, 20)}},
		{ID: "line", Kind: site.Stand, Outline: []network.Point{at(-30, 0), at(10, 0)}},
	}
	data, err := GeoJSON(s, &route.Plan{}, Options{})
	require.NoError(t, err)
	g := checked(t, data)
	require.Len(t, g.Features, 3)
	for i, ground := range []float64{800, 800 - 300} {
		assert.Equal(t, "MultiPolygon", g.Features[i].Geometry.Type)
		sum := 0.0
		for _, ring := range g.lines(t, i) {
			sum += groundOf(ring)
			for _, p := range ring {
				assert.LessOrEqual(t, math.Abs(p[0]), 180.0)
			}
		}
		assert.InEpsilon(t, ground, sum, 0.001)
	}
	assert.Nil(t, g.Features[2].Geometry, "two corners are no ground")
}
