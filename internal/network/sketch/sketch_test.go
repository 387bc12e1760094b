package sketch_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/network/sketch"
	"linemap/internal/unit"
)

func ExampleParse() {
	n, err := sketch.Parse("OUT -40ft/4in- W1 -20ft- CO1(up) ; W1 ~15ft/2in- F1")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range n.Pipes {
		fmt.Printf("%s: %.0f ft of %g in\n", p.ID, p.Length.Feet(), float64(p.Size))
	}
	fmt.Println("branches of W1:", n.Nodes[1].Junction.Branches)
	// Output:
	// OUT-W1: 40 ft of 4 in
	// W1-CO1: 20 ft of 4 in
	// W1-F1: 15 ft of 2 in
	// branches of W1: [W1-F1]
}

func TestParseNodes(t *testing.T) {
	invert := unit.Feet(-4.5)
	cases := []struct {
		name, text string
		want       network.Node
	}{
		{"outlet", "OUT", network.Node{ID: "OUT", Kind: network.KindOutlet}},
		{"two-way cleanout", "CO2", network.Node{
			ID: "CO2", Kind: network.KindAccess,
			Access: &network.Access{Kind: network.TwoWayCleanout, Size: 4},
		}},
		{"one-way cleanout", "CO2(down size=3in riser=2ft entry=45 indoor buried minutes=5 room=kitchen)", network.Node{
			ID: "CO2", Kind: network.KindAccess,
			Access: &network.Access{
				Kind: network.OneWayCleanout, Facing: network.FacesDownstream, Size: 3,
				Riser: unit.Feet(2), Entry: unit.Degrees(45), Indoor: true, OutOfService: true,
				OpenMinutes: 5, Room: "kitchen",
			},
		}},
		{"combination", "C7", network.Node{
			ID: "C7", Kind: network.KindJunction,
			Junction: &network.Junction{Kind: network.Combination},
		}},
		{"trap", "TR1(through turn=180 label=T-1)", network.Node{
			ID: "TR1", Kind: network.KindTrap, LetsThrough: true, Turn: unit.Degrees(180), Label: "T-1",
		}},
		{"placed bend", "B1(at=10ft,-20ft level=roof invert=-4.5ft)", network.Node{
			ID: "B1", Kind: network.KindBend, Level: "roof", Invert: &invert,
			At: network.Point{X: unit.Feet(10), Y: unit.Feet(-20)},
		}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			n, err := sketch.Parse(c.text)
			require.NoError(t, err)
			assert.Equal(t, []network.Node{c.want}, n.Nodes)
		})
	}
}

func TestParsePipes(t *testing.T) {
	n := sketch.Must(`OUT -12.5m/6in/clay/roots/heavy/sewer/fragile/ceiling=500psi/out/slope=2%/id=p1/label=P1- W1 -10ft- F1
	                  W1 ~10ft- F2 ; W1 -1ft- OUT; OUT -2ft- W1`)
	require.Len(t, n.Pipes, 5)
	long, slope, ceiling := unit.Metres(12.5), unit.Slope(0.02), unit.Psi(500)
	assert.Equal(t, network.Pipe{
		ID: "p1", Label: "P1", From: "OUT", To: "W1", Size: 6, Material: network.Clay, Length: &long,
		Slope: &slope, Class: network.BuildingSewer, Deposit: network.Roots, Severity: network.Heavy,
		Fragile: true, Ceiling: &ceiling, OutOfJob: true,
	}, n.Pipes[0])
	ten := unit.Feet(10)
	assert.Equal(t, network.Pipe{
		ID: "W1-F1", From: "W1", To: "F1", Size: 6, Material: network.PVC40, Length: &ten,
		Class: network.Main, Deposit: network.Grease,
	}, n.Pipes[1], "size holds on along the chain, the rest does not")
	assert.Equal(t, unit.Size(6), n.Pipes[2].Size, "a later chain takes up the size")
	assert.Equal(t, network.PipeID("OUT-W1"), n.Pipes[4].ID)
	again := sketch.Must("OUT -1ft- F1; OUT -2ft- F1")
	assert.Equal(t, network.PipeID("OUT-F1.2"), again.Pipes[1].ID)
}

