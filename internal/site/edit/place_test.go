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

func TestPlaceAccess(t *testing.T) {
	const text = `OUT(at=0m,0m) -5m/6in/id=a- W1(at=5m,0m invert=-1.2m) -5m/4in/id=b- B1(at=10m,0m) -4m/id=c- CAP(at=10m,4m)
	              W1 ~4m/3in/id=d- F1(at=8m,3m label=WC-1)`
	for _, c := range []struct {
		name string
		at   edit.Anchor
		kind network.AccessKind
		want network.Access
		err  string
	}{
		{name: "in the line of a pipe", at: onPipe("b", 7, 0), kind: network.TwoWayCleanout, want: network.Access{Size: 4, Entry: unit.Degrees(45)}},
		{name: "one-way in line", at: onPipe("a", 2, 0), kind: network.OneWayCleanout, want: network.Access{Size: 6, Entry: unit.Degrees(45), Facing: network.FacesUpstream}},
		{name: "one-way at the upper end", at: onNode("CAP"), kind: network.OneWayCleanout, want: network.Access{Size: 4, Entry: unit.Degrees(45), Facing: network.FacesDownstream}},
		{name: "one-way alone", at: free(9, 9), kind: network.OneWayCleanout, want: network.Access{Size: 2, Entry: unit.Degrees(45), Facing: network.FacesUpstream}},
		{name: "at a bend", at: onNode("B1"), kind: network.TwoWayCleanout, want: network.Access{Size: 4, Entry: unit.Degrees(45)}},
		{name: "at the end of a pipe", at: onPipe("c", 10, 4.1), kind: network.RoofVent, want: network.Access{Size: 4}},
		{name: "a manhole where pipes meet", at: onNode("W1"), kind: network.Manhole, want: network.Access{Size: 24, Entry: unit.Degrees(90), Riser: unit.Metres(1.2)}},
		{name: "a catch basin alone", at: free(9, 9), kind: network.CatchBasin, want: network.Access{Size: 24, Entry: unit.Degrees(90)}},
		{name: "a fixture pulled", at: onNode("F1"), kind: network.PulledFixture, want: network.Access{Size: 3, Entry: unit.Degrees(90)}},
		{name: "cleanout on a wye", at: onNode("W1"), kind: network.TwoWayCleanout, err: "wye W1 is a wye; place the cleanout on a pipe"},
		{name: "cleanout on a fixture", at: onNode("F1"), kind: network.TwoWayCleanout, err: "WC-1 is a fixture"},
		{name: "roof vent in line", at: onPipe("b", 7, 0), kind: network.RoofVent, err: "a roof vent ends a pipe"},
		{name: "pulled fixture at a bend", at: onNode("B1"), kind: network.PulledFixture, err: "2 pipes would meet there, a pulled fixture joins 1 pipe at most"},
		{name: "no such kind", at: free(1, 1), kind: "porthole", err: `found "porthole"`},
		{name: "no such node", at: onNode("q"), kind: network.Manhole, err: `no node "q"`},
		{name: "no such pipe", at: onPipe("q", 0, 0), kind: network.Manhole, err: `no pipe "q"`},
		{name: "no place", at: edit.Anchor{At: pt(unit.Length(math.NaN()), 0)}, kind: network.Manhole, err: "no numbers"},
		{name: "off the plan", at: free(-200_000, 0), kind: network.Manhole, err: "a site reaches"},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBoard(t, text)
			place := func() (*edit.Edit, error) { return edit.PlaceAccess(b.Site(), c.at, c.kind, plastic(2)) }
			if c.err != "" {
				b.refuses(c.err, place)
				return
			}
			n := b.node(network.NodeID(b.do(place()).ID))
			c.want.Kind = c.kind
			assert.Equal(t, network.KindAccess, n.Kind)
			assert.Equal(t, &c.want, n.Access)
			assert.Nil(t, n.Junction)
			assert.NotEmpty(t, n.Label)
		})
	}
}

func TestAccessLabels(t *testing.T) {
	b := newBoard(t, "OUT(at=0m,0m) -50m/id=m- CO7(at=50m,0m label=CO-2)")
	var got []string
	place := func(x unit.Length, kind network.AccessKind) {
		made := b.do(edit.PlaceAccess(b.Site(), free(x, 9), kind, plastic(4)))
		got = append(got, b.node(network.NodeID(made.ID)).Label)
	}
	place(1, network.TwoWayCleanout)
	place(2, network.OneWayCleanout)
	place(3, network.Manhole)
	place(4, network.CatchBasin)
	place(5, network.Manhole)
	assert.Equal(t, []string{"CO-1", "CO-3", "MH-1", "CB-1", "MH-2"}, got)
	assert.Equal(t, "place manhole", b.NextUndo())
}

