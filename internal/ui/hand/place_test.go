package hand

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"linemap/internal/network"
	"linemap/internal/site"
)

var levels = []network.Level{{Name: "Ground"}, {Name: "Roof", Elevation: 9}}

func TestPlace(t *testing.T) {
	main := "take P; click 0,0; click 20,0; key Return; "
	for _, c := range []struct {
		name, script string
		want, errs   []string
	}{
		{name: "a cleanout in line", script: main + "take C; click 8,0.2", want: []string{"4 in: cap 0,0 > cleanout CO-1 8,0", "4 in: cleanout CO-1 8,0 > cap 20,0"}},
		{name: "an outlet at an end, a fixture at the other", script: main + "take O; click 20,0; take F; click 0,0", want: []string{"4 in: fixture 0,0 > outlet 20,0"}},
		{name: "a manhole alone, on the grid", script: "take M; click 3.2,4.1", want: []string{"manhole MH-1 3,4"}},
		{name: "it stays in hand", script: "take S; click 1,1; click 5,1", want: []string{"Spot 1 1,1", "Spot 2 5,1"}},
		{name: "a double click places one", script: "take S; double 1,1", want: []string{"Spot 1 1,1"}},
		{name: "Return places", script: "take H; move 2,2; key Return", want: []string{"HYD-1 2,2"}},
		{name: "a spot is not drawn to pipe", script: main + "take S; click 8,0.7", want: []string{"4 in: cap 0,0 > cap 20,0", "Spot 1 8,1"}},
		{name: "a note asks", script: "take N; click 2,3; answer mind the dog", want: []string{`note "mind the dog" 2,3`}},
		{name: "a note that says nothing is none", script: "take N; click 2,3; answer  ", want: []string{}},
		{
			name: "a place that does not suit is told", script: main + "take O; click 8,0.2",
			want: []string{"4 in: cap 0,0 > cap 20,0"},
			errs: []string{"an outlet ends a pipe: place it at a free end, or beside the pipe and draw one to it"},
		},
		{name: "Escape puts the pick in hand", script: "take S; key Escape; click 1,1", want: []string{}},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t, empty(t))
			b.do(c.script)
			assert.Equal(t, c.want, append([]string{}, drawn(b.history.Site())...))
			assert.Equal(t, c.errs, b.errs)
		})
	}
}

func TestStack(t *testing.T) {
	s := empty(t)
	s.Network.Levels = levels
	b := newBench(t, s)
	b.do("take P; click 0,0; click 10,0; key Return; take Z; click 10,0")
	assert.Empty(t, b.errs)
	assert.Equal(t, []string{"4 in: cap 0,0 > bend 10,0", "4 in: cap 10,0 > bend 10,0"}, drawn(s))
	b.tool = NewStack("Attic")
	b.do("click 3,3")
	assert.Len(t, b.errs, 1)
}

func TestLay(t *testing.T) {
	setUp := "take S; click 0,0; take H; click 0,8; take C; click 10,0; "
	for _, c := range []struct {
		name, script string
		want, errs   []string
	}{
		{name: "round a corner to an opening", script: setUp + "take L; click 0,0; click 4,3; click 10,0", want: []string{"lay: 0,0 4,3 10,0"}},
		{name: "to a water point", script: setUp + "take L; click 0,0; click 3,4; click 0,8", want: []string{"lay: 0,0 3,4 0,8"}},
		{name: "straight needs none", script: setUp + "take L; click 0,0; click 10,0"},
		{name: "it begins at a spot", script: setUp + "take L; click 10,0", errs: []string{errNoSpot.Error()}},
		{name: "it ends at an opening", script: setUp + "take L; click 0,0; click 4,3; key Return", errs: []string{errNoEnd.Error()}},
		{name: "Escape", script: setUp + "take L; click 0,0; click 4,3; key Escape; key Escape; key Escape"},
		{name: "Backspace", script: setUp + "take L; click 0,0; click 4,3; key BackSpace; click 4,-3; click 10,0", want: []string{"lay: 0,0 4,-3 10,0"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t, empty(t))
			b.do(c.script)
			assert.Equal(t, append([]string{"HYD-1 0,8", "Spot 1 0,0", "cleanout CO-1 10,0"}, c.want...), drawn(b.history.Site()))
			assert.Equal(t, c.errs, b.errs)
		})
	}
	b := newBench(t, empty(t))
	b.do(setUp + "take L; click 0,0; move 3,4")
	g := b.tool.Ghost(&b.world)
	assert.Equal(t, "5.00 m of hose on the ground", g.Texts[0].S)
	assert.Equal(t, HosePath, g.Lines[0].Kind)
}

