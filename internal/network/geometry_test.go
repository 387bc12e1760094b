package network_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"linemap/internal/network"
	"linemap/internal/network/sketch"
	"linemap/internal/unit"
)

// feet makes a point on the plan.
func feet(x, y float64) network.Point {
	return network.Point{X: unit.Feet(x), Y: unit.Feet(y)}
}

// asDrawn forgets the lengths that a sketch enters.
func asDrawn(n *network.Network) *network.Network {
	for i := range n.Pipes {
		n.Pipes[i].Length = nil
	}
	return n
}

func TestLength(t *testing.T) {
	negative := unit.Length(-1)
	cases := []struct {
		name string
		edit func(n *network.Network)
		feet float64
	}{
		{"as entered", func(n *network.Network) {}, 30},
		{"as drawn", func(n *network.Network) { asDrawn(n) }, 30},
		{"as drawn round a corner", func(n *network.Network) { // 3-4-5 twice
			asDrawn(n).Pipes[0].Via = []network.Point{feet(3, 4), feet(27, 4)}
		}, 34},
		{"as drawn with a rise", func(n *network.Network) { // 30-40-50
			z, up := unit.Feet(0), unit.Feet(40)
			asDrawn(n)
			n.Nodes[0].Invert, n.Nodes[1].Invert = &z, &up
		}, 50},
		{"levels tell the rise", func(n *network.Network) {
			asDrawn(n)
			n.Levels = []network.Level{{Name: "basement", Elevation: unit.Feet(-10)}, {Name: "roof", Elevation: unit.Feet(30)}}
			n.Nodes[0].Level, n.Nodes[1].Level = "basement", "roof"
		}, 50},
		{"one invert alone is no rise", func(n *network.Network) {
			up := unit.Feet(40)
			asDrawn(n).Nodes[1].Invert = &up
		}, 30},
		{"less than nothing is not entered", func(n *network.Network) { n.Pipes[0].Length = &negative }, 30},
		{"no place on the plan", func(n *network.Network) {
			asDrawn(n).Nodes[0].At.X = unit.Length(math.Inf(1))
		}, 0},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			n := sketch.Must("OUT -30ft- F1")
			c.edit(n)
			g, _ := network.Trace(n)
			assert.InDelta(t, c.feet, g.Length(0).Feet(), 1e-9)
		})
	}
}

func TestFallAndClimb(t *testing.T) {
	cases := []struct {
		name, text string
		fall       float64
		known      bool
		climb      float64 // degrees
	}{
		{"not known", "OUT -10ft- F1", 0, false, 0},
		{"inverts, flow as drawn", "F1(invert=3ft) -10ft- OUT(invert=2ft)", 0.1, true, math.Asin(0.1) * 180 / math.Pi},
		{"inverts, flow against the drawing", "OUT(invert=2ft) -10ft- F1(invert=3ft)", 0.1, true, math.Asin(0.1) * 180 / math.Pi},
		{"inverts beat the slope entered", "OUT(invert=2ft) -10ft/slope=5%- F1(invert=3ft)", 0.1, true, math.Asin(0.1) * 180 / math.Pi},
		{"slope entered", "OUT -10ft/slope=2%- F1", 0.02, true, math.Asin(0.02) * 180 / math.Pi},
		{"adverse", "OUT(invert=3ft) -10ft- F1(invert=2ft)", -0.1, true, -math.Asin(0.1) * 180 / math.Pi},
		{"stack", "OUT -10ft/stack- VT1", 0, false, 90},
		{"stack by its heights", "OUT(invert=0ft) -10ft/stack- VT1(invert=10ft)", 1, true, 90},
		{"steeper than its length", "OUT(invert=0ft) -10ft/stack- VT1(invert=20ft)", 2, true, 90},
		{"no length", "OUT(invert=0ft) -0ft- VT1(invert=20ft)", 0, false, 0},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			g, _ := network.Trace(sketch.Must(c.text))
			fall, known := g.Fall(0)
			assert.Equal(t, c.known, known)
			assert.InDelta(t, c.fall, float64(fall), 1e-12)
			assert.InDelta(t, c.climb, g.Climb(0).Degrees(), 1e-9)
		})
	}
}

