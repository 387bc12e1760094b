// Package hand is what the user's hand does on the board: the tools, as state
// machines that know no window.
//
// The board turns what the pointer and the keyboard do into [Event] values and
// gives them to the [Tool] in hand, with the [World] as it stands. The tool
// answers with a [Reply]: an edit, a selection, another tool. What it would do
// next it shows as a [Ghost] over the drawing. A tool changes nothing itself.
//
// [Kit] lists the tools with their keys.
package hand

import (
	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/ui/aim"
	"linemap/internal/ui/view"
	"linemap/internal/unit"
)

// EventKind tells what happened.
type EventKind int

// The kinds of event. A Drag is a move with the left button down; a Move has no
// button down.
const (
	Press EventKind = iota
	Release
	Move
	Drag
	Leave
	Key  // a key that is no letter: see [Event.Key]
	Rune // a typed character
)

// Event is one thing that the pointer or the keyboard did.
type Event struct {
	Kind EventKind
	// Dot is where the pointer is on the screen, At where that is on the
	// ground.
	Dot view.Dot
	At  network.Point
	// Shift, Ctrl and Alt are the keys held down.
	Shift, Ctrl, Alt bool
	// Clicks counts the presses that follow each other quickly at one place.
	Clicks int
	// Right says that a Press or Release is of the right button.
	Right bool
	// Key is the name of a key as Fyne has it: "Return", "Escape", "BackSpace",
	// "Delete", "Left", "Tab".
	Key  string
	Rune rune
}

// World is what a tool may look at.
type World struct {
	Site  *site.Site
	Graph *network.Graph
	Index *aim.Index
	View  view.View
	// Level is the name of the level that is drawn on, "" where there are none.
	Level     string
	Selection edit.Selection
	// Style is what the next pipe is made of.
	Style edit.PipeStyle
	// Grid is the step of the grid, Snap whether the pointer is drawn to grid,
	// nodes, pipes and the trade's angles.
	Grid unit.Length
	Snap bool
}

// Reply is what a tool asks for.
type Reply struct {
	Edit   *edit.Edit
	Select *edit.Selection
	// Tool is the tool to go on with, nil for this one.
	Tool Tool
	// Err says why something did not go; it is shown, not fatal.
	Err error
	// Say says what came of a click that the user may not have meant.
	Say string
	// Ask asks for words to go with what was placed: the board opens a field
	// at Event.Dot and gives its text to Answer, which may be nil.
	Ask    string
	Answer func(text string) Reply
	// Menu asks for the menu of the selection at the pointer.
	Menu bool
	// Unused says that the tool had no use for a key, so that the window may.
	Unused bool
}

// Tool is what the pointer does.
type Tool interface {
	// Name is the name that the kit shows.
	Name() string
	// Hint says what the next click or key does, in one sentence.
	Hint(w *World) string
	// Handle takes one event.
	Handle(w *World, ev Event) Reply
	// Ghost shows what the tool would do.
	Ghost(w *World) Ghost
	// Busy reports whether there is something begun that Escape takes back.
	Busy() bool
}

// Ghost is what stands over the drawing while a tool is used. All places are on
// the ground.
type Ghost struct {
	Lines []Line
	Marks []Mark
	Texts []Text
	// Box, where set, is the frame that is being pulled open.
	Box *[2]network.Point
	// Snapped says in a word or two what the pointer was drawn to: "node CO-1".
	Snapped string
}

// Line is a line that a tool would draw.
type Line struct {
	Points []network.Point
	// Kind says what it stands for.
	Kind LineKind
}

// LineKind says what a line of a ghost stands for.
type LineKind int

// The kinds of line.
const (
	NewPipe   LineKind = iota // what a click would draw: a pipe, an edge
	Moved                     // where things would come to lie
	HosePath                  // a lay in the making
	Guideline                 // what the pointer was drawn to
	Lit                       // a thing under the pointer
)

// Mark is a spot of a ghost.
type Mark struct {
	At   network.Point
	Kind MarkKind
}

// MarkKind says what a mark of a ghost stands for.
type MarkKind int

// The kinds of mark.
const (
	Aim    MarkKind = iota // where a click would land
	Handle                 // what can be dragged
	Corner                 // a corner in the making
	Hover                  // a thing under the pointer
)

// Text is a live figure beside a place: a length, an angle.
type Text struct {
	At network.Point
	S  string
}
