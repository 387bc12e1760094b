package hand

import (
	"linemap/internal/network"
	"linemap/internal/site/edit"
)

// Ghost shows what is under the pointer, the frame, or where things would go.
func (t *Pick) Ghost(w *World) Ghost {
	var g Ghost
	switch t.doing {
	case boxing:
		a, b := t.press.At, t.at
		g.Box = &[2]network.Point{a, b}
		g.Snapped = "what lies inside"
		if t.crosses() {
			frame := []network.Point{a, {X: b.X, Y: a.Y}, b, {X: a.X, Y: b.Y}, a}
			g.Lines = []Line{{frame, Guideline}}
			g.Snapped = "what the frame touches"
		}
		return g
	case carrying:
		t.load.ghost(w, &t.pointer, &g)
		return g
	case bending:
		t.bend.ghost(w, &t.pointer, &g)
		return g
	}
	t.handles(w, &g)
	if t.in {
		t.hover(w, &g)
	}
	return g
}

// handles marks what can be dragged: the middle of pictures, and the corners of
// selected lays and areas. Those of pipes are part of their selection.
func (t *Pick) handles(w *World, g *Ghost) {
	for i := range w.Site.Underlays {
		u := &w.Site.Underlays[i]
		if !u.Locked && !u.Hidden && (u.Level == w.Level || u.Level == "") {
			g.Marks = append(g.Marks, Mark{u.At, Handle})
		}
	}
	for i := range w.Site.Lays {
		if l := &w.Site.Lays[i]; w.Selection.Has(edit.LayRef(l)) {
			for _, c := range l.Via {
				g.Marks = append(g.Marks, Mark{c, Handle})
			}
		}
	}
	for i := range w.Site.Areas {
		if a := &w.Site.Areas[i]; w.Selection.Has(edit.AreaRef(a.ID)) {
			for _, c := range a.Outline {
				g.Marks = append(g.Marks, Mark{c, Handle})
			}
		}
	}
}

// hover lights up what a click would take.
func (t *Pick) hover(w *World, g *Ghost) {
	if h, ok := t.handle(w, t.at); ok {
		g.Snapped = "corner of " + named(w, h.Ref)
		return
	}
	h, ok := t.under(w, Event{At: t.at, Alt: t.exact})
	if !ok {
		return
	}
	g.Snapped = named(w, h.Ref)
	if h.Inside {
		return
	}
	if line := lineOf(w, h.Ref); line != nil {
		g.Lines = append(g.Lines, Line{line, Lit})
		return
	}
	g.Marks = append(g.Marks, Mark{h.At, Hover})
}
