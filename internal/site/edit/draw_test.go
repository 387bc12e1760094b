package edit_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

// main is a pipe 12 m long that flows west, from a fixture to an outlet.
const mainLine = "OUT(at=0m,0m) -12m/4in/id=m- F1(at=12m,0m)"

func TestDrawPipeAlone(t *testing.T) {
	b := newBoard(t, "")
	fall := unit.InchesPerFoot(0.25)
	style := plastic(3)
	style.Slope, style.Severity = &fall, network.Heavy
	made := b.do(edit.DrawPipe(b.Site(), free(0, 0), []network.Point{pt(3, 0), pt(3, 0), pt(5, 2)}, free(5, 6), style))
	p := b.pipe(network.PipeID(made.ID))
	assert.Equal(t, edit.Pipe, made.Kind)
	assert.Equal(t, []network.Point{pt(3, 0), pt(5, 2)}, p.Via, "a corner clicked twice is one")
	assert.Equal(t, network.Heavy, p.Severity)
	assert.Equal(t, fall, *p.Slope)
	assert.NotSame(t, &fall, p.Slope)
	assert.Equal(t, network.KindCap, b.node(p.From).Kind)
	assert.Equal(t, network.KindCap, b.node(p.To).Kind)
	g, _ := network.Trace(&b.Site().Network)
	var fittings []string
	for _, c := range g.Corners(0) {
		fittings = append(fittings, network.BendName(c.Fitting))
	}
	assert.Equal(t, []string{"1/8 bend", "1/8 bend"}, fittings)
	assert.Equal(t, "draw pipe", b.NextUndo())
}

// A branch drawn onto a pipe: whichever end is clicked first, a hose that comes
// up the main turns into it by the fitting's angle, and water out of it never
// doubles back.
func TestDrawOntoPipe(t *testing.T) {
	for _, c := range []struct {
		name           string
		x, y           unit.Length // the free end; the branch meets the main at 6, 0
		kind           network.JunctionKind
		turn, sharpest float64
		side           string
	}{
		{"45 degrees with the flow", 9, 3, network.Wye, 45, 45, "left"},
		{"45 degrees from the other side", 9, -3, network.Wye, 45, 45, "right"},
		{"22.5 degrees", unit.Length(6 + 5*math.Cos(math.Pi/8)), unit.Length(5 * math.Sin(math.Pi/8)), network.Wye, 45, 45, "left"},
		{"square", 6, 4, network.Combination, 90, 45, "left"},
		{"against the flow", 3, 3, network.Combination, 90, 45, "left"},
	} {
		for _, from := range []string{"main", "free end"} {
			t.Run(c.name+" from the "+from, func(t *testing.T) {
				b := newBoard(t, mainLine)
				ends := [2]edit.Anchor{onPipe("m", 6, 0.2), free(c.x, c.y)}
				if from == "free end" {
					ends[0], ends[1] = ends[1], ends[0]
				}
				made := b.do(edit.DrawPipe(b.Site(), ends[0], nil, ends[1], plastic(3)))
				branch := network.PipeID(made.ID)
				n := b.nodeAt(6, 0)
				require.NotNil(t, n.Junction)
				assert.Equal(t, network.Junction{Kind: c.kind, Branches: []network.PipeID{branch}}, *n.Junction)
				assert.Equal(t, network.NodeID("OUT"), b.pipe("m").From, "the downstream half keeps the ID")

				upper := b.otherAt(n.ID, "m", branch)
				into := b.passage("m", branch)
				assert.True(t, into.Open)
				assert.True(t, into.Branch)
				assert.InDelta(t, c.turn, into.Turn.Degrees(), 1e-9)
				assert.InDelta(t, c.sharpest, into.Sharpest.Degrees(), 1e-9)
				assert.Equal(t, c.side, into.Side)
				assert.True(t, b.passage(branch, "m").Open)
				assert.False(t, b.passage(upper, branch).Open, "a hose never doubles back")
				assert.True(t, b.passage("m", upper).Open)
				assert.Zero(t, b.passage("m", upper).Turn)
				assert.Empty(t, b.faults())
			})
		}
	}
}

