package hand

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// lot draws an area of 10 by 6 m.
const lot = "take J; click 0,0; click 10,0; click 10,6; click 0,6; key Return; "

const lotDrawn = "Stand 1: 0,0 10,0 10,6 0,6"

func TestDrawArea(t *testing.T) {
	for _, c := range []struct {
		name, script string
		want, errs   []string
	}{
		{name: "Return closes it", script: lot, want: []string{lotDrawn}},
		{name: "the first corner closes it", script: "take J; click 0,0; click 10,0; click 10,6; click 0,6; click 0.2,0.1", want: []string{lotDrawn}},
		{name: "a double click closes it", script: "take J; click 0,0; click 10,0; click 10,6; double 0,6", want: []string{lotDrawn}},
		{name: "it stays in hand", script: lot + "click 20,0; click 30,0; click 30,6; key Return", want: []string{lotDrawn, "Stand 2: 20,0 30,0 30,6"}},
		{name: "Tab says what it is for", script: "take J; click 0,0; key Tab; click 10,0; click 10,6; key Return", want: []string{"Keep clear 1: 0,0 10,0 10,6"}},
		{name: "Tab twice", script: "take J; click 0,0; key Tab; click 10,0; click 10,6; key Tab; key Return", want: []string{"Walkway 1: 0,0 10,0 10,6"}},
		{name: "round again", script: "take J; click 0,0; key Tab; key Tab; key Tab; click 10,0; click 10,6; key Return", want: []string{"Stand 1: 0,0 10,0 10,6"}},
		{name: "on the grid and square", script: "take J; click 0.2,0.1; click 10.3,0.4; click 10.2,5.8; click 0.1,6.2; key Return", want: []string{lotDrawn}},
		{name: "Backspace takes the last corner back", script: "take J; click 0,0; click 10,0; click 10,6; click 5,9; key BackSpace; click 0,6; key Return", want: []string{lotDrawn}},
		{name: "Escape too, at last the tool", script: "take J; click 0,0; click 10,0; key Escape; key Escape; key Escape; click 3,3", want: nil},
		{name: "another tool ends it", script: "take J; click 0,0; click 10,0; click 10,6; click 0,6; type s", want: []string{lotDrawn}},
		{name: "one click twice is one corner", script: "take J; click 0,0; click 10,0; click 10,0; click 10,6; click 0,6; key Return", want: []string{lotDrawn}},
		{name: "no joint draws its corners", script: "take P; click 3,1.6; click 20,1.6; key Return; take J; click 3.3,1.1; click 12,1; click 12,9; key Return", want: []string{"4 in: cap 3,2 > cap 20,2", "Stand 1: 3,1 12,1 12,9"}},
		{
			name: "too few", script: "take J; click 0,0; click 10,0; key Return; click 10,6; key Return", want: []string{"Stand 1: 0,0 10,0 10,6"},
			errs: []string{"The outline of the area has too few corners (2)"},
		},
		{
			name: "across itself, mended", script: "take J; click 0,0; click 10,0; click 0,6 shift; click 10,6; key Return; key Escape; click -5,3 shift; key Return",
			want: []string{"Stand 1: 0,0 10,0 0,6 -5,3"},
			errs: []string{"The outline of the area crosses or touches itself (5.0 m east, 3.0 m north)"},
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t, empty(t))
			b.do(c.script)
			assert.Equal(t, c.want, drawn(b.history.Site()))
			assert.Equal(t, c.errs, b.errs)
		})
	}
}

func TestAreaShowsWhatItIs(t *testing.T) {
	b := newBench(t, empty(t))
	b.do("take J; click 0,0; click 10,0; move 10,6")
	g := b.tool.Ghost(&b.world)
	assert.Equal(t, "stand area, 6.00 m, 30 m²", g.Texts[0].S)
	require.Len(t, g.Lines, 2, "the corners, and the side that would close it")
	b.do("click 10,6; move 0.3,0.2")
	g = b.tool.Ghost(&b.world)
	assert.Equal(t, "the first corner", g.Snapped)
	assert.Equal(t, "stand area, 30 m²", g.Texts[0].S)
	assert.Contains(t, b.tool.Hint(&b.world), "Tab: keep-clear area.")
}