// What is placed in line leaves a run of two pipes that know the same.
func TestPlaceInLine(t *testing.T) {
	for _, c := range []struct {
		kind network.NodeKind
		why  string // a hose cannot pass
	}{
		{network.KindTrap, "trap"}, {network.KindBackwater, "backwater valve"}, {network.KindReducer, ""},
	} {
		t.Run(string(c.kind), func(t *testing.T) {
			b := newBoard(t, mainLine)
			made := b.do(edit.PlaceNode(b.Site(), onPipe("m", 4, 0), c.kind, plastic(4)))
			n := b.node(network.NodeID(made.ID))
			assert.Equal(t, c.kind, n.Kind)
			assert.Equal(t, pt(4, 0), n.At)
			upper := b.otherAt(n.ID, "m")
			assert.Equal(t, c.why, b.passage("m", upper).Why)
			assert.Equal(t, b.pipe("m").Size, b.pipe(upper).Size)
			assert.Empty(t, b.faults())
		})
	}
}

func TestPlaceNode(t *testing.T) {
	const text = "OUT(at=0m,0m) -5m/id=a- B1(at=5m,0m) -5m/id=b- CAP(at=5m,5m label=Future)"
	for _, c := range []struct {
		name string
		at   edit.Anchor
		kind network.NodeKind
		err  string
	}{
		{name: "a fixture at a cap", at: onNode("CAP"), kind: network.KindFixture},
		{name: "a trap at a cap", at: onNode("CAP"), kind: network.KindTrap},
		{name: "a second outlet at a cap", at: onNode("CAP"), kind: network.KindOutlet},
		{name: "a valve at a bend", at: onNode("B1"), kind: network.KindBackwater},
		{name: "an outlet alone", at: free(9, 9), kind: network.KindOutlet},
		{name: "a cap alone", at: free(9, 9), kind: network.KindCap},
		{name: "a fixture in line", at: onPipe("a", 2, 0), kind: network.KindFixture, err: "a fixture ends a pipe"},
		{name: "an outlet in line", at: onPipe("a", 2, 0), kind: network.KindOutlet, err: "an outlet ends a pipe"},
		{name: "a fixture at a bend", at: onNode("B1"), kind: network.KindFixture, err: "joins 1 pipe at most"},
		{name: "a trap at an outlet", at: onNode("OUT"), kind: network.KindTrap, err: "outlet OUT is an outlet"},
		{name: "a junction", at: free(9, 9), kind: network.KindJunction, err: "not placed like this"},
		{name: "no kind", at: free(9, 9), kind: "loop", err: `found "loop"`},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBoard(t, text)
			place := func() (*edit.Edit, error) { return edit.PlaceNode(b.Site(), c.at, c.kind, plastic(4)) }
			if c.err != "" {
				b.refuses(c.err, place)
				return
			}
			n := b.node(network.NodeID(b.do(place()).ID))
			assert.Equal(t, c.kind, n.Kind)
			if c.at.Node == "CAP" {
				assert.Equal(t, "Future", n.Label)
			}
		})
	}
}

// house is a board with a drain on the ground floor under three more levels.
func house(t testing.TB) *board {
	b := newBoard(t, "")
	for i, name := range []string{"Ground", "First", "Second", "Roof"} {
		b.do(edit.AddLevel(b.Site(), name, unit.Length(3*i)))
	}
	b.do(edit.DrawPipe(b.Site(), on("Ground", 0, 0), nil, on("Ground", 5, 0), plastic(4)))
	b.do(edit.PlaceNode(b.Site(), onNode(b.nodeAt(0, 0).ID), network.KindOutlet, plastic(4)))
	return b
}

func on(level string, x, y unit.Length) edit.Anchor { return edit.Anchor{At: pt(x, y), Level: level} }

