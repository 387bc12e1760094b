package hand

import (
	"linemap/internal/network"
	"linemap/internal/ui/aim"
)

// Tape measures on the plan.
type Tape struct {
	pointer
	points []network.Point
	// done says that the next click begins anew.
	done bool
}

// NewTape returns the tool that measures.
func NewTape() *Tape { return &Tape{} }

// Name is the name that the kit shows.
func (t *Tape) Name() string { return "Tape" }

// Busy reports whether a measurement is begun or shown.
func (t *Tape) Busy() bool { return len(t.points) > 0 }

// Hint says what the next click does.
func (t *Tape) Hint(*World) string {
	switch {
	case t.done:
		return "Click to measure anew. Escape takes the figures away."
	case t.Busy():
		return "Click the next place. Return or a double click ends the measurement."
	}
	return "Click the place to measure from. Nothing is changed."
}

// Handle takes one event.
func (t *Tape) Handle(w *World, ev Event) Reply {
	ev, used := t.follow(w, ev)
	switch {
	case used:
	case ev.Kind == Press && (ev.Right || ev.Clicks > 1):
		t.done = t.Busy()
	case ev.Kind == Press:
		if t.done {
			t.points, t.done = nil, false
		}
		t.points = append(t.points, w.Index.Snap(t.sight(w)).At())
	case ev.Kind == Key && ev.Key == "Escape" && !t.Busy():
		return Reply{Tool: NewPick()}
	case ev.Kind == Key && ev.Key == "Escape" && t.done:
		t.points, t.done = nil, false
	case ev.Kind == Key && t.Busy() && (ev.Key == "Escape" || ev.Key == "BackSpace"):
		t.points, t.done = t.points[:len(t.points)-1], false
	case ev.Kind == Key && enters(ev) && t.Busy():
		t.done = true
	case ev.Kind == Key, ev.Kind == Rune:
		return Reply{Unused: true}
	}
	return Reply{}
}

// Ghost shows the places with the lengths between them and the whole length.
func (t *Tape) Ghost(w *World) Ghost {
	var g Ghost
	line := append([]network.Point{}, t.points...)
	if t.in && !t.done {
		a := w.Index.Snap(t.sight(w))
		g.show(w, a)
		line = append(line, a.At())
	}
	if len(line) < 2 {
		return g
	}
	g.Lines = append(g.Lines, Line{line, Guideline})
	for i, p := range line {
		g.Marks = append(g.Marks, Mark{p, Corner})
		if i > 0 && i < len(line)-1 {
			g.Texts = append(g.Texts, Text{p, w.Site.Units.Footage(line[i-1].Distance(p))})
		}
	}
	n := len(line)
	s := w.Site.Units.Footage(line[n-2].Distance(line[n-1]))
	if h, ok := aim.Along(line[n-2], line[n-1]); ok {
		s += ", " + aim.BearingWords(h)
	}
	if n > 2 {
		s += ", total " + w.Site.Units.Footage(network.WayLength(line))
	}
	g.Texts = append(g.Texts, Text{line[n-1], s})
	return g
}
