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

// ipc holds figures of the International Plumbing Code: spacing 708.1.1 (100
// ft, manholes 400 ft), turns 708.1.4 (45 degrees, 40 ft), falls Table 704.1
// (1/4, 1/8 and 1/16 in/ft).
var ipc = network.Code{
	Name:            "IPC",
	CleanoutSpacing: []network.SpacingRow{{UpTo: 24, Limit: unit.Feet(100), Source: "IPC 708.1.1"}},
	ManholeSpacing:  unit.Feet(400),
	DirectionChange: unit.Degrees(45),
	DirectionReach:  unit.Feet(40),
	MinSlope: []network.SlopeRow{
		{UpTo: 2.5, Limit: unit.InchesPerFoot(1. / 4), Source: "IPC Table 704.1"},
		{UpTo: 6, Limit: unit.InchesPerFoot(1. / 8), Source: "IPC Table 704.1"},
		{UpTo: 24, Limit: unit.InchesPerFoot(1. / 16), Source: "IPC Table 704.1"},
	},
	Source: "IPC 708.1",
}

// upc holds figures of the Uniform Plumbing Code 707.4: 100 ft, 135 degrees in
// all. local has a row by size, as Philadelphia P-708.1.1 has.
var (
	upc = network.Code{
		CleanoutSpacing: []network.SpacingRow{{UpTo: 24, Limit: unit.Feet(100), Source: "UPC 707.4"}},
		DirectionChange: unit.Degrees(135),
		Source:          "UPC 707.4",
	}
	local = network.Code{CleanoutSpacing: []network.SpacingRow{
		{UpTo: 4, Limit: unit.Feet(50), Source: "P-708.1.1"}, {UpTo: 24, Limit: unit.Feet(100), Source: "P-708.1.1"},
	}}
)

// pvcOnly knows bores of PVC up to 12 in.
func pvcOnly(m network.Material, s unit.Size) (unit.Length, bool) {
	return s.Nominal(), m == network.PVC40 && s <= 12
}