func TestDrawOn(t *testing.T) {
	long := unit.Metres(12.5)
	slight := unit.Slope(0.01)
	for _, c := range []struct {
		name  string
		old   func(p *network.Pipe)
		style func(s *edit.PipeStyle)
		want  network.NodeKind // of the joint, "" where the pipes become one
	}{
		{name: "one pipe"},
		{name: "severity left out is moderate", style: func(s *edit.PipeStyle) { s.Severity = network.Moderate }},
		{name: "a label goes on", old: func(p *network.Pipe) { p.Label = "Main" }},
		{name: "another size", style: func(s *edit.PipeStyle) { s.Size = 3 }, want: network.KindReducer},
		{name: "another material", style: func(s *edit.PipeStyle) { s.Material = network.Clay }, want: network.KindBend},
		{name: "another class", style: func(s *edit.PipeStyle) { s.Class = network.Lateral }, want: network.KindBend},
		{name: "another deposit", style: func(s *edit.PipeStyle) { s.Deposit = network.Roots }, want: network.KindBend},
		{name: "another slope", style: func(s *edit.PipeStyle) { s.Slope = &slight }, want: network.KindBend},
		{name: "a measured length", old: func(p *network.Pipe) { p.Length = &long }, want: network.KindBend},
		{name: "fragile", old: func(p *network.Pipe) { p.Fragile = true }, want: network.KindBend},
		{name: "out of the job", old: func(p *network.Pipe) { p.OutOfJob = true }, want: network.KindBend},
	} {
		for _, from := range []string{"cap", "far end"} {
			t.Run(c.name+" from the "+from, func(t *testing.T) {
				b := newBoard(t, "OUT(at=0m,0m) -12m/4in/id=m- CAP(at=12m,0m)")
				if c.old != nil {
					c.old(&b.Site().Network.Pipes[0])
				}
				style := plastic(4)
				if c.style != nil {
					c.style(&style)
				}
				ends := [2]edit.Anchor{onNode("CAP"), free(16, 4)}
				corners := []network.Point{pt(14, 0), pt(16, 2)}
				if from == "far end" {
					ends[0], ends[1] = ends[1], ends[0]
					corners[0], corners[1] = corners[1], corners[0]
				}
				made := network.PipeID(b.do(edit.DrawPipe(b.Site(), ends[0], corners, ends[1], style)).ID)
				assert.Empty(t, b.faults())
				if c.want != "" {
					assert.Equal(t, c.want, b.node("CAP").Kind)
					assert.NotEqual(t, network.PipeID("m"), made)
					return
				}
				assert.Equal(t, network.PipeID("m"), made)
				assert.Len(t, b.Site().Network.Pipes, 1)
				assert.Len(t, b.Site().Network.Nodes, 2)
				assert.Equal(t, []network.Point{pt(14, 0), pt(16, 2)}, b.pipe("m").Via, "the joint was straight, so it is no corner")
			})
		}
	}
}

func TestDrawOnRoundACorner(t *testing.T) {
	b := newBoard(t, "OUT(at=0m,0m) -12m/4in/id=m- CAP(at=12m,0m)")
	b.do(edit.DrawPipe(b.Site(), onNode("CAP"), nil, free(12, 5), plastic(4)))
	assert.Equal(t, []network.Point{pt(12, 0)}, b.pipe("m").Via)
	g, _ := network.Trace(&b.Site().Network)
	require.Len(t, g.Corners(0), 1)
	assert.Equal(t, "1/4 bend", network.BendName(g.Corners(0)[0].Fitting))
}

