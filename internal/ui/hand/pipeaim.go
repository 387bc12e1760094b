package hand

import (
	"fmt"
	"math"
	"strings"

	"linemap/internal/network"
	"linemap/internal/site/edit"
	"linemap/internal/ui/aim"
	"linemap/internal/unit"
)

// bends is what the angle of the next leg is counted from: the leg before, else
// what the pipe began at; nil for north.
func (t *Draw) bends() *aim.Way {
	if n := len(t.points); n > 1 {
		if h, ok := aim.Along(t.points[n-2], t.points[n-1]); ok {
			return &aim.Way{Heading: h}
		}
	}
	return t.way
}

// bears reports whether a typed angle is a bearing, for want of a leg to turn
// from.
func (t *Draw) bears() bool { return t.bends() == nil }

// sight is what draws the pointer while a pipe is drawn. What the pipe begins at
// does not: it would end where it begins.
func (t *Draw) sight(w *World) aim.Sight {
	s := t.pointer.sight(w)
	if t.Busy() {
		last := t.last()
		s.From, s.Way = &last, t.bends()
		s.Skip = func(r edit.Ref) bool {
			return r.Kind == edit.Node && r.ID == string(t.from.Node) || r.Kind == edit.Pipe && r.ID == string(t.from.Pipe)
		}
	}
	return s
}

// target is where a click or Return would draw to.
func (t *Draw) target(w *World) (aim.Aim, error) {
	s := t.sight(w)
	a := w.Index.Snap(s)
	if !t.Busy() || t.typed.empty() {
		return a, nil
	}
	h, err := t.heading(a)
	if err != nil {
		return a, err
	}
	var away unit.Length
	if t.typed.length != "" {
		away, err = typedLength(t.typed.length, w.Site.Units)
	} else {
		away = t.reach(w, h)
	}
	if err != nil {
		return a, err
	}
	at := h.To(t.last(), away)
	return aim.Aim{Anchor: w.Index.Joined(at, w.Level, s.Skip)}, nil
}

// heading is the way of the next leg: as typed, else to where the pointer is
// drawn to, else straight on.
func (t *Draw) heading(a aim.Aim) (aim.Heading, error) {
	way := t.bends()
	if t.typed.turn != "" && way == nil {
		return typedBearing(t.typed.turn)
	}
	if t.typed.turn != "" {
		turn, err := typedTurn(t.typed.turn)
		return way.Heading.Left(turn), err
	}
	if h, ok := aim.Along(t.last(), a.At()); ok {
		return h, nil
	}
	if way == nil {
		return 0, errNoWay
	}
	return way.Heading, nil
}

// reach is the length of a leg whose angle alone was typed: to beside the
// pointer, at least one step of the grid.
func (t *Draw) reach(w *World, h aim.Heading) unit.Length {
	step := w.Grid
	if !(step > 0) {
		step = near * w.View.PerPixel()
	}
	sin, cos := math.Sincos(float64(h))
	last := t.last()
	ahead := (t.at.X-last.X)*unit.Length(cos) + (t.at.Y-last.Y)*unit.Length(sin)
	return max(1, unit.Length(math.Round(float64(ahead/step)))) * step
}

// Ghost shows the pipe as a click would draw it, with its figures.
func (t *Draw) Ghost(w *World) Ghost {
	var g Ghost
	if !t.in && t.typed.empty() {
		if t.Busy() {
			g.Lines = []Line{{t.points, NewPipe}}
		}
		return g
	}
	a, err := t.target(w)
	if !t.Busy() {
		g.show(w, a)
		g.Snapped += secondBranch(w, a.Anchor)
		return g
	}
	line := append(append([]network.Point{}, t.points...), a.At())
	g.Lines = append(g.Lines, Line{line, NewPipe})
	for _, p := range t.points {
		g.Marks = append(g.Marks, Mark{p, Corner})
	}
	g.show(w, a)
	g.Snapped += secondBranch(w, a.Anchor)
	g.Texts = []Text{{a.At(), t.figures(w, line)}}
	if err != nil {
		g.Texts[0].S = t.asTyped() + err.Error()
	}
	return g
}

// figures tells the length and the way of the leg that is being drawn, and what
// was typed of it.
func (t *Draw) figures(w *World, line []network.Point) string {
	n := len(line)
	words := []string{w.Site.Units.Footage(line[n-2].Distance(line[n-1]))}
	if h, ok := aim.Along(line[n-2], line[n-1]); ok {
		words = append(words, aim.BearingWords(h))
		if way := t.bends(); way != nil {
			words = append(words, way.Words(h))
		}
	}
	if n > 2 {
		words = append(words, "total "+w.Site.Units.Footage(network.WayLength(line)))
	}
	return t.asTyped() + strings.Join(words, ", ")
}

// asTyped repeats what was typed.
func (t *Draw) asTyped() string {
	switch {
	case t.typed.empty():
		return ""
	case t.typed.turning && t.bears():
		return fmt.Sprintf("%s, bearing %s_: ", t.typed.length, t.typed.turn)
	case t.typed.turning:
		return fmt.Sprintf("%s < %s_: ", t.typed.length, t.typed.turn)
	}
	return t.typed.length + "_: "
}