func TestFindings(t *testing.T) {
	pipe := func(n *network.Network) *network.Pipe { return &n.Pipes[len(n.Pipes)-1] }
	cases := []struct {
		name, text string
		code       network.Code
		edit       func(n *network.Network)
		want       []string
	}{
		{name: "nothing wrong", code: ipc, text: "OUT(invert=0ft) -40ft/4in- W1(invert=1ft) -20ft- CO1(invert=1.5ft); W1 ~15ft/2in/slope=2.1%- F1"},
		{name: "an empty sketch", code: ipc, text: ""},

		{name: "a lone node", text: "OUT -9ft- F1; MH1", want: []string{"error unconnected @ manhole MH1"}},
		{name: "open ends", text: "OUT -9ft- W1 -9ft- B1; W1 ~9ft- R1", want: []string{
			"error unconnected @ bend B1", "error unconnected @ reducer R1",
		}},
		{name: "an open junction", text: "OUT -9ft- W1 -9ft- F1", want: []string{"error unconnected @ wye W1"}},
		{name: "too many pipes", text: "OUT -9ft- B1 -9ft- F1 -9ft- CO1 -9ft- F2; B1 -5ft- F3; CO1 -5ft- F4", want: []string{
			"error too_many_pipes @ bend B1", "warning too_many_pipes @ cleanout CO1", "warning too_many_pipes @ fixture F1",
		}},
		{name: "a wye of four legs", text: "OUT -9ft- W1 -9ft- F1; W1 ~9ft- F2; W1 ~9ft- F3", want: []string{"error too_many_pipes @ wye W1"}},
		{name: "any number into a manhole", text: "OUT -9ft- MH1 -9ft- F1; MH1 -9ft- F2; MH1 -9ft- F3; MH1 -9ft- F4(at=15.36ft,-6.36ft)"},
		{name: "an outlet in the line", text: "OUT1 -9ft- OUT2(invert=1ft) -9ft- MH1(invert=0ft) -18ft- OUT1", want: []string{"warning outlet_in_line @ outlet OUT2"}},

		{name: "no branch named", text: "OUT -9ft- W1 -9ft- F1; W1 ~9ft- F2", want: []string{"error junction_branches @ wye W1"}, edit: func(n *network.Network) {
			n.Nodes[1].Junction.Branches = nil
		}},
		{name: "the outflow named as branch", text: "OUT -9ft- W1 -9ft- F1; W1 ~9ft- F2", want: []string{"error junction_branches @ wye W1"}, edit: func(n *network.Network) {
			n.Nodes[1].Junction.Branches = []network.PipeID{"OUT-W1"}
		}},
		{name: "no fitting named", text: "OUT -9ft- W1 -9ft- F1; W1 ~9ft- F2", want: []string{"error junction_branches @ junction W1"}, edit: func(n *network.Network) {
			n.Nodes[1].Junction = nil
		}},
		{name: "no access data", text: "OUT -9ft- CO1", want: []string{"error no_access_data @ access CO1"}, edit: func(n *network.Network) {
			n.Nodes[1].Access = nil
		}},
		{name: "no facing", text: "OUT -9ft- CO1(up)", want: []string{"error no_facing @ cleanout CO1"}, edit: func(n *network.Network) {
			n.Nodes[1].Access.Facing = ""
		}},

		{name: "adverse slope entered", text: "OUT -9ft- F1", want: []string{"warning adverse_slope @ pipe OUT-F1"}, edit: func(n *network.Network) {
			s := unit.Slope(-0.01)
			pipe(n).Slope = &s
		}},
		{name: "adverse between measured inverts", text: "OUT(invert=0ft) -9ft- CO1 -9ft- F1(invert=-0.5ft)", want: []string{"warning adverse_slope @ fixture F1"}},
		{name: "slope under code", code: ipc, text: "OUT -40ft/2in/slope=2%- F1", want: []string{"warning slope_under_code @ pipe OUT-F1"}},
		{name: "the same slope in larger pipe", code: ipc, text: "OUT -40ft/3in/slope=2%- F1"},
		{name: "the code's slope to the digit", code: ipc, text: "OUT -40ft/3in/slope=1.041666%- F1"},
		{name: "slope under code between measured inverts", code: ipc, text: "OUT(invert=0ft) -20ft/4in- CO1 -20ft- F1(invert=0.1ft)", want: []string{
			"warning slope_under_code @ fixture F1",
		}},
		{name: "size shrinks", text: "OUT -9ft/3in- CO1 -9ft/4in- F1", want: []string{"warning size_shrinks @ pipe CO1-F1"}},
		{name: "reducer of one size", text: "OUT -9ft/4in- R1 -9ft/4in- F1", want: []string{"advice reducer_same_size @ reducer R1"}},
		{name: "reducer", text: "OUT -9ft/4in- R1 -9ft/3in- F1"},
		{name: "unknown size", text: "OUT -9ft/7in- F1", want: []string{"error unknown_size @ pipe OUT-F1"}},
		{name: "unknown bore", text: "OUT -9ft/15in- MH1 -9ft/4in/clay- F1", want: []string{
			"warning unknown_bore @ pipe MH1-F1", "warning unknown_bore @ pipe OUT-MH1",
		}},

		{name: "no length", text: "OUT -0ft- F1", want: []string{"warning zero_length @ pipe OUT-F1"}},
		{name: "bad length", text: "OUT -9ft- F1", want: []string{"error bad_length @ pipe OUT-F1"}, edit: func(n *network.Network) {
			l := unit.Feet(-9)
			pipe(n).Length = &l
		}},
		{name: "length far from the drawing", text: "OUT -40ft- F1(at=30ft,0ft)", want: []string{"advice length_differs @ pipe OUT-F1"}},
		{name: "a fifth more than the drawing", text: "OUT -60ft- F1(at=50ft,0ft)"},
		{name: "a fifth less than the drawing", text: "OUT -40ft- F1(at=30ft,40ft)"},
		{name: "length near the drawing", text: "OUT -40ft- F1(at=35ft,0ft)"},
		{name: "shorter than its rise", text: "OUT(invert=0ft) -9ft- F1(invert=20ft)", want: []string{
			"advice length_differs @ pipe OUT-F1", "warning length_under_rise @ pipe OUT-F1",
		}},
		{name: "a corner that no fitting turns", text: "OUT -20ft- F1", want: []string{"advice no_fitting @ pipe OUT-F1"}, edit: func(n *network.Network) {
			n.Nodes[1].At, pipe(n).Via = feet(10+10*math.Cos(math.Pi/180*33), 10*math.Sin(math.Pi/180*33)), []network.Point{feet(10, 0)}
		}},
		{name: "a bend that no fitting turns", text: "OUT -20ft- B1 -10ft- F1(at=28.4ft,5.45ft)", want: []string{"advice no_fitting @ bend B1"}},
		{name: "a bend drawn otherwise", text: "OUT -20ft- B1(turn=45) -10ft- F1(at=20ft,10ft)", want: []string{"advice angle_differs @ bend B1"}},
		{name: "a wye drawn like a tee", text: "OUT -20ft- W1 -10ft- F1; W1 ~10ft- F2(at=20ft,10ft)", want: []string{"advice angle_differs @ wye W1"}},
		{name: "a run drawn round the corner", text: "OUT -20ft- T1 -10ft- F1(at=20ft,-10ft); T1 ~10ft- F2", want: []string{"advice angle_differs @ sanitary tee T1"}},

		{name: "labels that stand twice", text: "OUT -9ft/label=P1- CO1(label=CO-1) -9ft/label=P1- MH1(label=CO-1)", want: []string{
			"warning duplicate_label @ CO-1", "warning duplicate_label @ P1",
		}},

		{name: "access spacing", code: ipc, text: "OUT -10ft- CO1 -60ft- CAP1", want: nil},
		{name: "too far between cleanouts", code: ipc, text: "OUT -10ft- CO1 -60ft/id=a- W1 -60ft/id=b- CO2; W1 ~10ft/id=c- F1", want: []string{"warning access_spacing @ pipe b"}},
		{name: "the limit itself", code: ipc, text: "OUT -10ft- CO1 -100ft- CO2"},
		{name: "a buried cleanout is none", code: ipc, text: "OUT -10ft- CO1 -60ft/id=a- CO2(buried) -60ft/id=b- CO3", want: []string{"warning access_spacing @ pipe b"}},
		{name: "manholes stand further apart", code: ipc, text: "OUT -10ft- MH1 -300ft- MH2"},
		{name: "but not too far", code: ipc, text: "OUT -10ft- MH1 -500ft/id=a- MH2", want: []string{"warning access_spacing @ pipe a"}},
		{name: "spacing by size", code: local, text: "OUT -10ft/6in- CO1 -60ft/6in/id=a- CO2 -60ft/4in/id=b- CO3", want: []string{"warning access_spacing @ pipe b"}},
		{name: "a stack is no run", code: ipc, text: "OUT -10ft- CO1 -60ft- B1 -90ft/stack- VT1"},
		{name: "past a turn", code: ipc, text: "OUT -10ft- CO1 -10ft- B1 -30ft/id=a- B2(right) -30ft/id=b- F1", want: []string{"warning direction_change @ pipe b"}},
		{name: "not far past a turn", code: ipc, text: "OUT -10ft- CO1 -10ft- B1 -30ft/id=a- F1"},
		{name: "one eighth bend is no turn", code: ipc, text: "OUT -10ft- CO1 -10ft- B1(turn=45) -60ft/id=a- F1"},
		{name: "turns in all", code: upc, text: "OUT -10ft- CO1 -10ft- B1 -10ft/id=a- B2(right) -10ft/id=b- F1", want: []string{"warning direction_change @ pipe b"}},
		{name: "a turn traced in the pipe", code: ipc, text: "OUT -10ft- CO1 -60ft/id=a- F1(at=10ft,60ft)", want: []string{"warning direction_change @ pipe a"}, edit: func(n *network.Network) {
			pipe(n).Via = []network.Point{feet(15, 0), feet(15, 60)}
		}},

		{name: "crossing", text: "OUT1 -20ft/id=a- F1; OUT2(at=10ft,10ft) -20ft/id=b- F2(at=10ft,-10ft)", want: []string{"warning crosses_unjoined @ pipe a"}},
		{name: "crossing on another level", text: "OUT1(level=1) -20ft/id=a- F1(level=1); OUT2(at=10ft,10ft) -20ft/id=b- F2(at=10ft,-10ft)"},
		{name: "crossing far above", text: "OUT1(invert=0ft) -20ft/id=a- F1(invert=1ft); OUT2(at=10ft,10ft invert=5ft) -20ft/id=b- F2(at=10ft,-10ft invert=6ft)"},
		{name: "crossing just above", text: "OUT1(invert=0ft) -20ft/id=a- F1(invert=1ft); OUT2(at=10ft,10ft invert=0.2ft) -20ft/id=b- F2(at=10ft,-10ft invert=1.2ft)", want: []string{"warning crosses_unjoined @ pipe a"}},
		{name: "ends on another pipe", text: "OUT1 -20ft/id=a- F1; OUT2(at=10ft,10ft) -10ft/id=b- F2(at=10ft,0ft)", want: []string{"warning crosses_unjoined @ pipe a"}},
		{name: "lies on another pipe", text: "OUT1 -20ft/id=a- F1; OUT2(at=5ft,0ft) -10ft/id=b- F2(at=15ft,0ft)", want: []string{"warning crosses_unjoined @ pipe a"}},
		{name: "side by side", text: "OUT1 -20ft/id=a- F1; OUT2(at=0ft,1ft) -20ft/id=b- F2(at=20ft,1ft)"},
		{name: "pipes that meet", text: "OUT1 -20ft- MH1 -10ft- F1(at=10ft,0ft)"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			n := sketch.Must(c.text)
			if c.edit != nil {
				c.edit(n)
			}
			g, _ := network.Trace(n)
			found := g.Findings(c.code, pvcOnly)
			assert.ElementsMatch(t, c.want, kinds(found))
			for _, f := range found {
				assert.NotEmpty(t, f.What)
				assert.NotEmpty(t, f.Cure)
			}
		})
	}
}