func TestPlaceStack(t *testing.T) {
	b := house(t)
	base := b.nodeAt(5, 0).ID
	fall := unit.Slope(0.02)
	style := plastic(4)
	style.Slope = &fall
	stack := network.PipeID(b.do(edit.PlaceStack(b.Site(), onNode(base), "Roof", style)).ID)
	p := b.pipe(stack)
	top := b.node(p.From)
	assert.Equal(t, network.Stack, p.Class)
	assert.Nil(t, p.Slope, "what it falls is told by its ends")
	assert.Equal(t, "Roof", top.Level)
	assert.Equal(t, pt(5, 0), top.At)
	assert.Equal(t, network.KindBend, b.node(base).Kind, "the foot of the stack turns")
	g, _ := network.Trace(&b.Site().Network)
	i, _ := g.PipeIndex(stack)
	assert.InDelta(t, 9, g.Length(i).Metres(), 1e-9)
	assert.InDelta(t, 90, g.Climb(i).Degrees(), 1e-9)
	assert.Equal(t, "1/4 bend", b.passage(b.otherAt(base, stack), stack).What)

	// A branch on each storey, from the stack and to it.
	lower := network.PipeID(b.do(edit.DrawPipe(b.Site(), edit.Anchor{Pipe: stack, Level: "First", At: pt(5, 0)}, nil, on("First", 8, 0), plastic(2))).ID)
	first := b.node(b.pipe(lower).From)
	assert.Equal(t, network.Junction{Kind: network.SanitaryTee, Branches: []network.PipeID{lower}}, *first.Junction)
	assert.Equal(t, "First", first.Level)
	upper := b.otherAt(first.ID, lower, stack)
	assert.Equal(t, base, b.pipe(stack).To, "the lower part of the stack keeps the ID")
	b.do(edit.DrawPipe(b.Site(), on("Second", 5, -4), nil, edit.Anchor{Pipe: upper, Level: "Second", At: pt(5, 0)}, plastic(2)))
	b.do(edit.DrawPipe(b.Site(), onNode(first.ID), nil, on("First", 2, 0), plastic(2)))
	assert.Equal(t, network.Cross, b.node(first.ID).Junction.Kind)
	assert.Equal(t, "sanitary tee, into the branch", b.intoSecond())
	assert.Empty(t, b.faults())

	b.refuses(`level "Ground" is not between them`, func() (*edit.Edit, error) {
		return edit.DrawPipe(b.Site(), edit.Anchor{Pipe: upper, Level: "Ground", At: pt(5, 0)}, nil, on("Ground", 5, 5), plastic(2))
	})
}

// intoSecond says how a hose gets from the stack into the branch of the second
// floor.
func (b *board) intoSecond() string {
	b.Helper()
	for _, n := range b.Site().Network.Nodes {
		if n.Level != "Second" || n.Junction == nil {
			continue
		}
		branch := n.Junction.Branches[0]
		for _, p := range b.Site().Network.Pipes {
			if p.From == n.ID && p.ID != branch {
				return b.passage(p.ID, branch).What
			}
		}
	}
	return ""
}

func TestPlaceStackJoinsWhatIsThere(t *testing.T) {
	b := house(t)
	b.do(edit.DrawPipe(b.Site(), on("First", 2, 9), nil, on("First", 8, 9), plastic(3)))
	b.do(edit.DrawPipe(b.Site(), on("Ground", 5.04, 9), nil, onNode(b.nodeAt(5, 0).ID), plastic(4)))
	foot := b.nodeAt(5.04, 9)
	stack := b.pipe(network.PipeID(b.do(edit.PlaceStack(b.Site(), onNode(foot.ID), "First", plastic(4))).ID))
	head := b.node(stack.From)
	assert.Equal(t, foot.ID, stack.To)
	require.NotNil(t, head.Junction, "a pipe within 5 cm is joined")
	assert.Equal(t, "First", head.Level)
	assert.Empty(t, b.faults())

	b.do(edit.PlaceNode(b.Site(), on("Second", 5, 0), network.KindFixture, plastic(4)))
	made := b.do(edit.PlaceStack(b.Site(), on("First", 5, 0), "Second", plastic(4)))
	assert.Equal(t, network.KindFixture, b.node(b.pipe(network.PipeID(made.ID)).From).Kind, "a node there is joined")
}

func TestPlaceStackRefuses(t *testing.T) {
	b := house(t)
	b.do(edit.AddLevel(b.Site(), "Mezzanine", 3))
	stack := func(at edit.Anchor, to string) func() (*edit.Edit, error) {
		return func() (*edit.Edit, error) { return edit.PlaceStack(b.Site(), at, to, plastic(4)) }
	}
	b.refuses(`no level "Attic"`, stack(on("First", 1, 1), "Attic"))
	b.refuses(`no level "Attic"`, stack(on("Attic", 1, 1), "First"))
	b.refuses("where it begins", stack(on("First", 1, 1), "First"))
	b.refuses("at one height", stack(on("First", 1, 1), "Mezzanine"))
	b.refuses("on none", stack(free(1, 1), "First"))
	b.refuses("on none", stack(on("First", 1, 1), ""))
	b.refuses("no node", stack(onNode("q"), "First"))
	b.refuses("a site reaches", stack(on("First", 1e9, 1), "Roof"))
}

// An upright pipe drawn between two levels needs no length on the plan.
func TestDrawBetweenLevels(t *testing.T) {
	b := house(t)
	fall := unit.Slope(0.02)
	style := plastic(4)
	style.Slope = &fall
	made := b.do(edit.DrawPipe(b.Site(), on("First", 1, 1), nil, on("Ground", 1, 1), style))
	assert.Nil(t, b.pipe(network.PipeID(made.ID)).Slope)
	made = b.do(edit.DrawPipe(b.Site(), on("First", 2, 2), nil, on("Ground", 4, 2), style))
	assert.Equal(t, fall, *b.pipe(network.PipeID(made.ID)).Slope)
}
