package network_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/network/sketch"
	"linemap/internal/unit"
)

// The turns of fittings are fractions of a circle: 1/16, 1/8 and 1/4 bends
// after engineeringtraining.tpub.com 14069 fig. 8-14; 45 degrees at a wye, 90
// at a tee, a cross and a combination are common practice.
func TestPassage(t *testing.T) {
	const (
		wye    = "OUT -10ft/id=a- W1 -10ft/id=b- F1; W1 ~10ft/id=c- F2"
		tee    = "OUT -10ft/id=a- T1 -10ft/id=b- F1; T1 ~10ft/id=c- F2"
		combo  = "OUT -10ft/id=a- C1 -10ft/id=b- F1; C1 ~10ft/id=c- F2"
		double = "OUT -10ft/id=a- DW1 -10ft/id=b- F1; DW1 ~10ft/id=c- F2; DW1 ~10ft/id=d- F3"
		cross  = "OUT -10ft/id=a- X1 -10ft/id=b- F1; X1 ~10ft/id=c- F2; X1 ~10ft/id=d- F3"
		mh     = "OUT -10ft/id=a- MH1(label=MH-1) -10ft/id=b- F1; MH1 -10ft/id=c- F2"
		stack  = "OUT -10ft/id=a- B1 -9ft/stack/id=b- T1 -9ft/stack/id=c- VT1; T1 ~10ft/id=d- F1"
	)
	cases := []struct {
		name, text, from, to string
		why, what, side      string
		turn, sharpest       float64
		branch               bool
	}{
		{name: "wye, up the run", text: wye, from: "a", to: "b", what: "wye, straight through"},
		{name: "wye, down the run", text: wye, from: "b", to: "a", what: "wye, straight through"},
		{name: "wye, into the branch", text: wye, from: "a", to: "c", what: "wye, into the branch", side: "left", turn: 45, sharpest: 45, branch: true},
		{name: "wye, out of the branch", text: wye, from: "c", to: "a", what: "wye, out of the branch", side: "right", turn: 45, sharpest: 45},
		{name: "wye, branch to the run above", text: wye, from: "c", to: "b", why: "doubles back", what: "wye"},
		{name: "wye, the run above to the branch", text: wye, from: "b", to: "c", why: "doubles back", what: "wye"},
		{name: "wye, back into the same pipe", text: wye, from: "a", to: "a", why: "doubles back", what: "wye"},
		{name: "tee, into the branch", text: tee, from: "a", to: "c", what: "sanitary tee, into the branch", side: "left", turn: 90, sharpest: 90, branch: true},
		{name: "combination, into the branch", text: combo, from: "a", to: "c", what: "combination, into the branch", side: "left", turn: 90, sharpest: 45, branch: true},
		{name: "combination, out of the branch", text: combo, from: "c", to: "a", what: "combination, out of the branch", side: "right", turn: 90, sharpest: 45},
		{name: "double wye, left branch", text: double, from: "a", to: "c", what: "double wye, into the branch", side: "left", turn: 45, sharpest: 45, branch: true},
		{name: "double wye, right branch", text: double, from: "a", to: "d", what: "double wye, into the branch", side: "right", turn: 45, sharpest: 45, branch: true},
		{name: "double wye, branch to branch", text: double, from: "c", to: "d", why: "doubles back", what: "double wye"},
		{name: "cross, right branch", text: cross, from: "a", to: "d", what: "cross, into the branch", side: "right", turn: 90, sharpest: 90, branch: true},
		{name: "cross, branch to branch", text: cross, from: "d", to: "c", why: "doubles back", what: "cross"},

		{name: "bend as drawn", text: "OUT -9ft/id=a- B1 -9ft/id=b- F1", from: "a", to: "b", what: "1/4 bend", side: "left", turn: 90, sharpest: 90},
		{name: "bend the other way", text: "OUT -9ft/id=a- B1 -9ft/id=b- F1", from: "b", to: "a", what: "1/4 bend", side: "right", turn: 90, sharpest: 90},
		{name: "bend by its figure", text: "OUT -9ft/id=a- B1(turn=45) -9ft/id=b- F1(at=18ft,9ft)", from: "a", to: "b", what: "1/8 bend", side: "left", turn: 45, sharpest: 45},
		{name: "bend to the nearest fitting", text: "OUT -9ft/id=a- B1 -9ft/id=b- F1(at=19ft,9ft)", from: "a", to: "b", what: "1/8 bend", side: "left", turn: 45, sharpest: 45},
		{name: "bend drawn straight", text: "OUT -9ft/id=a- B1 -9ft/id=b- F1(at=19ft,0.2ft)", from: "a", to: "b", what: "straight"},
		{name: "bend that no fitting turns", text: "OUT -9ft/id=a- B1 -9ft/id=b- F1(at=19ft,-6.5ft)", from: "a", to: "b", what: "33 degree turn", side: "right", turn: 33.0239, sharpest: 33.0239},

		{name: "trap", text: "OUT -9ft/id=a- TR1(label=T-3) -9ft/id=b- F1", from: "a", to: "b", why: "trap", what: "trap T-3"},
		{name: "trap that lets through", text: "OUT -9ft/id=a- TR1(through turn=180) -9ft/id=b- F1", from: "a", to: "b", what: "trap, let through", turn: 180, sharpest: 90},
		{name: "backwater valve", text: "OUT -9ft/id=a- BV1 -9ft/id=b- F1", from: "b", to: "a", why: "backwater valve", what: "backwater valve"},
		{name: "backwater valve tied up", text: "OUT -9ft/id=a- BV1(through) -9ft/id=b- F1", from: "b", to: "a", what: "backwater valve, let through"},

		{name: "reducer", text: "OUT -9ft/4in/id=a- R1 -9ft/3in/id=b- F1", from: "a", to: "b", what: "reducer 4 in to 3 in"},
		{name: "reducer, downstream", text: "OUT -9ft/4in/id=a- R1 -9ft/3in/id=b- F1", from: "b", to: "a", what: "reducer 3 in to 4 in"},
		{name: "reducer at a corner", text: "OUT -9ft/id=a- R1 -9ft/3in/id=b- F1(at=9ft,9ft)", from: "a", to: "b", what: "reducer 4 in to 3 in, 1/4 bend", side: "left", turn: 90, sharpest: 90},
		{name: "cleanout in the line", text: "OUT -9ft/id=a- CO1(label=CO-3) -9ft/id=b- F1", from: "a", to: "b", what: "cleanout CO-3, straight through"},
		{name: "a slight deflection is none", text: "OUT -9ft/id=a- CO1 -9ft/id=b- F1(at=19ft,1.9ft)", from: "a", to: "b", what: "cleanout, straight through"},
		{name: "cleanout at a corner", text: "OUT -9ft/id=a- CO1 -9ft/id=b- F1(at=9ft,-9ft)", from: "a", to: "b", what: "cleanout, 1/4 bend", side: "right", turn: 90, sharpest: 90},

		{name: "manhole, straight", text: mh, from: "a", to: "b", what: "manhole MH-1, straight through"},
		{name: "manhole, side inflow", text: mh, from: "a", to: "c", what: "manhole MH-1, into the branch", side: "left", turn: 90, sharpest: 90, branch: true},
		{name: "manhole, out of the side inflow", text: mh, from: "c", to: "a", what: "manhole MH-1, 1/4 bend", side: "right", turn: 90, sharpest: 90},
		{name: "manhole, one inflow to the other", text: mh, from: "b", to: "c", why: "doubles back", what: "manhole MH-1"},

		{name: "through a fixture", text: "OUT -9ft/id=a- F1 -9ft/id=b- F2", from: "a", to: "b", why: "end", what: "fixture"},
		{name: "through an outlet", text: "OUT1 -9ft/id=a- OUT2 -9ft/id=b- F2", from: "a", to: "b", why: "end", what: "outlet"},
		{name: "pipes that do not meet", text: wye + " -1ft/id=z- F9", from: "a", to: "z", why: "end", what: "no way"},

		{name: "up a stack", text: stack, from: "a", to: "b", what: "1/4 bend", side: "up", turn: 90, sharpest: 90},
		{name: "down out of a stack", text: stack, from: "b", to: "a", what: "1/4 bend", side: "down", turn: 90, sharpest: 90},
		{name: "past a branch of a stack", text: stack, from: "b", to: "c", what: "sanitary tee, straight through"},
		{name: "out of a stack into a branch", text: stack, from: "b", to: "d", what: "sanitary tee, into the branch", side: "up", turn: 90, sharpest: 90, branch: true},
		{name: "out of a branch down a stack", text: stack, from: "d", to: "b", what: "sanitary tee, out of the branch", side: "down", turn: 90, sharpest: 90},
		{name: "out of a branch up a stack", text: stack, from: "d", to: "c", why: "doubles back", what: "sanitary tee"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			g, _ := network.Trace(sketch.Must(c.text))
			got := passage(t, g, network.PipeID(c.from), network.PipeID(c.to))
			assert.InDelta(t, c.turn, got.Turn.Degrees(), 1e-3)
			assert.InDelta(t, c.sharpest, got.Sharpest.Degrees(), 1e-3)
			got.Turn, got.Sharpest = 0, 0
			assert.Equal(t, network.Passage{Open: c.why == "", Why: c.why, What: c.what, Side: c.side, Branch: c.branch}, got)
		})
	}
}