// A node that has pipes gets another.
func TestDrawToNode(t *testing.T) {
	const bend = "OUT(at=0m,0m) -5m/id=a- B1(at=5m,0m) -5m/id=b- F1(at=5m,5m)"
	const wye = "OUT(at=0m,0m) -5m/id=a- W1(at=5m,0m) -5m/id=b- F1(at=10m,0m) ; W1 ~5m/id=c- F2(at=8m,3m)"
	const tee = "OUT(at=0m,0m) -5m/id=a- C1(at=5m,0m) -5m/id=b- F1(at=10m,0m) ; C1 ~5m/id=c- F2(at=5m,3m)"
	for _, c := range []struct {
		name, text string
		node       network.NodeID
		x, y       unit.Length
		kind       network.JunctionKind
		branches   []network.PipeID
		err        string
	}{
		{name: "third at a bend, the straight leg is the run", text: bend, node: "B1", x: 10, y: 0, kind: network.Combination, branches: []network.PipeID{"b"}},
		{name: "third at a bend, a wye", text: "OUT(at=0m,0m) -5m/id=a- B1(at=5m,0m) -5m/id=b- F1(at=10m,0.5m)", node: "B1", x: 8, y: -3, kind: network.Wye, branches: []network.PipeID{"p1"}},
		{name: "fourth at a wye", text: wye, node: "W1", x: 8, y: -3, kind: network.DoubleWye, branches: []network.PipeID{"c", "p1"}},
		{name: "fourth at a combination", text: tee, node: "C1", x: 5, y: -3, kind: network.Cross, branches: []network.PipeID{"c", "p1"}},
		{name: "fourth at a wye, square", text: wye, node: "W1", x: 5, y: -3, err: "turn alike"},
		{name: "fourth on the same side", text: wye, node: "W1", x: 7, y: 3, err: "same side"},
		{name: "a fixture takes one pipe", text: bend, node: "F1", x: 9, y: 9, err: "fixture F1: 2 pipes would meet there, a fixture joins 1 pipe at most"},
		{name: "a trap takes two", text: "OUT(at=0m,0m) -5m- TR1(at=5m,0m) -5m- F1(at=9m,0m)", node: "TR1", x: 5, y: 5, err: "a trap joins 2 pipes at most"},
		{name: "a reducer takes two", text: "OUT(at=0m,0m) -5m- R1(at=5m,0m) -5m/3in- F1(at=9m,0m)", node: "R1", x: 5, y: 5, err: "a reducer joins 2 pipes at most"},
		{name: "a cleanout takes two", text: "OUT(at=0m,0m) -5m- CO1(at=5m,0m) -5m- F1(at=9m,0m)", node: "CO1", x: 5, y: 5, err: "a cleanout joins 2 pipes at most"},
		{name: "a roof vent takes one", text: "OUT(at=0m,0m) -5m- VT1(at=5m,0m)", node: "VT1", x: 5, y: 5, err: "a roof vent joins 1 pipe at most"},
		{name: "no such node", text: bend, node: "Q", err: `no node "Q"`},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBoard(t, c.text)
			draw := func() (*edit.Edit, error) {
				return edit.DrawPipe(b.Site(), free(c.x, c.y), nil, onNode(c.node), plastic(4))
			}
			if c.err != "" {
				b.refuses(c.err, draw)
				return
			}
			b.do(draw())
			n := b.node(c.node)
			require.NotNil(t, n.Junction)
			assert.Equal(t, network.Junction{Kind: c.kind, Branches: c.branches}, *n.Junction)
			assert.Empty(t, b.faults())
		})
	}
}

func TestDrawToWhatTakesMore(t *testing.T) {
	for _, c := range []struct {
		name, text string
		node       network.NodeID
	}{
		{"a lone fixture", "OUT(at=0m,0m) -5m- B1(at=5m,0m) ; F9(at=9m,9m)", "F9"},
		{"the open side of a trap", "OUT(at=0m,0m) -5m- TR1(at=5m,0m)", "TR1"},
		{"a cleanout at the end", "OUT(at=0m,0m) -5m- CO1(at=5m,0m)", "CO1"},
		{"a manhole", "OUT(at=0m,0m) -5m- MH1(at=5m,0m) -5m- F1(at=9m,0m); MH1 -5m- F2(at=5m,5m)", "MH1"},
		{"an outlet", "OUT(at=0m,0m) -5m- F1(at=5m,0m)", "OUT"},
		{"a reducer placed before its second pipe", "OUT(at=0m,0m) -5m- R1(at=5m,0m)", "R1"},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBoard(t, c.text)
			was := b.node(c.node)
			b.do(edit.DrawPipe(b.Site(), onNode(c.node), nil, free(7, -7), plastic(4)))
			assert.Equal(t, was, b.node(c.node))
		})
	}
}

