package network_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/network/sketch"
	"linemap/internal/unit"
)

func ExampleTrace() {
	drain := sketch.Must("OUT -40ft/4in- W1 -20ft- CO1 ; W1 ~15ft/2in- F1")
	g, findings := network.Trace(drain)
	for _, p := range g.Order {
		fmt.Printf("%-6s from %s to %s\n", drain.Pipes[p].ID, g.NodeName(g.Up[p]), g.NodeName(g.Down[p]))
	}
	main, _ := g.PipeIndex("OUT-W1")
	branch, _ := g.PipeIndex("W1-F1")
	pass := g.Passage(main, branch)
	fmt.Printf("%s: %.0f degrees\n", pass.What, pass.Turn.Degrees())
	fmt.Println(len(findings), "findings")
	// Output:
	// OUT-W1 from wye W1 to outlet OUT
	// W1-F1  from fixture F1 to wye W1
	// W1-CO1 from cleanout CO1 to wye W1
	// wye, into the branch: 45 degrees
	// 0 findings
}

// flows writes every pipe as "P: up>down, next", in the order of the sketch.
func flows(g *network.Graph) string {
	var b strings.Builder
	for p, pipe := range g.Net.Pipes {
		next := "end"
		if g.Next[p] >= 0 {
			next = string(g.Net.Pipes[g.Next[p]].ID)
		}
		fmt.Fprintf(&b, "%s: %s>%s, %s; ", pipe.ID, g.Net.Nodes[g.Up[p]].ID, g.Net.Nodes[g.Down[p]].ID, next)
	}
	return strings.TrimSuffix(b.String(), "; ")
}

// kinds lists the kinds of findings in their order, with their places.
func kinds(findings []network.Finding) []string {
	all := []string{}
	for _, f := range findings {
		all = append(all, fmt.Sprintf("%s %s @ %s", f.Gravity, f.Kind, f.Place))
	}
	return all
}

// network.Trace, case by case. Every case also goes through checkGraph.
func TestTrace(t *testing.T) {
	cases := []struct {
		name, text string
		flows      string
		findings   []string
	}{
		{
			name: "a line", text: "OUT -10ft/id=a- CO1 -10ft/id=b- F1",
			flows: "a: CO1>OUT, end; b: F1>CO1, a",
		},
		{
			name: "written from the top", text: "F1 -10ft/id=b- CO1 -10ft/id=a- OUT",
			flows: "b: F1>CO1, a; a: CO1>OUT, end",
		},
		{
			name: "branches", text: "OUT -10ft/id=a- W1 -10ft/id=b- F1; W1 ~10ft/id=c- F2",
			flows: "a: W1>OUT, end; b: F1>W1, a; c: F2>W1, a",
		},
		{
			name:  "the shorter way round a loop",
			text:  "OUT -10ft/id=a- MH1 -30ft/id=b- MH2 -10ft/id=c- F1; MH1 -50ft/id=d- MH2",
			flows: "a: MH1>OUT, end; b: MH2>MH1, a; c: F1>MH2, b; d: MH2>MH1, a",
			findings: []string{
				"warning loop @ pipe b",
			},
		},
		{
			name:     "equal ways by ID",
			text:     "OUT -10ft/id=a- MH1 -30ft/id=c- MH2 -10ft/id=d- F1; MH1 -30ft/id=b- MH2",
			flows:    "a: MH1>OUT, end; c: MH2>MH1, a; d: F1>MH2, b; b: MH2>MH1, a",
			findings: []string{"warning loop @ pipe b"},
		},
		{
			name:     "inverts send the water the longer way",
			text:     "OUT(invert=0ft) -10ft/id=a- MH1(invert=1ft) -30ft/id=b- MH2(invert=0.5ft) -10ft/id=c- F1; MH2 -90ft/id=d- OUT",
			flows:    "a: MH1>OUT, end; b: MH1>MH2, d; c: F1>MH2, d; d: MH2>OUT, end",
			findings: []string{"warning loop @ pipe a"},
		},
		{
			name:     "the only way wins over the inverts",
			text:     "OUT(invert=0ft) -10ft/id=a- CO1(invert=-1ft) -10ft/id=b- F1(invert=2ft)",
			flows:    "a: CO1>OUT, end; b: F1>CO1, a",
			findings: []string{"warning contradictory_inverts @ pipe a"},
		},
		{
			name: "level inverts say nothing", text: "OUT(invert=1ft) -10ft/id=a- F1(invert=1ft)",
			flows: "a: F1>OUT, end",
		},
		{
			name:     "no outlet, lowest end",
			text:     "CO1(invert=2ft) -10ft/id=a- MH1 -10ft/id=b- CO2(invert=1ft)",
			flows:    "a: CO1>MH1, b; b: MH1>CO2, end",
			findings: []string{"error no_outlet @ cleanout CO2"},
		},
		{
			name:     "no outlet, no heights: the larger pipe, and never a fixture",
			text:     "F1 -10ft/8in/id=a- W1 -10ft/4in/id=b- CO2; W1 ~10ft/3in/id=c- CO1",
			flows:    "a: F1>W1, b; b: W1>CO2, end; c: CO1>W1, b",
			findings: []string{"error no_outlet @ cleanout CO2"},
		},
		{
			name:     "no outlet, all alike: by ID",
			text:     "CO2 -10ft/id=a- MH1 -10ft/id=b- CO1",
			flows:    "a: CO2>MH1, b; b: MH1>CO1, end",
			findings: []string{"error no_outlet @ cleanout CO1"},
		},
		{
			name:  "a part with no outlet beside one with",
			text:  "OUT -10ft/id=a- F1; CO1 -10ft/id=b- F2",
			flows: "a: F1>OUT, end; b: F2>CO1, end",
			findings: []string{
				"error no_outlet @ cleanout CO1",
			},
		},
		{
			name:     "two lines with an outlet each",
			text:     "OUT1 -10ft/id=a- CO1 -10ft/id=b- F1; OUT2 -10ft/id=c- F2",
			flows:    "a: CO1>OUT1, end; b: F1>CO1, a; c: F2>OUT2, end",
			findings: []string{"advice disconnected @ fixture F2"},
		},
		{
			name:  "two outlets on one line",
			text:  "OUT1 -10ft/id=a- MH1 -30ft/id=b- MH2 -10ft/id=c- OUT2",
			flows: "a: MH1>OUT1, end; b: MH2>MH1, a; c: MH2>OUT2, end",
		},
		{
			name:     "a pipe that ends where it starts",
			text:     "OUT -10ft/id=a- MH1 -5ft/id=b- MH1",
			flows:    "a: MH1>OUT, end; b: MH1>MH1, a",
			findings: []string{"warning loop @ pipe b"},
		},
		{
			name:     "a ring with no end",
			text:     "MH1 -5ft/id=a- MH2 -5ft/id=b- MH3 -6ft/id=c- MH1",
			flows:    "a: MH2>MH1, end; b: MH3>MH2, a; c: MH3>MH1, end",
			findings: []string{"error no_outlet @ manhole MH1", "warning loop @ pipe a"},
		},
		{
			name:  "no pipe is too short",
			text:  "OUT -0ft/id=a- CO1 -0ft/id=b- F1",
			flows: "a: CO1>OUT, end; b: F1>CO1, a",
		},
		{name: "nothing", text: ""},
		{name: "a lone node", text: "MH1"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			n := sketch.Must(c.text)
			g, findings := network.Trace(n)
			checkGraph(t, g)
			assert.Equal(t, c.flows, flows(g))
			if c.findings == nil {
				c.findings = []string{}
			}
			assert.Equal(t, c.findings, kinds(findings))
		})
	}
}

