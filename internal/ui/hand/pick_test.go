package hand

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"linemap/internal/network"
	"linemap/internal/site/edit"
)

// yard draws a main with a branch pipe beside it, and a spot.
const yard = "take P; click 0,0; click 10,0; key Return; click 0,5; click 5,5; click 5,10; key Return; take S; click 20,20; take K; click 40,40; "

func refs(b *bench) (all []string) {
	for _, r := range b.world.Selection.Refs() {
		all = append(all, string(r.Kind)+" "+r.ID)
	}
	return all
}

func TestPickSelects(t *testing.T) {
	for _, c := range []struct {
		name, script string
		want         []string
	}{
		{"a click", "click 4,0.2", []string{"pipe p1"}},
		{"another click", "click 4,0; click 0,0", []string{"node n1"}},
		{"nothing there", "click 4,0; click 30,30", nil},
		{"shift, one more", "click 4,0; click 2,5 shift", []string{"pipe p1", "pipe p2"}},
		{"shift, one less", "click 4,0; click 2,5 shift; click 4,0 shift", []string{"pipe p2"}},
		{"shift on nothing", "click 4,0; click 30,30 shift", []string{"pipe p1"}},
		{"a click on one of several", "click 4,0; click 2,5 shift; click 2,5", []string{"pipe p2"}},
		{"a box to the right", "drag -1,4 5.6,11", []string{"node n3", "node n4", "pipe p2"}},
		{"a box to the left", "drag 3,6 -1,4", []string{"node n3", "pipe p2"}},
		{"a box to the right takes no part", "drag -1,4 3,6", []string{"node n3"}},
		{"a box with shift adds", "click 4,0; drag 19,19 21,21 shift", []string{"pipe p1", "spot s1"}},
		{"a box is not pulled by an unsteady hand", "click 4,0; drag 30,30 30.1,30", nil},
		{"what lies under", "click 0,0 alt; click 0,0 alt", []string{"pipe p1"}},
		{"Escape takes all away", "click 4,0; key Escape", nil},
		{"Escape leaves the box", "click 4,0; hold -1,4 6,11; key Escape", []string{"pipe p1"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t, empty(t))
			b.do(yard)
			before := drawn(b.history.Site())
			b.do(c.script)
			assert.Equal(t, c.want, refs(b))
			assert.Equal(t, before, drawn(b.history.Site()))
			assert.Empty(t, b.errs)
		})
	}
}

func TestPickChanges(t *testing.T) {
	main, bent, spot := "4 in: cap 0,0 > cap 10,0", "4 in: cap 0,5 > 5,5 > cap 5,10", "Spot 1 20,20"
	for _, c := range []struct {
		name, script string
		want         []string
	}{
		{"drag a spot", "drag 20,20 23.2,18", []string{main, bent, "Spot 1 23,18"}},
		{"drag an end", "drag 10,0 12.2,1.1", []string{"4 in: cap 0,0 > cap 12,1", bent, spot}},
		{"drag a pipe by its middle: its nearest end comes to the grid", "drag 4,0 5.1,2.2", []string{bent, "4 in: cap 1,2 > cap 11,2", spot}},
		{"drag all that is selected", "click 4,0; click 20,20 shift; drag 4,0 4,-3", []string{"4 in: cap 0,-3 > cap 10,-3", bent, "Spot 1 20,17"}},
		{"Shift goes straight along", "click 20,20; hold 20,20 23.2,21.3; drop 23.2,21.3 shift", []string{main, bent, "Spot 1 23,20"}},
		{"a button let go elsewhere moves nothing", "hold 20,20 25,25; move 26,26; drop 26,26", []string{main, bent, spot}},
		{"Alt goes off the grid", "click 20,20; drag 20,20 20.35,20.15 alt", []string{main, bent, "Spot 1 20.35,20.15"}},
		{"Escape leaves it", "hold 20,20 25,25; key Escape; move 26,26", []string{main, bent, spot}},
		{"one open end on another joins them", "drag 0,5 0.2,0.1", []string{"4 in: cap 5,10 > 5,5 > 0,0 > cap 10,0", spot}},
		{"a corner by its handle", "click 3,5; drag 5,5 8.1,5.2", []string{main, "4 in: cap 0,5 > 8,5 > cap 5,10", spot}},
		{"a double click adds a corner", "double 3,5; drag 3,5 2.1,5 alt", []string{main, "4 in: cap 0,5 > 2.1,5 > 5,5 > cap 5,10", spot}},
		{"a double click on a corner takes it away", "double 5,5", []string{main, "4 in: cap 0,5 > cap 5,10", spot}},
		{"arrows nudge", "click 20,20; key Right; key Right; key Up", []string{main, bent, "Spot 1 22,21"}},
		{"Alt nudges by a tenth", "click 20,20; key Left alt; key Down alt", []string{main, bent, "Spot 1 19.9,19.9"}},
		{"nudges are one step", "click 20,20; key Right; key Right; key Right; undo", []string{main, bent, spot}},
		{"Delete", "click 4,0; key Delete", []string{bent, spot}},
		{"Backspace", "click 20,20; key BackSpace", []string{main, bent}},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t, empty(t))
			b.do(yard + c.script)
			assert.Equal(t, c.want, drawn(b.history.Site()))
			assert.Empty(t, b.errs)
		})
	}
}

