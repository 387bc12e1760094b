package export

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"slices"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/route/audit"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// geo is the collection as another program reads it.
type geo struct {
	Features []struct {
		ID       string `json:"id"`
		Geometry *struct {
			Type        string          `json:"type"`
			Coordinates json.RawMessage `json:"coordinates"`
		} `json:"geometry"`
		Properties map[string]any `json:"properties"`
	} `json:"features"`
}

// lines returns the lines of feature i: of a Point the one with its place, of a
// Polygon its rings.
func (g *geo) lines(t *testing.T, i int) [][][2]float64 {
	t.Helper()
	f := &g.Features[i]
	if f.Geometry == nil {
		return nil
	}
	var err error
	all := make([][][2]float64, 1)
	switch f.Geometry.Type {
	case "Point":
		all[0] = make([][2]float64, 1)
		err = json.Unmarshal(f.Geometry.Coordinates, &all[0][0])
	case "LineString":
		err = json.Unmarshal(f.Geometry.Coordinates, &all[0])
	case "MultiLineString", "Polygon":
		err = json.Unmarshal(f.Geometry.Coordinates, &all)
	case "MultiPolygon":
		var parts [][][][2]float64
		err = json.Unmarshal(f.Geometry.Coordinates, &parts)
		all = slices.Concat(parts...)
	default:
		require.Fail(t, "not expected", f.Geometry.Type)
	}
	require.NoError(t, err)
	return all
}

// checked holds a collection against the RFC and reads it.
func checked(t *testing.T, data []byte) *geo {
	t.Helper()
	schema, err := os.ReadFile("testdata/rfc7946.schema.json")
	require.NoError(t, err)
	rules, err := jsonschema.UnmarshalJSON(bytes.NewReader(schema))
	require.NoError(t, err)
	c := jsonschema.NewCompiler()
	require.NoError(t, c.AddResource("rfc7946.json", rules))
	valid, err := c.Compile("rfc7946.json")
	require.NoError(t, err)
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	require.NoError(t, err)
	require.NoError(t, valid.Validate(doc))

	g := new(geo)
	require.NoError(t, json.Unmarshal(data, g))
	seen := map[string]bool{}
	for i, f := range g.Features {
		assert.False(t, seen[f.ID], "%s twice", f.ID)
		seen[f.ID] = true
		for _, l := range g.lines(t, i) {
			if f.Geometry.Type == "Polygon" || f.Geometry.Type == "MultiPolygon" { // section 3.1.6
				require.GreaterOrEqual(t, len(l), 4, f.ID)
				assert.Equal(t, l[0], l[len(l)-1], "%s is closed", f.ID)
				assert.Positive(t, groundOf(l), "%s runs counterclockwise", f.ID)
			}
			for k := 1; k < len(l); k++ { // section 3.1.9
				assert.LessOrEqual(t, math.Abs(l[k][0]-l[k-1][0]), 180.0, "%s crosses the antimeridian", f.ID)
			}
		}
	}
	return g
}

// onEarth is the length of a line by the kilometres that the degrees of latitude
// and longitude have, 47 CFR 73.208(c)(2) to (4): good to some hundredths of a
// percent.
func onEarth(line [][2]float64) float64 {
	sum := 0.0
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		mid := (a[1] + b[1]) / 2 * math.Pi / 180
		north := 111.13209 - 0.56605*math.Cos(2*mid) + 0.00120*math.Cos(4*mid)
		east := 111.41513*math.Cos(mid) - 0.09455*math.Cos(3*mid) + 0.00012*math.Cos(5*mid)
		sum += 1000 * math.Hypot(north*(b[1]-a[1]), east*(b[0]-a[0]))
	}
	return sum
}

// groundOf is the ground within a ring in square metres, above 0 where it runs
// counterclockwise, by the same figures.
func groundOf(ring [][2]float64) float64 {
	sum, o := 0.0, ring[0]
	for i := 1; i < len(ring); i++ {
		a, b := ring[i-1], ring[i]
		sum += (a[0]-o[0])*(b[1]-o[1]) - (b[0]-o[0])*(a[1]-o[1])
	}
	north := onEarth([][2]float64{{o[0], o[1]}, {o[0], o[1] + 1e-4}}) / 1e-4
	east := onEarth([][2]float64{{o[0], o[1]}, {o[0] + 1e-4, o[1]}}) / 1e-4
	return sum / 2 * north * east
}