// A pipe that is cut gives all that is known of it to both halves.
func TestDrawCutsPipe(t *testing.T) {
	b := newBoard(t, "OUT(at=0m,0m invert=-2m) -12m/6in/clay/roots/heavy/sewer/fragile/ceiling=500psi/slope=1%/id=m/label=Main- W1(at=10m,2m invert=-1m) -5m- F1(at=15m,2m) ; W1 ~1m/id=x- F2(at=10m,9m)")
	s := b.Site()
	s.Network.Pipes[0].Via = []network.Point{pt(4, 0), pt(8, 0)}
	long := unit.Metres(12)
	s.Network.Pipes[0].Length = &long
	s.Network.Nodes[1].Junction = &network.Junction{Kind: network.Wye, Branches: []network.PipeID{"m"}}
	b.do(edit.DrawPipe(s, free(6, 5), nil, onPipe("m", 6, 0.3), plastic(4)))
	n := b.nodeAt(6, 0)
	lower, upper := b.pipe("m"), b.pipe("p1")
	assert.Equal(t, n.ID, lower.To)
	assert.Equal(t, n.ID, upper.From)
	assert.Equal(t, []network.Point{pt(4, 0)}, lower.Via)
	assert.Equal(t, []network.Point{pt(8, 0)}, upper.Via)
	// 6 m of 8 m and the 2.828 m of the diagonal lie below.
	share := 6 / (8 + math.Hypot(2, 2))
	assert.InDelta(t, 12*share, lower.Length.Metres(), 1e-9)
	assert.InDelta(t, 12, (*lower.Length + *upper.Length).Metres(), 1e-12)
	assert.InDelta(t, -2+share, n.Invert.Metres(), 1e-9, "it falls evenly between two measured heights")
	assert.Equal(t, "Main", lower.Label)
	assert.Equal(t, "Main (2)", upper.Label, "two pipes of one label cannot be told apart")
	assert.Equal(t, []network.PipeID{"p1"}, b.node("W1").Junction.Branches, "the junction at the upper end follows")
	lower.ID, lower.Label, lower.From, lower.To, lower.Via, lower.Length = "", "", "", "", nil, nil
	upper.ID, upper.Label, upper.From, upper.To, upper.Via, upper.Length = "", "", "", "", nil, nil
	assert.Equal(t, lower, upper)
}

// Before an outlet is marked, nobody knows which way the water goes. When it is,
// the fittings that the drawing chose follow it.
func TestFittingsFollowTheOutlet(t *testing.T) {
	for _, end := range []string{"west", "east"} {
		t.Run(end, func(t *testing.T) {
			b := newBoard(t, "")
			b.do(edit.DrawPipe(b.Site(), free(0, 0), nil, free(12, 0), plastic(4)))
			b.do(edit.DrawPipe(b.Site(), onPipe("p1", 6, 0), nil, free(9, 3), plastic(3)))
			out, want := b.nodeAt(0, 0), network.Wye
			if end == "east" {
				out, want = b.nodeAt(12, 0), network.Combination
			}
			b.do(edit.PlaceNode(b.Site(), onNode(out.ID), network.KindOutlet, plastic(4)))
			assert.Equal(t, want, b.nodeAt(6, 0).Junction.Kind)
			assert.Empty(t, b.faults())
		})
	}
	t.Run("but not one that was chosen", func(t *testing.T) {
		b := newBoard(t, "CAP1(at=0m,0m) -6m- T1(at=6m,0m) -6m- CAP2(at=12m,0m); T1 ~4m/3in- F1(at=9m,3m)")
		b.do(edit.PlaceNode(b.Site(), onNode("CAP1"), network.KindOutlet, plastic(4)))
		assert.Equal(t, network.SanitaryTee, b.node("T1").Junction.Kind)
	})
	t.Run("unless it cannot stay", func(t *testing.T) {
		b := newBoard(t, "CAP1(at=0m,0m) -6m/id=a- T1(at=6m,0m) -6m/id=b- CAP2(at=12m,0m); T1 ~4m/3in/id=c- CAP3(at=6m,3m)")
		b.do(edit.PlaceNode(b.Site(), onNode("CAP3"), network.KindOutlet, plastic(4)))
		assert.NotContains(t, b.node("T1").Junction.Branches, network.PipeID("c"), "the outflow is of the run")
		assert.Empty(t, b.faults())
	})
}

