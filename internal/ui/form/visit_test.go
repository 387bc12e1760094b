package form

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/export"
	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// visiting opens the form of the visits on the restaurant, planned and with no
// visit yet.
func visiting(t *testing.T) (*bench, fyne.Window, *visits) {
	t.Helper()
	w := windowOf(t)
	b := newBench(t, "restaurant")
	b.Site().Visits = nil
	b.planned()
	v := newVisits(b.Desk, nil)
	open(b.Desk, w, "Results of a visit", fyne.NewSize(860, 620), v.content, v)
	return b, w, v
}

func typeDay(t *testing.T, w fyne.Window, v *visits, date string) {
	t.Helper()
	retype2(w, v.day, date)
	press(t, w, "Add a visit")
}

// retype2 types in place of what an ordinary entry holds.
func retype2(w fyne.Window, e *widget.Entry, text string) {
	w.Canvas().Focus(e)
	e.SetText("")
	test.Type(e, text)
}

// TestResultsOfAVisit fills the blanks of two runs in and takes it all back.
func TestResultsOfAVisit(t *testing.T) {
	b, w, v := visiting(t)
	typeDay(t, w, v, "2026-02-30")
	assert.True(t, v.wrong.Visible())
	assert.Contains(t, v.wrong.Text, "a day of the calendar")
	typeDay(t, w, v, "2026-03-17")
	require.Len(t, b.Site().Visits, 1)
	assert.False(t, v.wrong.Visible())

	plan := b.Planning().Plan
	first, block := &plan.Blocks[0].Runs[0], &plan.Blocks[0]
	assert.Contains(t, typeIn(t, w, "Found", "sand"), "write first how far the hose went")
	assert.Empty(t, b.Site().Visits[0].Runs)
	assert.Contains(t, typeIn(t, w, "Counter reached", "-1"), "too little")
	assert.Contains(t, typeIn(t, w, "Counter reached", "1000 ft"), "too much: the hose has 300 ft")
	assert.Empty(t, typeIn(t, w, "Counter reached", "20 ft"))
	assert.Empty(t, typeIn(t, w, "Found", "sand"))
	assert.Empty(t, typeIn(t, w, "Time", "1 h 5 min"))
	assert.Empty(t, typeIn(t, w, "Passes made", "2"))
	assert.Empty(t, typeIn(t, w, "Photos", "photos/a.jpg;b.png; "))
	assert.Contains(t, typeIn(t, w, "Photos", "../a.jpg"), "a path inside the folder")
	choose(t, w, "Deposit", "Grease")
	choose(t, w, "How bad", "Heavy")
	choose(t, w, "State of the pipe", "To be repaired")
	require.Len(t, b.Site().Visits[0].Runs, 1)
	want := first.Result(block, unit.Feet(20))
	want.Found, want.Minutes, want.Passes, want.Photos = "sand", 65*time.Minute, 2, []string{"photos/a.jpg", "b.png"}
	want.Deposit, want.Severity, want.Condition = network.Grease, network.Heavy, site.RepairCondition
	assert.Equal(t, want, b.Site().Visits[0].Runs[0])
	choose(t, w, "Deposit", nobodySaid)
	assert.Empty(t, b.Site().Visits[0].Runs[0].Deposit)

	v.runs.OnSelected(1)
	assert.Equal(t, v.keys[0], v.at, "what is wrong holds the run")
	assert.Empty(t, typeIn(t, w, "Photos", "photos/a.jpg;b.png"))
	v.runs.OnSelected(1)
	assert.Equal(t, v.keys[1], v.at)
	assert.Empty(t, typeIn(t, w, "Counter reached", "0"))
	require.Len(t, b.Site().Visits[0].Runs, 2)
	assert.Zero(t, b.Site().Visits[0].Runs[1].Reached)
	assert.Contains(t, v.line(v.keys[1]), "not made")
	assert.Contains(t, v.line(v.keys[0]), "20 ft 0 in of")
	assert.Contains(t, v.line(v.keys[2]), "–")

	for b.NextUndo() != "" {
		b.Undo()
	}
	assert.Empty(t, b.Site().Visits)
	for b.NextRedo() != "" {
		b.Redo()
	}
	require.Len(t, b.Site().Visits[0].Runs, 2)
	press(t, w, "Remove")
	assert.Empty(t, b.Site().Visits)
	inputs, _ := rowsSeen(w)
	assert.Empty(t, inputs, "nothing to fill in without a visit")
}