func TestTraceSaysTheFigures(t *testing.T) {
	_, findings := network.Trace(sketch.Must("OUT(invert=0ft) -10ft- CO1(invert=-1ft label=CO-1) -10ft- F1"))
	require.Len(t, findings, 1)
	assert.Equal(t, network.Finding{
		Gravity: network.Warning, Kind: "contradictory_inverts", Pipe: "OUT-CO1", Place: "pipe OUT-CO1",
		What: "Contradictory inverts or adverse slope: the only way to the outlet runs from CO-1 at -1 ft 0 in (-0.30 m) " +
			"to outlet OUT at 0 ft 0 in (0.00 m).",
		Value: "rises 1 ft 0 in (0.30 m)",
		Limit: "must fall toward the outlet",
		Cure:  "Measure both inverts again. If they hold, the pipe is back-pitched: expect standing water and debris.",
	}, findings[0])
}

// Water can circle only where measured inverts do: MH2 drains over MH1, whose
// way is to the outlet, but the inverts send MH1's third pipe back up.
func TestCirculation(t *testing.T) {
	n := sketch.Must(`OUT -10ft/id=a- MH1 -10ft/id=b- MH2 -10ft/id=c- MH3(invert=5ft)
	                  MH1(invert=6ft) -90ft/id=d- MH3`)
	g, findings := network.Trace(n)
	checkGraph(t, g)
	assert.Equal(t, "a: MH1>OUT, end; b: MH2>MH1, a; c: MH3>MH2, b; d: MH1>MH3, c", flows(g))
	assert.Equal(t, []string{"error circulation @ pipe b", "warning loop @ pipe b"}, kinds(findings))
	assert.Contains(t, findings[0].What, "pipe b, pipe c, pipe d")
}

// Decoding refuses such a network, but a half-made edit may hold one.
func TestTraceSurvivesBadIDs(t *testing.T) {
	n := sketch.Must("OUT -10ft/id=a- CO1 -10ft/id=b- F1")
	n.Nodes = append(n.Nodes, network.Node{ID: "CO1", Kind: network.KindFixture})
	n.Pipes = append(n.Pipes,
		network.Pipe{ID: "a", From: "F1", To: "CO1"},
		network.Pipe{ID: "z", From: "F1", To: "nowhere", Via: []network.Point{{X: 1}, {X: 2}, {X: 2, Y: 9}}},
	)
	g, findings := network.Trace(n)
	assert.Equal(t, []string{
		"error duplicate_id @ fixture CO1", "error duplicate_id @ pipe a", "error dangling_pipe @ pipe z", "warning loop @ pipe a",
	}, kinds(findings))
	z, ok := g.PipeIndex("z")
	require.True(t, ok)
	assert.Equal(t, []int{-1, -1, -1}, []int{g.Up[z], g.Down[z], g.Next[z]})
	assert.Len(t, g.Order, 4)
	assert.Len(t, g.Polyline(z), 3)
	assert.Equal(t, unit.Metres(10), g.Length(z))
	assert.Equal(t, network.Passage{Why: "end", What: "no way"}, g.Passage(z, 0))
	assert.NotPanics(t, func() { touch(g) })
}

func TestIndexes(t *testing.T) {
	g, _ := network.Trace(sketch.Must("OUT -10ft- CO1(label=CO-1)"))
	i, ok := g.NodeIndex("CO1")
	require.True(t, ok)
	assert.Equal(t, "CO-1", g.NodeName(i))
	assert.Equal(t, "pipe OUT-CO1", g.PipeName(0))
	_, ok = g.NodeIndex("CO9")
	assert.False(t, ok)
	_, ok = g.PipeIndex("")
	assert.False(t, ok)
}
