package ui

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/site"
)

func (b *bench) runs() []site.RunKey { return b.desk.Planning().Plan.Keys() }

// ordered opens the menu of a run and takes an entry of it, on a fresh demo.
func ordered(t *testing.T, run int, entry string) (b *bench, was []site.RunKey) {
	b = demo(t, "restaurant")
	was = b.runs()
	require.Greater(t, len(was), 2)
	b.runMenu(run, fyne.NewPos(300, 300))
	b.choose(entry)
	assert.Nil(t, b.dialog(), "the menu is gone")
	return b, was
}

func TestRunMenu(t *testing.T) {
	b, was := ordered(t, 1, "Keep this run")
	assert.Equal(t, was[:1], b.desk.Site().ByHand.Keep)
	b.runMenu(1, fyne.NewPos(300, 300))
	assert.Nil(t, b.dialog(), "not while the plan is of an older sketch")
	b.rest()
	assert.Contains(t, b.runs(), was[0])
	b.runMenu(1, fyne.NewPos(300, 300))
	b.choose("Let the planner decide on this run")
	assert.True(t, b.desk.Site().ByHand.IsZero())

	b, was = ordered(t, 1, "Never make this run")
	b.rest()
	assert.Equal(t, was[:1], b.desk.Site().ByHand.Bar)
	assert.NotContains(t, b.runs(), was[0])
	b.handReport()
	assert.NotContains(t, b.dialogText(), "The planner decided everything.")
	b.press("Close")
	b.command("Undo")
	b.rest()
	assert.Equal(t, was, b.runs())

	n := len(was)
	for _, c := range []struct {
		run   int
		entry string
		at    int // where the run comes to stand
	}{
		{2, "One earlier", 0}, {2, "One later", 2}, {n, "First of all", 0}, {1, "Last of all", n - 1}, {1, "One earlier", 0},
	} {
		b, was := ordered(t, c.run, c.entry)
		assert.Equal(t, c.at, slices.Index(b.desk.Site().ByHand.Order, was[c.run-1]), c.entry)
		assert.Len(t, b.desk.Site().ByHand.Order, n)
		b.rest()
		require.NoError(t, b.desk.Planning().Err)
	}

	b, _ = ordered(t, 1, "Show it on the board")
	for _, leg := range b.desk.Planning().Plan.Runs()[0].Path {
		p, _ := b.desk.Graph().PipeIndex(leg.Pipe)
		for _, at := range b.desk.Graph().Polyline(p) {
			sees(t, b, at, true)
		}
	}
	b.runMenu(n+7, fyne.NewPos(300, 300))
	assert.Nil(t, b.dialog(), "no such run")
}

// The marker of the day moves the hose on the board, and says how far it is in.
func TestPlayedDay(t *testing.T) {
	b := demo(t, "restaurant")
	p := b.desk.Planning().Plan
	seen := false
	for t := b.day.replay.Ends() / 200; t < b.day.replay.Ends(); t += b.day.replay.Ends() / 200 {
		b.strip.SetTime(t)
		if m := b.day.replay.At(t); m.Run > 0 && len(m.Hose) > 0 {
			seen = true
			assert.Contains(b.t, b.day.readout.Text, b.units().Footage(m.Reading)+" of hose")
		}
		assert.Contains(b.t, b.day.readout.Text, "Tank ")
	}
	assert.True(t, seen, "some time a hose is in the drain")
	require.NotNil(t, p)
	b.undo()
	b.selectAll()
	b.delete()
	b.rest()
	assert.Empty(t, b.day.readout.Text)
}