// places are some corners of the Earth.
var places = map[string]site.Geo{
	"lake":        {Latitude: unit.Degrees(41.8781), Longitude: unit.Degrees(-87.6298), Bearing: unit.Degrees(12)},
	"fjord":       {Latitude: unit.Degrees(69.65), Longitude: unit.Degrees(18.96), Bearing: unit.Degrees(200)},
	"south":       {Latitude: unit.Degrees(-33.9), Longitude: unit.Degrees(151.2), Bearing: unit.Degrees(359)},
	"date line":   {Latitude: unit.Degrees(-16.8), Longitude: unit.Degrees(-179.9999), Bearing: unit.Degrees(45)},
	"equator":     {Latitude: 0, Longitude: unit.Degrees(9.4)},
	"null island": {},
}

// TestGeoJSON puts the demo sites on the globe: what is written keeps the rules
// of the RFC, and read back, each pipe is as long as it was drawn.
func TestGeoJSON(t *testing.T) {
	tables, err := site.LoadTables()
	require.NoError(t, err)
	names, err := site.Demos()
	require.NoError(t, err)
	for _, name := range names {
		s, err := site.Demo(name)
		require.NoError(t, err)
		p, err := route.Solve(t.Context(), s, tables, route.Options{})
		require.NoError(t, err)
		require.Empty(t, audit.Check(s, tables, p))
		for place, at := range places {
			s.Geo = &at
			t.Run(name+" "+place, func(t *testing.T) { onTheGlobe(t, s, p) })
		}
	}
}

func onTheGlobe(t *testing.T, s *site.Site, p *route.Plan) {
	data, err := GeoJSON(s, p, Options{})
	require.NoError(t, err)
	again, err := GeoJSON(s, p, Options{})
	require.NoError(t, err)
	require.True(t, bytes.Equal(data, again), "the same bytes")
	g := checked(t, data)
	graph, _ := network.Trace(&s.Network)
	drawn := func(line []network.Point) float64 {
		sum := unit.Length(0)
		for i := 1; i < len(line); i++ {
			sum += line[i-1].Distance(line[i])
		}
		return sum.Metres()
	}
	kinds := map[string]int{}
	for i, f := range g.Features {
		kind, _ := f.Properties["kind"].(string)
		kinds[kind]++
		length := 0.0
		for _, l := range g.lines(t, i) {
			length += onEarth(l)
		}
		const share, rounding = 0.001, 0.0005
		switch kind {
		case "pipe":
			n, ok := graph.PipeIndex(network.PipeID(f.Properties["key"].(string)))
			require.True(t, ok)
			want := drawn(graph.Polyline(n))
			assert.InDelta(t, want, length, share*want+rounding, f.ID)
			assert.InDelta(t, graph.Length(n).Metres(), f.Properties["length_m"], 1e-9)
		case "area":
			n := slices.IndexFunc(s.Areas, func(a site.Area) bool { return string(a.ID) == f.Properties["key"] })
			require.GreaterOrEqual(t, n, 0)
			want, ground := site.AreaOf(s.Areas[n].Outline).SquareMetres(), 0.0
			for _, l := range g.lines(t, i) {
				ground += groundOf(l)
			}
			assert.InDelta(t, want, ground, 2*share*want, f.ID)
			assert.InDelta(t, want, f.Properties["ground_m2"], 0.01)
		case "run":
			want := 0.0
			for _, leg := range runOf(p, f.Properties["number"].(float64)).Path {
				n, _ := graph.PipeIndex(leg.Pipe)
				want += drawn(graph.Polyline(n))
			}
			assert.InDelta(t, want, length, share*want+rounding, f.ID)
		}
	}
	runs := 0
	for _, b := range p.Blocks {
		runs += len(b.Runs)
	}
	assert.Equal(t, len(s.Network.Nodes), kinds["node"])
	assert.Equal(t, len(s.Network.Pipes), kinds["pipe"])
	assert.Equal(t, len(s.Spots), kinds["spot"])
	assert.Equal(t, len(s.Water), kinds["water"])
	assert.Equal(t, len(s.Areas), kinds["area"])
	assert.Equal(t, runs, kinds["run"])
	assert.Equal(t, len(p.Shortfalls), kinds["shortfall"])
	assert.Positive(t, kinds["lay"])
	assert.Positive(t, kinds["supply"])
}

