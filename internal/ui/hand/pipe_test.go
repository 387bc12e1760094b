package hand

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
)

func TestDraw(t *testing.T) {
	for _, c := range []struct {
		name, script string
		want         []string
		errs         []string
	}{
		{
			name:   "click to click, ended by Return",
			script: "take P; click 0.1,0.2; click 10.2,0.3; key Return",
			want:   []string{"4 in: cap 0,0 > cap 10,0"},
		},
		{
			name:   "a corner at one of the trade's angles",
			script: "take P; click 0,0; click 10,0; click 13.2,2.9; key Return",
			want:   []string{"4 in: cap 0,0 > 10,0 > cap 12.828,2.828"},
		},
		{
			name:   "Shift frees the angle",
			script: "take P; click 0,0; click 10,0; click 13.2,1.9 shift; key Return",
			want:   []string{"4 in: cap 0,0 > 10,0 > cap 13,2"},
		},
		{
			name:   "Alt frees it of the grid too",
			script: "take P; click 0,0; click 10.25,1.125 alt; key Return",
			want:   []string{"4 in: cap 0,0 > cap 10.25,1.125"},
		},
		{
			name:   "a double click ends it",
			script: "take P; click 0,0; click 4,0; double 8,0",
			want:   []string{"4 in: cap 0,0 > 4,0 > cap 8,0"},
		},
		{
			name:   "a right click ends it",
			script: "take P; click 0,0; click 4,0; right 9,0",
			want:   []string{"4 in: cap 0,0 > cap 4,0"},
		},
		{
			name:   "a drag is a leg",
			script: "take P; drag 0,0 6,0; key Return",
			want:   []string{"4 in: cap 0,0 > cap 6,0"},
		},
		{
			name:   "typed lengths and turns",
			script: "take P; click 0,0; move 5,0; type 12; key Return; type 3.5<45; key Return; type 200cm; key Tab; type 1/4r; key Return; key Return",
			want:   []string{"4 in: cap 0,0 > 12,0 > 14.475,2.475 > cap 15.889,1.061"},
		},
		{
			name:   "a typed bearing for the first leg",
			script: "take P; click 0,0; type 7@180; key Return; key Return",
			want:   []string{"4 in: cap 0,0 > cap 0,-7"},
		},
		{
			name:   "a turn alone goes as far as the pointer",
			script: "take P; click 0,0; click 5,0; move 5.2,4.1; type <90; key KP_Enter; key Return",
			want:   []string{"4 in: cap 0,0 > 5,0 > cap 5,4"},
		},
		{
			name:   "without a way a length says nothing",
			script: "take P; click 0,0; move 0,0; type 5; key Return",
			errs:   []string{"point the way with the pointer, or type < and an angle"},
		},
		{
			name:   "what cannot be read is told and stays to be mended",
			script: "take P; click 0,0; move 3,0; type 1..2; key Return; key BackSpace; key BackSpace; key Return; key Return",
			want:   []string{"4 in: cap 0,0 > cap 1,0"},
			errs:   []string{`"1..2" is no length: write it like 12' 6", 12.5 ft or 3.2 m`},
		},
		{
			name:   "ending on a pipe joins it, and the tool is ready for the next",
			script: "take P; click 0,0; click 20,0; key Return; take O; click 20,0; take P; click 4,6; click 10.1,0.2; click 30,30; click 40,30; key Return",
			want: []string{
				"4 in: cap 0,0 > wye 10,0", "4 in: cap 30,30 > cap 40,30", "4 in: cap 4,6 > wye 10,0", "4 in: wye 10,0 > outlet 20,0",
			},
		},
		{
			name:   "drawn on from an end of a pipe like it, it is one pipe",
			script: "take P; click 0,0; click 10,0; key Return; click 10,0; click 10,5; key Return",
			want:   []string{"4 in: cap 0,0 > 10,0 > cap 10,5"},
		},
		{
			name:   "another size in the middle begins another pipe there",
			script: "take P; click 0,0; click 10,0; size 3; move 14,0; click 14,0; click 14,5; key Return",
			want:   []string{"3 in: reducer 10,0 > 14,0 > cap 14,5", "4 in: cap 0,0 > reducer 10,0"},
		},
		{
			name:   "another size before the first leg",
			script: "take P; click 0,0; size 3; move 4,0; click 4,0; key Return",
			want:   []string{"3 in: cap 0,0 > cap 4,0"},
		},
		{
			name:   "Backspace takes typed characters, then corners",
			script: "take P; click 0,0; click 10,0; click 10,6; type 12; key BackSpace; key BackSpace; key BackSpace; click 14,0; key Return",
			want:   []string{"4 in: cap 0,0 > 10,0 > cap 14,0"},
		},
		{
			name:   "Escape backs out and nothing is drawn",
			script: "take P; click 0,0; click 10,0; type 3; key Escape; key Escape; key Escape; key Escape",
		},
		{
			name:   "a letter of the kit ends the pipe first",
			script: "take P; click 0,0; click 10,0; type c",
			want:   []string{"4 in: cap 0,0 > cap 10,0"},
		},
		{
			name:   "a click at the last place is none",
			script: "take P; click 0,0; click 4,0; move 8,8; click 4,0; key Return",
			want:   []string{"4 in: cap 0,0 > cap 4,0"},
		},
		{
			name:   "what begins is no end",
			script: "take P; click 0,0; click 20,0; key Return; click 10,0; click 13.1,3.2; key Return",
			want:   []string{"4 in: cap 0,0 > wye 10,0", "4 in: wye 10,0 > cap 12.828,2.828", "4 in: wye 10,0 > cap 20,0"},
		},
		{
			name:   "off the plan",
			script: "take P; click 0,0; move 5,0; type 200000; key Return; key Escape; key Escape",
			errs:   []string{"the end would lie at 200000.0 m east, 0.0 m north of the site's origin; a site reaches 100000.0 m at most"},
		},
		{
			name:   "by the keyboard alone",
			script: "take P; move 0,0; key Insert; key Right; key Right; key Up; key Up; key Insert; key Return",
			want:   []string{"4 in: cap 0,0 > cap 2.121,2.121"},
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t, empty(t))
			b.do(c.script)
			if c.want == nil {
				c.want = []string{}
			}
			assert.Equal(t, c.want, append([]string{}, drawn(b.history.Site())...))
			assert.Equal(t, c.errs, b.errs)
		})
	}
}

