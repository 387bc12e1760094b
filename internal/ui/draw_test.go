package ui

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/site"
)

// sketched says a site in lines: every node, pipe, spot, water point, lay and note,
// by its place in feet.
func sketched(s *site.Site) []string {
	at := func(p network.Point) string {
		whole := func(f float64) float64 { return math.Round(f*10)/10 + 0 }
		return fmt.Sprintf("%v,%v", whole(p.X.Feet()), whole(p.Y.Feet()))
	}
	var all []string
	add := func(words ...string) {
		all = append(all, strings.Join(slices.DeleteFunc(words, func(w string) bool { return w == "" }), " "))
	}
	nodes := map[network.NodeID]*network.Node{}
	line := func(ps []network.Point) (words string) {
		for _, p := range ps {
			words += " " + at(p)
		}
		return words
	}
	for i := range s.Network.Nodes {
		n := &s.Network.Nodes[i]
		nodes[n.ID] = n
		more := ""
		switch {
		case n.Access != nil:
			more = string(n.Access.Kind)
		case n.Junction != nil:
			more = string(n.Junction.Kind)
		}
		add(string(n.Kind), more, at(n.At), n.Level)
	}
	for _, p := range s.Network.Pipes {
		from, to := nodes[p.From], nodes[p.To]
		add("pipe", at(from.At), from.Level+line(p.Via), "->", at(to.At), to.Level)
	}
	for _, v := range s.Spots {
		add("spot", at(v.At))
	}
	for _, v := range s.Water {
		add(string(v.Kind), at(v.At))
	}
	for _, v := range s.Lays {
		to := ""
		if n := nodes[v.Access]; n != nil {
			to = at(n.At)
		}
		add("lay"+line(v.Via), "->", to)
	}
	for _, v := range s.Notes {
		add("note", at(v.At), v.Level, v.Text)
	}
	slices.Sort(all)
	return all
}

// TestDrawABuilding draws a building of two floors with mouse and keyboard alone.
func TestDrawABuilding(t *testing.T) {
	b := empty(t)
	first := b.bytes()

	b.command("Levels…")
	for _, name := range []string{"Cellar", "Hall"} {
		b.win.Canvas().Focus(b.entryFor("Name of another level"))
		b.typed(name)
		b.key(fyne.KeyReturn)
	}
	b.win.Canvas().Focus(b.entry(3)) // the height of the hall
	b.typed("10")
	b.key(fyne.KeyReturn)
	b.press("Done")
	assert.Equal(t, "Cellar", b.desk.Level())
	b.board.Focus()

	// The main: a length is typed, Return ends it.
	b.typed("p")
	b.click(ft(-50, 0))
	b.move(ft(0, 0))
	b.typed("80")
	b.key(fyne.KeyReturn, fyne.KeyReturn)
	b.typed("o")
	b.click(ft(30, 0))

	// A branch drawn by dragging its first leg; it ends on the main at a slant.
	b.typed("p")
	b.drag(ft(-40, 30), ft(-40, 20))
	b.click(ft(-20, 0))

	// Another from below, with feet and inches and a turn that are typed.
	b.click(ft(-10, -20))
	b.move(ft(-10, -15))
	b.typed("10 0")
	b.key(fyne.KeyReturn)
	b.typed("14.1421<45r") // the root of 200: it ends on the main
	b.key(fyne.KeyReturn)

	// Openings and fixtures, on the ends and in the line.
	b.typed("c")
	b.click(ft(10, 0))
	b.typed("u")
	b.click(ft(-40, 25))
	b.typed("f")
	b.click(ft(-40, 30))
	b.click(ft(-10, -20))

	// On the ground.
	b.typed("s")
	b.click(ft(10, -30))
	b.typed("h")
	b.click(ft(30, -30))
	b.typed("l")
	b.click(ft(10, -30))
	b.click(ft(20, -20))
	b.click(ft(10, 0))
	b.typed("n")
	b.click(ft(-60, 30))
	b.typed("Dog in the yard")
	b.key(fyne.KeyReturn)

	// A stack to the hall, and a branch that falls into it there.
	b.typed("z")
	b.click(ft(-50, 0))
	b.key(fyne.KeyEscape)
	b.command("Level above")
	assert.Equal(t, "Hall", b.desk.Level())
	b.typed("p")
	b.click(ft(-50, 20))
	b.click(ft(-50, 0))
	b.typed("f")
	b.click(ft(-50, 20))

	assert.Equal(t, []string{
		"access cleanout_one_way -40,25 Cellar",
		"access cleanout_two_way 10,0 Cellar",
		"bend -50,0 Cellar", // the foot of the stack
		"bend -50,0 Hall",
		"fixture -10,-20 Cellar",
		"fixture -40,30 Cellar",
		"fixture -50,20 Hall",
		"hydrant 30,-30",
		"junction wye -20,0 Cellar",
		"junction wye 0,0 Cellar",
		"lay 20,-20 -> 10,0",
		"note -60,30 Cellar Dog in the yard",
		"outlet 30,0 Cellar",
		"pipe -10,-20 Cellar -10,-10 -> 0,0 Cellar",
		"pipe -20,0 Cellar -> 0,0 Cellar",
		"pipe -40,25 Cellar -40,20 -> -20,0 Cellar",
		"pipe -40,30 Cellar -> -40,25 Cellar",
		"pipe -50,0 Cellar -> -20,0 Cellar",
		"pipe -50,0 Hall -> -50,0 Cellar",
		"pipe -50,20 Hall -> -50,0 Hall",
		"pipe 0,0 Cellar -> 10,0 Cellar",
		"pipe 10,0 Cellar -> 30,0 Cellar",
		"spot 10,-30",
	}, sketched(b.desk.Site()))

	b.rest()
	p := b.desk.Planning()
	require.NoError(t, p.Err)
	require.NotNil(t, p.Plan)
	assert.False(t, p.Stale)
	assert.NotEmpty(t, p.Plan.Runs())
	assert.Contains(t, b.status.plan.Text, "run")

	last := b.bytes()
	steps := 0
	for b.desk.NextUndo() != "" {
		b.command("Undo")
		steps++
	}
	assert.Equal(t, first, b.bytes(), "all undone")
	for b.desk.NextRedo() != "" {
		b.command("Redo")
		steps--
	}
	assert.Zero(t, steps)
	assert.Equal(t, last, b.bytes(), "all done again")
}