func runOf(p *route.Plan, number float64) *route.Run {
	for b := range p.Blocks {
		for r := range p.Blocks[b].Runs {
			if run := &p.Blocks[b].Runs[r]; float64(run.Number) == number {
				return run
			}
		}
	}
	return &route.Run{}
}

// TestGeoJSONGolden pins the members of every kind of feature.
func TestGeoJSONGolden(t *testing.T) {
	s := fixtureSite()
	s.Geo = &site.Geo{Latitude: unit.Degrees(41.8781), Longitude: unit.Degrees(-87.6298), Bearing: unit.Degrees(12)}
	data, err := GeoJSON(s, fixturePlan(), Options{})
	require.NoError(t, err)
	checked(t, data)
	golden(t, "map.geojson", data)
}

// TestGeoJSONAtTheDateLine cuts a pipe that crosses it, at the right latitude.
func TestGeoJSONAtTheDateLine(t *testing.T) {
	s := fixtureSite()
	s.Geo = &site.Geo{Latitude: unit.Degrees(52), Longitude: unit.Degrees(180)}
	s.Network.Nodes[0].At = network.Point{X: unit.Metres(-30), Y: unit.Metres(-30)}
	s.Network.Nodes[1].At = network.Point{X: unit.Metres(10), Y: unit.Metres(10)}
	data, err := GeoJSON(s, &route.Plan{}, Options{})
	require.NoError(t, err)
	g := checked(t, data)
	for i, f := range g.Features {
		if f.ID != "pipe/"+string(s.Network.Pipes[0].ID) {
			continue
		}
		assert.Equal(t, "MultiLineString", f.Geometry.Type)
		parts := g.lines(t, i)
		require.Len(t, parts, 2)
		end := parts[0][len(parts[0])-1]
		assert.InDelta(t, 180, math.Abs(end[0]), 0)
		assert.InDelta(t, -end[0], parts[1][0][0], 0)
		assert.InDelta(t, 52, end[1], 1e-7)
		assert.InEpsilon(t, math.Hypot(40, 40), onEarth(parts[0])+onEarth(parts[1]), 0.001)
		return
	}
	require.Fail(t, "the pipe is gone")
}

// TestGeoJSONOfOddities has pipes of no end, a plan that names what is gone, and
// nothing at all.
func TestGeoJSONOfOddities(t *testing.T) {
	s := fixtureSite()
	s.Geo = &site.Geo{}
	s.Network.Pipes[0].From = "gone"
	s.Network.Nodes = append(s.Network.Nodes, network.Node{ID: "lone", Kind: network.KindCap})
	p := fixturePlan()
	p.Blocks[0].Spot = "gone"
	p.Blocks[0].Runs[0].Access = "gone"
	p.Blocks[0].Runs[1].Path[0].Pipe = "gone"
	data, err := GeoJSON(s, p, Options{})
	require.NoError(t, err)
	checked(t, data)
	data, err = GeoJSON(&site.Site{Geo: &site.Geo{}}, &route.Plan{}, Options{})
	require.NoError(t, err)
	assert.Empty(t, checked(t, data).Features)
	assert.Contains(t, string(data), `"features": []`)

	s.Spots[0].At.X = unit.Length(math.NaN())
	_, err = GeoJSON(s, p, Options{})
	assert.Error(t, err)
	s.Geo = nil
	_, err = GeoJSON(s, p, Options{})
	require.ErrorIs(t, err, ErrNoGeo)
	for _, word := range []string{"latitude", "longitude", "bearing"} {
		assert.Contains(t, err.Error(), word)
	}
}