// passage crosses from one pipe into another, both by ID.
func passage(t *testing.T, g *network.Graph, from, to network.PipeID) network.Passage {
	t.Helper()
	p, ok := g.PipeIndex(from)
	require.True(t, ok)
	q, ok := g.PipeIndex(to)
	require.True(t, ok)
	return g.Passage(p, q)
}

// A junction whose branches are missing or wrong goes by the drawing.
func TestPassageOfBadJunction(t *testing.T) {
	const text = "OUT -10ft/id=a- W1 -10ft/id=b- F1; W1 ~10ft/id=c- F2"
	cases := []struct {
		name string
		mar  func(n *network.Network)
	}{
		{"no branches", func(n *network.Network) { n.Nodes[1].Junction.Branches = nil }},
		{"no junction data", func(n *network.Network) { n.Nodes[1].Junction = nil }},
		{"too many branches", func(n *network.Network) { n.Nodes[1].Junction.Branches = []network.PipeID{"b", "c"} }},
		{"a branch that is no leg", func(n *network.Network) { n.Nodes[1].Junction.Branches = []network.PipeID{"q"} }},
		{"the outflow as branch", func(n *network.Network) { n.Nodes[1].Junction.Branches = []network.PipeID{"a"} }},
		{"a fitting of another number of legs", func(n *network.Network) { n.Nodes[1].Junction.Kind = network.Cross }},
		{"an unknown fitting", func(n *network.Network) { n.Nodes[1].Junction.Kind = "spiral" }},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			n := sketch.Must(text)
			c.mar(n)
			g, _ := network.Trace(n)
			assert.True(t, passage(t, g, "a", "b").Open)
			assert.Zero(t, passage(t, g, "a", "b").Turn)
			into := passage(t, g, "a", "c")
			assert.InDelta(t, 45, into.Turn.Degrees(), 1e-9)
			assert.True(t, into.Branch)
			assert.False(t, passage(t, g, "b", "c").Open)
		})
	}
}