func TestPickAreas(t *testing.T) {
	for _, c := range []struct {
		name, script string
		picked       []string
		want         []string
	}{
		{"by its edge", "click 4,0.2", []string{"area a1"}, nil},
		{"inside", "click 4,3", []string{"area a1"}, nil},
		{"a click beside it leaves it", "click 4,3; click 50,50", nil, nil},
		{"a frame opens inside", "drag 2,2 8,5", nil, nil},
		{"a frame around", "drag -1,-1 11,7", []string{"area a1"}, nil},
		{"with Shift inside", "click 4,3 shift", []string{"area a1"}, nil},
		{"dragged by its edge", "drag 4,0 6,1", []string{"area a1"}, []string{"Stand 1: 2,1 12,1 12,7 2,7"}},
		{"dragged by its inside when picked", "click 4,3; drag 4,3 5,3", []string{"area a1"}, []string{"Stand 1: 1,0 11,0 11,6 1,6"}},
		{"a corner by its handle", "click 4,0; drag 10,6 14.2,8.1", []string{"area a1"}, []string{"Stand 1: 0,0 10,0 14,8 0,6"}},
		{"the first corner", "click 4,0; drag 0,0 -2,-1", []string{"area a1"}, []string{"Stand 1: -2,-1 10,0 10,6 0,6"}},
		{"the last corner", "click 4,0; drag 0,6 -2,7", []string{"area a1"}, []string{"Stand 1: 0,0 10,0 10,6 -2,7"}},
		{"a double click on an edge adds a corner", "double 4,0; drag 4,0 4,-3", []string{"area a1"}, []string{"Stand 1: 0,0 4,-3 10,0 10,6 0,6"}},
		{"also on the edge that closes it", "double 0,3; drag 0,3 -3,3", []string{"area a1"}, []string{"Stand 1: 0,0 10,0 10,6 0,6 -3,3"}},
		{"a double click on a corner takes it away", "double 10,6", []string{"area a1"}, []string{"Stand 1: 0,0 10,0 0,6"}},
		{"a double click inside changes nothing", "double 4,3", []string{"area a1"}, nil},
		{"arrows nudge", "click 4,3; key Right; key Up", []string{"area a1"}, []string{"Stand 1: 1,1 11,1 11,7 1,7"}},
		{"Delete", "click 4,3; key Delete", nil, []string{}},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t, empty(t))
			b.do(lot + "key Escape; click 50,50; " + c.script)
			assert.Empty(t, b.errs)
			assert.Equal(t, c.picked, refs(b))
			if c.want == nil {
				c.want = []string{lotDrawn}
			}
			assert.Equal(t, c.want, append([]string{}, drawn(b.history.Site())...))
		})
	}
}

func TestAreaGhosts(t *testing.T) {
	b := newBench(t, empty(t))
	b.do(lot + "key Escape; move 4,0")
	g := b.tool.Ghost(&b.world)
	assert.Equal(t, "Stand 1", g.Snapped)
	require.Len(t, g.Lines, 1)
	assert.Len(t, g.Lines[0].Points, 5, "all around")
	b.do("move 4,3")
	g = b.tool.Ghost(&b.world)
	assert.Equal(t, "Stand 1", g.Snapped)
	assert.Empty(t, g.Lines, "under the pointer it is named, and the drawing stays readable")
	b.do("click 4,3; hold 4,3 6,3")
	g = b.tool.Ghost(&b.world)
	require.Len(t, g.Lines, 1)
	assert.Equal(t, Moved, g.Lines[0].Kind)
	assert.Equal(t, b.place("2,0"), g.Lines[0].Points[0])
	b.do("key Escape; drop 4,3; hold 10,6 12,8")
	g = b.tool.Ghost(&b.world)
	assert.Equal(t, Moved, g.Lines[0].Kind)
	assert.Equal(t, b.place("12,8"), g.Lines[0].Points[1])
}