func TestFindingsSayTheFigures(t *testing.T) {
	g, _ := network.Trace(sketch.Must("OUT -10ft- CO1(label=CO-1) -60ft/2in- W1 -60ft/slope=2%- CO2; W1 ~50ft/slope=3%- F1"))
	assert.Equal(t, []network.Finding{
		{
			Gravity: network.Warning, Kind: "access_spacing", Pipe: "W1-CO2", Place: "pipe W1-CO2",
			What:  "The way from CO-1 up to the next access or the end of the line is longer than the code edition allows.",
			Value: "120 ft (36.6 m)", Limit: "100 ft (30.5 m)", Source: "IPC 708.1.1",
			Cure: "Plan a cleanout on this pipe; check your local code.",
		},
		{
			Gravity: network.Warning, Kind: "slope_under_code", Pipe: "W1-CO2", Place: "pipe W1-CO2",
			What:  "The pipe falls less than the code edition asks of 2 in (DN 50) pipe.",
			Value: "0.24 in/ft (2.0 %)", Limit: "1/4 in/ft (2.1 %)", Source: "IPC Table 704.1",
			Cure: "Measure the fall; check your local code. Debris settles there: expect more pulls.",
		},
		{
			Gravity: network.Warning, Kind: "access_spacing", Pipe: "W1-F1", Place: "pipe W1-F1",
			What:  "The way from CO-1 up to the next access or the end of the line is longer than the code edition allows.",
			Value: "110 ft (33.5 m)", Limit: "100 ft (30.5 m)", Source: "IPC 708.1.1",
			Cure: "Plan a cleanout on this pipe; check your local code.",
		},
	}, g.Findings(ipc, nil))
}