func TestPickOpensTheMenu(t *testing.T) {
	b := newBench(t, empty(t))
	b.do(yard + "right 4,0")
	assert.Equal(t, []string{"pipe p1"}, refs(b))
	assert.Equal(t, 1, b.menus)
	b.do("click 2,5 shift; right 4,0")
	assert.Equal(t, []string{"pipe p1", "pipe p2"}, refs(b), "the menu of all that is selected")
}

func TestPickLeavesKeysItHasNoUseFor(t *testing.T) {
	b := newBench(t, empty(t))
	b.do("key Delete; key Left; key Escape; key F5; type p")
	assert.Equal(t, 5, b.unused)
}

func TestPickLeavesLockedPictures(t *testing.T) {
	s := empty(t)
	s.Underlays = append(s.Underlays, underlay("u1", 0, 0, true), underlay("u2", 9, 0, false))
	b := newBench(t, s)
	b.do("click 0,0")
	assert.Empty(t, refs(b))
	b.do("drag 9,0 12,0")
	assert.InDelta(t, 12, s.Underlays[1].At.X.Metres(), 1e-9)
	b.do("right 0,0")
	assert.Equal(t, []string{"underlay u1"}, refs(b), "a right click can unlock it")
	marks := b.tool.Ghost(&b.world).Marks
	assert.Equal(t, Mark{network.Point{X: 12}, Handle}, marks[0])
}

func TestPickGhosts(t *testing.T) {
	b := newBench(t, empty(t))
	b.do(yard + "move 4,0.1")
	g := b.tool.Ghost(&b.world)
	assert.Equal(t, Lit, g.Lines[0].Kind)
	assert.Equal(t, "pipe p1", g.Snapped)

	b.do("move 0,0.1")
	assert.Equal(t, Mark{network.Point{}, Hover}, b.tool.Ghost(&b.world).Marks[0])

	b.do("hold 10,0 10,3")
	g = b.tool.Ghost(&b.world)
	assert.ElementsMatch(t, []network.Point{{}, {X: 10, Y: 3}}, g.Lines[0].Points, "the other end stays")
	assert.Equal(t, Moved, g.Lines[0].Kind)
	assert.Equal(t, "3.00 m, bearing 0°", g.Texts[0].S)
	b.do("key Escape")

	b.do("hold 30,30 25,25")
	g = b.tool.Ghost(&b.world)
	assert.Equal(t, "what the frame touches", g.Snapped)
	assert.Len(t, g.Lines, 1)
	b.do("hold 25,25 30,30")
	g = b.tool.Ghost(&b.world)
	assert.Equal(t, "what lies inside", g.Snapped)
	assert.Empty(t, g.Lines)
	assert.Equal(t, &[2]network.Point{{X: 25, Y: 25}, {X: 30, Y: 30}}, g.Box)

	b.do("key Escape; click 3,5; hold 5,5 8,5")
	g = b.tool.Ghost(&b.world)
	assert.Equal(t, []network.Point{{Y: 5}, {X: 8, Y: 5}, {X: 5, Y: 10}}, g.Lines[0].Points)
}

func TestManyThingsMoveInAFrame(t *testing.T) {
	s := empty(t)
	b := newBench(t, s)
	for i := range 500 {
		e, err := edit.PlaceSpot(s, network.Point{X: 1 * metre(i%25), Y: metre(i / 25)})
		assert.NoError(t, err)
		b.history.Do(e)
	}
	b.look()
	b.world.Selection = edit.All(s, "")
	b.do("hold 3,3 3,5")
	g := b.tool.Ghost(&b.world)
	assert.Len(t, g.Lines, 1)
	assert.Equal(t, network.Point{Y: 2}, g.Lines[0].Points[0])
	b.do("drag 3,3 3,5")
	assert.InDelta(t, 2, s.Spots[0].At.Y.Metres(), 1e-9)
}

func TestLayCornersAreDragged(t *testing.T) {
	b := newBench(t, empty(t))
	b.do("take S; click 0,0; take H; click 9,0; take L; click 0,0; click 4,4; click 9,0; key Escape; click 2,2; drag 4,4 4,6")
	assert.Equal(t, []string{"HYD-1 9,0", "Spot 1 0,0", "lay: 0,0 4,6 9,0"}, drawn(b.history.Site()))
	assert.Equal(t, "move corner", b.history.NextUndo())
}
