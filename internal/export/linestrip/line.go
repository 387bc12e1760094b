package linestrip

import (
	"linemap/internal/export/drawing"
	"linemap/internal/unit"
)

// Line is a run, or the part of it that a page holds.
type Line struct {
	// From is the reading at which the strip begins, 0 at the reel; End the
	// reading at which it ends. Far says that the run ends there too.
	From, End unit.Length
	Far       bool
	// Lay is the reading at the opening.
	Lay unit.Length
	// Pipes lie on the way in order.
	Pipes []Pipe
	// Near are the readings at which a fixture near enough to blow back joins,
	// Warn those at which the crew must take care.
	Near, Warn []unit.Length
	// Step is the distance of the ticks of the scale.
	Step unit.Length
}

// Pipe is a pipe of the way.
type Pipe struct {
	From, To unit.Length // readings at its ends
	Pen      drawing.Pen // as on the map
	Cleaned  bool
	Hatch    Hatch
}

// Hatch shows what lies in a pipe: strokes so many millimetres apart, crosses
// for roots; none at a distance of 0.
type Hatch struct {
	Every float64
	Cross bool
}

// Kind is what is at a mark.
type Kind int

// The kinds of mark: the opening, a fitting, a branch that a locator must
// confirm, the start of a pipe, the place of the nozzle when the warning mark
// comes out, the far end.
const (
	Opening Kind = iota
	Fitting
	Confirm
	Joint
	StopMark
	FarEnd
)

// Stop is a mark of the strip and its row: the height of the row's middle line,
// and where its words begin.
type Stop struct {
	Kind Kind
	At   unit.Length
	Row  float64
	X    float64
}

// Places across the strip, in millimetres from its left edge: the rail, where
// fixtures and warnings are marked, where leaders leave the rail and where they
// have come to the height of their row.
const (
	RailX     = 6.5
	sideX     = 1.9
	leaveX    = RailX + 2.7
	LeaderEnd = 15.0
)

// pad is the blank above and below the rail.
const pad = 2.4

// Frame puts a strip on a page, its top left corner at x, y.
func Frame(x, y float64) drawing.Frame {
	return drawing.Frame{Paper: drawing.Point{X: x, Y: y}, Scale: 1}
}

// At is a place of a strip, in millimetres right and down.
func At(x, y float64) drawing.Point { return drawing.Point{X: x, Y: -y} }
