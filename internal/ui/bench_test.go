package ui

import (
	"testing"

	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

// BenchmarkEditToPlan measures from an edit of the flats to its plan in the window:
// findings, plan, strip, cards and the line of status, and the rest of a moment that
// the planner waits for more. To hold: 150 ms.
func BenchmarkEditToPlan(b *testing.B) {
	w := demo(b, "flats")
	spot := edit.Select(edit.SpotRef(w.desk.Site().Spots[0].ID))
	step := network.Point{X: unit.Feet(1)}
	b.ResetTimer()
	for b.Loop() {
		step.X = -step.X
		e, err := edit.Move(w.desk.Site(), spot, step)
		require.NoError(b, err)
		w.desk.Do(e)
		w.until("the plan", func() bool { p := w.desk.Planning(); return !p.Running && !p.Stale })
	}
}

// BenchmarkOpenWindow measures from nothing to a window with the welcome, laid out
// and painted. To hold: 1 s.
func BenchmarkOpenWindow(b *testing.B) {
	for b.Loop() {
		w := newBench(b)
		w.win.Canvas().Capture()
	}
}

// BenchmarkOpenSite measures from the welcome to a demo site on the board, without
// its plan.
func BenchmarkOpenSite(b *testing.B) {
	w := newBench(b)
	for b.Loop() {
		w.openDemo("flats")
		w.until("the board", func() bool { return !w.board.Painting() })
		w.win.Canvas().Capture()
	}
}