func TestTape(t *testing.T) {
	b := newBench(t, empty(t))
	b.do("take G; click 0,0; click 3,4; move 3,10")
	g := b.tool.Ghost(&b.world)
	assert.Equal(t, []string{"5.00 m", "6.00 m, bearing 0°, total 11.00 m"}, []string{g.Texts[0].S, g.Texts[1].S})
	b.do("key Return; move 50,50")
	g = b.tool.Ghost(&b.world)
	assert.Equal(t, "5.00 m, bearing 36.9°", g.Texts[0].S)
	b.do("click 1,1; move 2,1")
	assert.Len(t, b.tool.Ghost(&b.world).Lines[0].Points, 2, "begun anew")
	assert.Empty(t, b.errs)
	assert.Empty(t, b.history.NextUndo())
}

func TestScale(t *testing.T) {
	s := empty(t)
	s.Underlays = []site.Underlay{{ID: "u1", At: network.Point{X: 10, Y: 0}, Scale: 0.01, File: "plan.png", Locked: true}}
	b := newBench(t, s)
	b.do("take Y; click 2,0; click 6,0; answer 8 m")
	assert.Empty(t, b.errs)
	u := s.Underlays[0]
	assert.InDelta(t, 0.02, u.Scale.Metres(), 1e-12)
	assert.InDelta(t, 18, u.At.X.Metres(), 1e-9, "the first place stays where it is")
	assert.Equal(t, "Pick", b.tool.Name())
	assert.Equal(t, "scale picture", b.history.NextUndo())

	b.do("take Y; click 2,0; click 2,0; click 6,0; answer nonsense")
	assert.Len(t, b.errs, 2, "%v", b.errs)
	assert.InDelta(t, 0.02, s.Underlays[0].Scale.Metres(), 1e-12)

	b = newBench(t, empty(t))
	b.do("take Y; click 2,0")
	assert.Equal(t, []string{errNoPicture.Error()}, b.errs)
}

func TestKit(t *testing.T) {
	keys, names := map[string]bool{}, map[string]bool{}
	for _, e := range Kit() {
		assert.False(t, keys[e.Key], "two tools have the key %s", e.Key)
		assert.False(t, names[e.Name], "two tools are called %s", e.Name)
		keys[e.Key], names[e.Name] = true, true
		assert.Len(t, e.Key, 1)
		assert.Equal(t, e.Name, e.New().Name())
		assert.NotEmpty(t, e.Group)
		b := newBench(t, empty(t))
		b.tool = e.New()
		assert.NotEmpty(t, b.tool.Hint(&b.world))
		assert.False(t, b.tool.Busy())
	}
	assert.True(t, names[StackName])
}

func TestGhostLightsUpWhatAClickWouldJoin(t *testing.T) {
	b := newBench(t, empty(t))
	b.do("take P; click 0,0; click 10,0; key Return; take C; move 4,0.2")
	g := b.tool.Ghost(&b.world)
	assert.Equal(t, []Line{{[]network.Point{{}, {X: 10}}, Lit}}, g.Lines)
	assert.Equal(t, []Mark{{network.Point{X: 4}, Aim}}, g.Marks)
	assert.Equal(t, "cleanout", g.Texts[0].S)
	b.do("move 10,0.2")
	assert.Equal(t, []Mark{{network.Point{X: 10}, Hover}, {network.Point{X: 10}, Aim}}, b.tool.Ghost(&b.world).Marks)
	ev := b.event(Leave, network.Point{})
	b.give(ev)
	assert.Empty(t, b.tool.Ghost(&b.world).Marks)
}

func TestSnapOff(t *testing.T) {
	b := newBench(t, empty(t))
	b.do("take P; click 0,0; click 10,0; key Return")
	b.world.Snap = false
	b.do("click 4.3,4.1; click 5.2,2.4; click 6.1,0.1") // what lies right under the pointer is joined
	assert.Equal(t, []string{
		"4 in: cap 0,0 > combination 6.1,0", "4 in: cap 4.3,4.1 > 5.2,2.4 > combination 6.1,0", "4 in: combination 6.1,0 > cap 10,0",
	}, drawn(b.history.Site()))
}