// TestVisitsOfAnotherPlan keeps results of runs that the plan does not have.
func TestVisitsOfAnotherPlan(t *testing.T) {
	b, w, v := visiting(t)
	old := site.RunResult{
		Run: site.RunKey{Spot: "gone", Hose: "gone", Access: "gone", End: "gone"}, Number: 7, Planned: unit.Feet(50), Reached: unit.Feet(50),
		Pipes: []site.PipeResult{{Pipe: "gone", Length: unit.Feet(9), Cleaned: unit.Feet(9)}},
	}
	b.Site().Visits = []site.Visit{{Date: "2025-03-17", Runs: []site.RunResult{old}}}
	v.turn("2025-03-17", old.Run)
	assert.Equal(t, old.Run, v.keys[len(v.keys)-1])
	assert.Empty(t, typeIn(t, w, "Found", "sand"))
	old.Found = "sand"
	assert.Equal(t, old, b.Site().Visits[0].Runs[0])
	assert.Empty(t, typeIn(t, w, "Counter reached", "0"))
	assert.Zero(t, b.Site().Visits[0].Runs[0].Pipes[0].Cleaned, "a run that was not made cleaned nothing")
}

// TestResultsFromATable takes a filled-in table in as one step, and says what is
// wrong with one.
func TestResultsFromATable(t *testing.T) {
	b, _, v := visiting(t)
	v.day.SetText("2026-03-17")
	plan := b.Planning().Plan
	table, err := export.ResultsCSV(b.Site(), b.Tables(), plan, export.Options{})
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), "results.csv")
	fill := func(reached string) {
		filled := bytes.Replace(table, []byte(",,,,,,,,,,"), []byte(","+reached+",sand,,,,,,,,"), 1)
		require.NoError(t, os.WriteFile(path, filled, 0o600))
		v.table(path)
	}
	fill("far")
	assert.Contains(t, v.wrong.Text, "line 2, column reached_ft: found \"far\"")
	assert.Empty(t, b.Site().Visits)
	fill("12")
	assert.Empty(t, v.wrong.Text)
	require.Len(t, b.Site().Visits, 1)
	require.Len(t, b.Site().Visits[0].Runs, 1)
	assert.Equal(t, "sand", b.Site().Visits[0].Runs[0].Found)
	assert.Equal(t, "2026-03-17", v.date)
	b.Undo()
	assert.Empty(t, b.Site().Visits)
	v.table("none.csv")
	assert.Contains(t, v.wrong.Text, "none.csv")
}

// TestPlaceOnEarth writes a place with all its digits, and forgets it.
func TestPlaceOnEarth(t *testing.T) {
	w := windowOf(t)
	b := newBench(t, "restaurant")
	EarthForm(b.Desk, w)
	assert.Empty(t, typeIn(t, w, "Latitude", "41.878113"))
	assert.Empty(t, typeIn(t, w, "Longitude", "-87.629799"))
	assert.Empty(t, typeIn(t, w, "Up on the plan is", "30"))
	assert.Contains(t, typeIn(t, w, "Latitude", "95"), "too much")
	require.NotNil(t, b.Site().Geo)
	assert.InDelta(t, 41.878113, b.Site().Geo.Latitude.Degrees(), 1e-9)
	assert.InDelta(t, -87.629799, b.Site().Geo.Longitude.Degrees(), 1e-9)
	assert.InDelta(t, 30, b.Site().Geo.Bearing.Degrees(), 1e-9)
	press(t, w, "Not known")
	assert.Nil(t, b.Site().Geo)
	b.Undo()
	assert.NotNil(t, b.Site().Geo)
}