func TestUnknownSizeSaysWhichThereAre(t *testing.T) {
	g, _ := network.Trace(sketch.Must("OUT -9ft/7in- F1"))
	found := g.Findings(network.Code{}, nil)
	require.Len(t, found, 1)
	assert.Equal(t, "7 in", found[0].Value)
	assert.Equal(t, "a nominal size from 1 1/4 in (DN 32) to 24 in (DN 600)", found[0].Limit)
}

func TestSortFindings(t *testing.T) {
	f := []network.Finding{
		{Gravity: network.Advice, Place: "A"},
		{Gravity: network.Warning, Place: "B", Kind: "y"},
		{Gravity: network.Warning, Place: "B", Kind: "x"},
		{Gravity: network.Warning, Place: "A"},
		{Gravity: network.Error, Place: "Z"},
	}
	network.SortFindings(f)
	assert.Equal(t, []string{"error  @ Z", "warning  @ A", "warning x @ B", "warning y @ B", "advice  @ A"}, kinds(f))
}

// Everything drawn in one heap must not take for ever, nor fill a book.
func TestManyCrossings(t *testing.T) {
	n := &network.Network{}
	for i := range 3000 {
		id := string(rune('a'+i%26)) + string(rune('a'+i/26%26)) + string(rune('a'+i/676))
		n.Nodes = append(n.Nodes,
			network.Node{ID: network.NodeID("A" + id), Kind: network.KindOutlet},
			network.Node{ID: network.NodeID("B" + id), Kind: network.KindFixture, At: feet(10, float64(i)/1000)})
		n.Pipes = append(n.Pipes, network.Pipe{
			ID: network.PipeID(id), From: network.NodeID("A" + id), To: network.NodeID("B" + id), Size: 4, Material: network.PVC40,
		})
	}
	g, _ := network.Trace(n)
	found := g.Findings(network.Code{}, nil)
	require.Greater(t, len(found), 100)
	assert.Less(t, len(found), 600)
	assert.Contains(t, kinds(found), "warning many_crossings @ the sketch")
}