func TestElevation(t *testing.T) {
	n := sketch.Must("OUT(invert=-4ft level=yard) -10ft- F1(level=yard) -10ft- F2(level=attic)")
	n.Levels = []network.Level{{Name: "yard", Elevation: unit.Feet(2)}}
	g, _ := network.Trace(n)
	for i, want := range []float64{-4, 2, 0} {
		assert.InDelta(t, want, g.Elevation(i).Feet(), 1e-12)
	}
}

func TestPolyline(t *testing.T) {
	n := sketch.Must("OUT -30ft- F1")
	n.Pipes[0].Via = []network.Point{feet(10, 0), feet(10, 5)}
	g, _ := network.Trace(n)
	assert.Equal(t, []network.Point{n.Nodes[1].At, feet(10, 5), feet(10, 0), {}}, g.Polyline(0), "upstream end first")
	assert.Equal(t, feet(10, 0), n.Pipes[0].Via[0], "the network is left alone")
}

func TestCorners(t *testing.T) {
	type corner struct {
		at, angle, fitting float64
		side               string
	}
	arc := func(step float64, n int) []network.Point { // n chords of 10 ft
		var line []network.Point
		x, y, way := 0., 0., 0.
		for range n {
			line = append(line, feet(x, y))
			x, y = x+10*math.Cos(way), y+10*math.Sin(way)
			way += step / 180 * math.Pi
		}
		return append(line, feet(x, y))
	}
	cases := []struct {
		name string
		line []network.Point
		want []corner
	}{
		{"straight", []network.Point{feet(0, 0), feet(10, 0), feet(30, 0)}, nil},
		{"a quarter bend", []network.Point{feet(0, 0), feet(10, 0), feet(10, -20)}, []corner{{10, 90, 90, "right"}}},
		{"two eighth bends", []network.Point{feet(0, 0), feet(10, 0), feet(20, 10), feet(20, 30)}, []corner{
			{10, 45, 45, "left"}, {10 + 10*math.Sqrt2, 45, 45, "left"},
		}},
		{"a point set twice", []network.Point{feet(0, 0), feet(10, 0), feet(10, 0), feet(10, 20)}, []corner{{10, 90, 90, "left"}}},
		{"between the fittings", []network.Point{feet(0, 0), feet(10, 0), feet(10+10*math.Cos(33*math.Pi/180), 10*math.Sin(33*math.Pi/180))}, []corner{{10, 33, 0, "left"}}},
		{"wobble cancels out", []network.Point{feet(0, 0), feet(10, 0), feet(20, 0.4), feet(30, 0), feet(40, 0)}, nil},
		{"a long curve keeps its turn", arc(4, 7), []corner{{10, 8, 0, "left"}, {30, 8, 0, "left"}, {50, 8, 0, "left"}}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			n := asDrawn(sketch.Must("OUT -30ft- F1"))
			last := len(c.line) - 1
			n.Nodes[0].At, n.Nodes[1].At, n.Pipes[0].Via = c.line[0], c.line[last], c.line[1:last]
			g, _ := network.Trace(n)
			got := g.Corners(0)
			assert.Len(t, got, len(c.want))
			for i := range min(len(got), len(c.want)) {
				assert.InDelta(t, c.want[i].at, got[i].At.Feet(), 1e-9)
				assert.InDelta(t, c.want[i].angle, got[i].Angle.Degrees(), 1e-9)
				assert.InDelta(t, c.want[i].fitting, got[i].Fitting.Degrees(), 1e-9)
				assert.Equal(t, c.want[i].side, got[i].Side)
			}
			long := 2 * g.Length(0)
			n.Pipes[0].Length = &long
			g, _ = network.Trace(n)
			for i, corner := range g.Corners(0) {
				assert.InDelta(t, 2*got[i].At.Feet(), corner.At.Feet(), 1e-9, "a measured length stretches the line")
			}
		})
	}
}

func TestWaysAndFrames(t *testing.T) {
	way := []network.Point{feet(3, -1), feet(6, 3), feet(6, 5), feet(-2, 5)} // 5, 2 and 8 ft
	assert.InDelta(t, 15, network.WayLength(way).Feet(), 1e-9)
	assert.Zero(t, network.WayLength(way[:1]))
	low, high := network.Bounds(way)
	assert.Equal(t, feet(-2, -1), low)
	assert.Equal(t, feet(6, 5), high)
	low, high = network.Bounds(nil)
	assert.Zero(t, low)
	assert.Zero(t, high)
}