// Joining a part without an outlet to one that has it turns the flow of the part.
func TestFittingsFollowAJoin(t *testing.T) {
	b := newBoard(t, mainLine+" ; CAP1(at=5m,9m) -5m/id=a- CAP2(at=5m,19m)")
	made := b.do(edit.DrawPipe(b.Site(), onPipe("a", 5, 14), nil, free(8, 17), plastic(3)))
	b.do(edit.DrawPipe(b.Site(), onPipe("m", 5, 0), nil, onNode("CAP1"), plastic(4)))
	assert.Equal(t, network.Junction{Kind: network.Wye, Branches: []network.PipeID{network.PipeID(made.ID)}}, *b.nodeAt(5, 14).Junction)
	assert.Empty(t, b.faults())
}

func TestDrawOntoOnePipeTwice(t *testing.T) {
	b := newBoard(t, mainLine)
	b.do(edit.DrawPipe(b.Site(), onPipe("m", 3, 0), []network.Point{pt(4, 3), pt(8, 3)}, onPipe("m", 9, 0), plastic(4)))
	assert.Len(t, b.Site().Network.Pipes, 4)
	assert.Equal(t, network.KindJunction, b.nodeAt(3, 0).Kind)
	assert.Equal(t, network.KindJunction, b.nodeAt(9, 0).Kind)
	g, _ := network.Trace(&b.Site().Network)
	assert.True(t, g.Sound(2) && g.Sound(3))
}

func TestDrawAtTheEndOfAPipe(t *testing.T) {
	b := newBoard(t, "OUT(at=0m,0m) -12m/id=m- CAP(at=12m,0m)")
	b.do(edit.DrawPipe(b.Site(), onPipe("m", 12.5, 0.001), nil, free(12, 4), plastic(4)))
	assert.Len(t, b.Site().Network.Pipes, 1, "it is drawn on from the end")
}

func TestDrawRefuses(t *testing.T) {
	b := newBoard(t, mainLine)
	nan := unit.Length(math.NaN())
	inf := unit.Length(math.Inf(1))
	many := make([]network.Point, 1001)
	for i := range many {
		many[i] = pt(unit.Length(i), unit.Length(i%2))
	}
	draw := func(from edit.Anchor, corners []network.Point, to edit.Anchor, style edit.PipeStyle) func() (*edit.Edit, error) {
		return func() (*edit.Edit, error) { return edit.DrawPipe(b.Site(), from, corners, to, style) }
	}
	odd := plastic(4)
	odd.Slope = new(unit.Slope)
	*odd.Slope = 2
	for _, c := range []struct {
		words string
		draw  func() (*edit.Edit, error)
	}{
		{"less than 10 mm", draw(free(3, 3), nil, free(3, 3), plastic(4))},
		{"would end where it begins, at outlet OUT", draw(onNode("OUT"), []network.Point{pt(0, 3), pt(3, 3)}, onNode("OUT"), plastic(4))},
		{"would end where it begins", draw(onPipe("m", 3, 0), nil, onPipe("m", 3, 0.004), plastic(4))},
		{"no numbers", draw(edit.Anchor{At: network.Point{X: nan}}, nil, free(3, 3), plastic(4))},
		{"no numbers", draw(edit.Anchor{At: network.Point{X: nan}, Pipe: "m"}, nil, free(3, 3), plastic(4))},
		{"no numbers", draw(free(3, 3), []network.Point{{Y: nan}}, free(4, 4), plastic(4))},
		{"east", draw(edit.Anchor{At: network.Point{X: inf}}, nil, free(3, 3), plastic(4))},
		{"a site reaches", draw(free(3, 3), nil, free(100_001, 0), plastic(4))},
		{"at most 1000", draw(free(3, 3), many, free(-4, 4), plastic(4))},
		{`no pipe "q"`, draw(onPipe("q", 1, 1), nil, free(4, 4), plastic(4))},
		{`no level "Attic"`, draw(edit.Anchor{Level: "Attic"}, nil, free(4, 4), plastic(4))},
		{"found 7 in nominal", draw(free(3, 3), nil, free(4, 4), plastic(7))},
		{"size", draw(free(3, 3), nil, free(4, 4), edit.PipeStyle{})},
		{"slope", draw(free(3, 3), nil, free(4, 4), odd)},
	} {
		b.refuses(c.words, c.draw)
	}
}