func TestPlaces(t *testing.T) {
	const ft, r = 0.3048, math.Sqrt2 / 2
	cases := []struct {
		name, text string
		want       map[string][2]float64 // feet
	}{
		{"straight east", "OUT -40ft- CO1 -10ft- F1", map[string][2]float64{"CO1": {40, 0}, "F1": {50, 0}}},
		{"bend left and right", "OUT -10ft- B1 -10ft- B2(right turn=45) -10ft- F1", map[string][2]float64{
			"B2": {10, 10}, "F1": {10 + 10*r, 10 + 10*r},
		}},
		{"wye", "OUT -10ft- W1 -10ft- F1; W1 ~10ft- F2", map[string][2]float64{
			"F1": {20, 0}, "F2": {10 + 10*r, 10 * r},
		}},
		{"cross has branches on both sides", "OUT -10ft- X1 -10ft- F1; X1 ~10ft- F2; X1 ~10ft- F3", map[string][2]float64{
			"F2": {10, 10}, "F3": {10, -10},
		}},
		{"in by the branch, on with the sweep", "F2 -10ft~ W1 -10ft- OUT; W1 -10ft- F1", map[string][2]float64{
			"W1": {10, 0}, "OUT": {10 + 10*r, -10 * r}, "F1": {10 - 10*r, 10 * r},
		}},
		{"stack stands on its place", "OUT -10ft- B1 -30ft/stack- VT1", map[string][2]float64{"VT1": {10, 0}}},
		{"side inflow of a manhole", "OUT -10ft- MH1 -10ft- F1; MH1 -10ft- F2", map[string][2]float64{"F2": {10, 10}}},
		{"next chain further south", "OUT -10ft- F1; OUT2 -10ft- F2", map[string][2]float64{"F2": {10, -100 / ft}}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			n := sketch.Must(c.text)
			found := 0
			for _, node := range n.Nodes {
				if at, ok := c.want[string(node.ID)]; ok {
					found++
					assert.InDelta(t, at[0], node.At.X.Feet(), 1e-9, "%s east", node.ID)
					assert.InDelta(t, at[1], node.At.Y.Feet(), 1e-9, "%s north", node.ID)
				}
			}
			assert.Equal(t, len(c.want), found)
		})
	}
}

func TestParseErrors(t *testing.T) {
	cases := []struct{ name, text, says string }{
		{"no far node", "OUT -40ft-", "a node is missing at the end"},
		{"no near node", "-40ft- F1", "a node is missing before"},
		{"open pipe", "OUT -40ft F1", "must end with"},
		{"no pipe", "OUT F1", "must start with"},
		{"open parenthesis", "OUT(label=x -4ft- F1", "no closing parenthesis"},
		{"unknown kind", "Q1", `no kind is called "Q"`},
		{"unknown node word", "F1(blue)", `unknown word "blue"`},
		{"access word on a bend", "B1(riser=2ft)", "for an access only"},
		{"no length", "OUT -4in- F1", "has no length"},
		{"bad length", "OUT -forty- F1", "is no length"},
		{"endless length", "OUT -infft- F1", "is no number"},
		{"unknown pipe word", "OUT -4ft/colour=2- F1", "unknown word"},
		{"branch of a fixture", "OUT -4ft~ F1", "which is no junction"},
		{"half a place", "F1(at=3ft)", "give east,north"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := sketch.Parse(c.text)
			require.ErrorContains(t, err, c.says)
		})
	}
	assert.Panics(t, func() { sketch.Must("Q1") })
}

func FuzzParse(f *testing.F) {
	f.Add("OUT -40ft/4in- W1 -20ft- CO1(up) ; W1 ~15ft/2in/grease- F1")
	f.Add("F1 -10ft~ W1 -20ft- OUT\nOUT -5m/stack- W1")
	f.Add("MH1(at=1ft,2ft) -1m- MH1")
	f.Fuzz(func(t *testing.T, text string) {
		n, err := sketch.Parse(text)
		if err != nil {
			assert.True(t, strings.HasPrefix(err.Error(), "sketch, chain"), "an error says where: %v", err)
			return
		}
		ids := map[network.PipeID]bool{}
		for _, p := range n.Pipes {
			assert.False(t, ids[p.ID], "pipe %s stands twice", p.ID)
			ids[p.ID] = true
			require.NotNil(t, p.Length)
		}
	})
}