// TestSecondBranchIsSaid: a pipe that is drawn to a wye, or from it, makes another
// fitting of it; that is told before the click and after it.
func TestSecondBranchIsSaid(t *testing.T) {
	b := newBench(t, empty(t))
	b.do("take P; click 0,0; click 20,0; key Return; click 10,0; click 14,4; key Return")
	assert.Empty(t, b.said, "a first branch is what it is")
	s := b.history.Site()
	require.Equal(t, network.KindJunction, s.Network.Nodes[2].Kind)
	b.do("click 14,-4; move 10,0.1")
	assert.Contains(t, b.tool.Ghost(&b.world).Snapped, ", a second branch")
	b.do("click 10,0.1")
	assert.Empty(t, b.errs)
	assert.Equal(t, network.DoubleWye, s.Network.Nodes[2].Junction.Kind)
	require.Len(t, b.said, 1)
	assert.Contains(t, b.said[0], ": two branches in one fitting now. For two fittings, undo and draw beside it.")

	b.do("undo; move 10,0")
	assert.Contains(t, b.tool.Ghost(&b.world).Snapped, ", a second branch")
	b.do("click 10,0; click 14,-4; key Return")
	assert.Empty(t, b.errs)
	assert.Equal(t, network.DoubleWye, s.Network.Nodes[2].Junction.Kind)
	assert.Len(t, b.said, 2)
	b.do("click 3,-4; move 10,0")
	assert.NotContains(t, b.tool.Ghost(&b.world).Snapped, "second", "a third is refused")
	b.do("click 10,0")
	assert.Len(t, b.errs, 1)
}

func TestDrawShowsItsFigures(t *testing.T) {
	for _, c := range []struct{ name, script, text, snapped string }{
		{"the first leg", "take P; click 0,0; move 10,0.3", "10.00 m, bearing 90°", "bearing 90°"},
		{"a turn and the whole", "take P; click 0,0; click 10,0; move 12.1,2.2", "3.00 m, bearing 45°, 1/8 bend to the left, total 13.00 m", "1/8 bend to the left"},
		{"typed", "take P; click 0,0; click 10,0; move 15,0; type 7.5<22.5r", "7.5 < 22.5r_: 7.50 m, bearing 112.5°, 1/16 bend to the right, total 17.50 m", ""},
		{"typed and not read", "take P; click 0,0; move 15,0; type 7mm7", `7mm7_: "7mm7" is no length: write it like 12' 6", 12.5 ft or 3.2 m`, "bearing 90°"},
		{"a bearing", "take P; click 0,0; move 15,0; type 7<", "7, bearing _: 7.00 m, bearing 90°", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t, empty(t))
			b.do(c.script)
			g := b.tool.Ghost(&b.world)
			assert.Equal(t, c.text, g.Texts[0].S)
			assert.Equal(t, c.snapped, g.Snapped)
			assert.Equal(t, NewPipe, g.Lines[0].Kind)
		})
	}
}

func TestEscapeBacksOutAStepAtATime(t *testing.T) {
	b := newBench(t, empty(t))
	b.do("take P; click 0,0; click 10,0; click 10,8; type 12")
	for _, want := range []int{4, 3, 2, 0} { // points of the line shown: with the one at the pointer
		b.do("key Escape")
		lines := b.tool.Ghost(&b.world).Lines
		n := 0
		if len(lines) > 0 {
			n = len(lines[0].Points)
		}
		assert.Equal(t, want, n)
		assert.Equal(t, "Pipe", b.tool.Name())
	}
	assert.False(t, b.tool.Busy())
	b.do("key Escape")
	assert.Equal(t, "Pick", b.tool.Name())
	assert.Empty(t, b.history.Site().Network.Pipes)
}

func TestDrawGoesOnAfterUndo(t *testing.T) {
	b := newBench(t, empty(t))
	b.do("take P; click 0,0; click 10,0; key Return; click 10,0; click 10,5; undo; click 15,5; key Return")
	assert.Empty(t, b.errs)
	assert.Equal(t, []string{"4 in: cap 10,0 > 10,5 > cap 15,5"}, drawn(b.history.Site()))
}

func TestLevelChangeEndsThePipe(t *testing.T) {
	s := empty(t)
	s.Network.Levels = levels
	b := newBench(t, s)
	b.do("take P; click 0,0; click 10,0; level Roof; move 12,0; click 12,0; click 15,0; key Return")
	assert.Equal(t, []string{"4 in: cap 0,0 > cap 10,0", "4 in: cap 12,0 > cap 15,0"}, drawn(b.history.Site()))
	assert.Equal(t, "Roof", s.Network.Nodes[3].Level)
}