// Where both legs of the run flow out, the branch sweeps into the one on the
// way to the outlet.
func TestPassageWhereFlowDivides(t *testing.T) {
	g, _ := network.Trace(sketch.Must(`OUT1 -10ft/id=a- W1(invert=9ft) -10ft/id=b- OUT2(invert=1ft)
	                                   W1 ~10ft/id=c- F1 `))
	assert.True(t, passage(t, g, "c", "a").Open)
	assert.Equal(t, "doubles back", passage(t, g, "c", "b").Why)
	assert.Equal(t, "doubles back", passage(t, g, "a", "b").Why, "both flow out: no run goes from one into the other")
}

// Two pipes side by side share both nodes; the one on the way is passed.
func TestPassageOfParallelPipes(t *testing.T) {
	g, _ := network.Trace(sketch.Must("OUT -9ft/id=a- MH1 -9ft/id=b- MH2; MH1 -12ft/id=c- MH2"))
	assert.Equal(t, "doubles back", passage(t, g, "b", "c").Why)
	assert.True(t, passage(t, g, "a", "c").Open)
}

func TestEntry(t *testing.T) {
	g, _ := network.Trace(sketch.Must("OUT -9ft/id=a- CO1(up entry=45 buried label=CO-1) -9ft/id=b- F1 -9ft/id=c- F2"))
	node, ok := g.NodeIndex("CO1")
	require.True(t, ok)
	want := network.Passage{Open: true, What: "cleanout CO-1", Turn: unit.Degrees(45), Sharpest: unit.Degrees(45)}
	assert.Equal(t, want, g.Entry(node, 0))
	assert.Equal(t, want, g.Entry(node, 1), "facing and service are for the planner")
	assert.Equal(t, network.Passage{Why: "end", What: "no way"}, g.Entry(node, 2), "a pipe that does not end there")
	fixture, ok := g.NodeIndex("F1")
	require.True(t, ok)
	assert.Equal(t, network.Passage{Why: "end", What: "fixture"}, g.Entry(fixture, 1))
}

// 360 degrees times the fraction in the bend's name; 72 degrees for 1/5 also
// stands in UPC 707.4(2).
func TestBendName(t *testing.T) {
	for degrees, want := range map[float64]string{
		360. / 16: "1/16 bend", 360. / 8: "1/8 bend", 360. / 6: "1/6 bend", 360. / 5: "1/5 bend", 360. / 4: "1/4 bend",
		44.5: "1/8 bend", 44: "44 degree turn", 46: "46 degree turn", 33: "33 degree turn", 180: "180 degree turn",
	} {
		assert.Equal(t, want, network.BendName(unit.Degrees(degrees)))
	}
}

func TestNearestBend(t *testing.T) {
	for drawn, want := range map[float64]float64{
		0: 0, 4.9: 0, 5: 0, 14: 0, 15.1: 22.5, 29.9: 22.5, 33: 0, 38: 45, 52: 45, 54: 60, 65: 60, 67: 72, 79: 72, 81: 0, 83: 90, 97: 90, 98: 0, 180: 0,
		15: 22.5, 30: 22.5, 37.5: 45, 52.5: 60, 66: 72, 82.5: 90, 97.5: 90, // on the edge
	} {
		assert.InDelta(t, want, network.NearestBend(unit.Degrees(drawn)).Degrees(), 1e-9, "%g", drawn)
	}
	assert.Zero(t, network.NearestBend(unit.Angle(math.NaN())))
	for _, edge := range []float64{5, 15, 30, 37.5, 52.5, 66, 82.5, 97.5} {
		on := unit.Degrees(edge)
		for _, off := range []unit.Angle{-1e-10, 1e-10} {
			assert.Equal(t, network.NearestBend(on), network.NearestBend(on+off), "%g degrees by the last digits", edge)
		}
	}
}
