package hand

import (
	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/ui/aim"
)

// Draw draws pipe from click to click.
type Draw struct {
	pointer
	// from is what the pipe begins at and way what the angle of its first leg
	// is counted from.
	from edit.Anchor
	way  *aim.Way
	// points are the places drawn so far, the start first; none while nothing
	// is begun.
	points []network.Point
	style  edit.PipeStyle
	typed  typed
	// press is the press that may become a leg by dragging.
	press *Event
}

// NewDraw returns the tool that draws pipe.
func NewDraw() *Draw { return &Draw{} }

// Name is the name that the kit shows.
func (t *Draw) Name() string { return "Pipe" }

// Busy reports whether a pipe is begun.
func (t *Draw) Busy() bool { return len(t.points) > 0 }

// Hint says what the next click or key does.
func (t *Draw) Hint(w *World) string {
	switch {
	case !t.Busy():
		return "Click where the pipe begins: on nothing, on an end or on a pipe."
	case t.typed.turning && t.bears():
		return "Type the bearing in degrees clockwise from north, then Return."
	case t.typed.turning:
		return "Type the turn: 45 to the left, 45r to the right, 1/8 for an 1/8 bend. Then Return."
	case len(t.points) == 1:
		return "Click the next corner, or type a length and Return. Tab: an angle. Shift: any angle."
	}
	return "Click the next corner. A joint or a pipe ends it, or Return. Backspace: one back."
}

// Handle takes one event.
func (t *Draw) Handle(w *World, ev Event) Reply {
	ev, used := t.follow(w, ev)
	if used || ev.Kind == Leave {
		return Reply{}
	}
	if ev.Kind == Key && ev.Key == "Escape" {
		return t.escape()
	}
	if r, ok := t.turnOver(w); ok {
		return r
	}
	switch ev.Kind {
	case Press:
		return t.pressed(w, ev)
	case Release:
		return t.released(w, ev)
	case Key:
		return t.key(w, ev)
	case Rune:
		return t.rune(w, ev.Rune)
	}
	return Reply{}
}

func (t *Draw) pressed(w *World, ev Event) Reply {
	t.press = nil
	switch {
	case ev.Right:
		return t.finish(w)
	case ev.Clicks > 1 && len(t.points) < 2:
		return Reply{} // the first click began or ended a pipe
	case ev.Clicks > 1:
		return t.finish(w)
	}
	t.press = &ev
	return t.put(w)
}

// released ends a leg that was drawn by dragging.
func (t *Draw) released(w *World, ev Event) Reply {
	const drag = 8 // pixels; less is a click of an unsteady hand
	press := t.press
	t.press = nil
	if press == nil || !t.Busy() || pixels(*press, ev) < drag {
		return Reply{}
	}
	return t.put(w)
}

// put begins the pipe where the pointer is drawn to, or draws a leg to there.
func (t *Draw) put(w *World) Reply {
	a, err := t.target(w)
	switch {
	case err != nil:
		return Reply{Err: err}
	case !t.Busy():
		t.from, t.way, t.style = a.Anchor, w.Index.WayAt(a.Anchor), w.Style
		t.points = []network.Point{a.At()}
		return Reply{}
	case a.At() == t.last():
		return Reply{}
	}
	if !a.Joins() {
		if err := t.try(w, a.Anchor); err != nil {
			return Reply{Err: err}
		}
		t.points, t.typed = append(t.points, a.At()), typed{}
		return Reply{}
	}
	e, err := t.draw(w, t.points[1:], a.Anchor)
	if err != nil {
		return Reply{Err: err}
	}
	say := sayCrowded(w, t.from, a.Anchor)
	t.drop()
	return Reply{Edit: e, Say: say}
}

func (t *Draw) draw(w *World, corners []network.Point, to edit.Anchor) (*edit.Edit, error) {
	return edit.DrawPipe(w.Site, w.Index.Still(t.from), corners, to, t.style)
}

// try errs where no pipe could go on to a place: what is refused is refused at
// once, and not when all is drawn. With what the pipe begins at the first leg
// alone has to agree; the others are tried on a bare site, which takes no time
// however large the site is.
func (t *Draw) try(w *World, to edit.Anchor) error {
	if len(t.points) == 1 && (t.from.Node != "" || t.from.Pipe != "") {
		_, err := t.draw(w, nil, to)
		return err
	}
	bare := &site.Site{Units: w.Site.Units, Network: network.Network{Levels: w.Site.Network.Levels}}
	_, err := edit.DrawPipe(bare, edit.Anchor{At: t.points[0], Level: t.from.Level}, t.points[1:], to, t.style)
	return err
}

// finish ends the pipe at the last place drawn.
func (t *Draw) finish(w *World) Reply {
	n := len(t.points) - 1
	if n < 1 {
		t.drop()
		return Reply{}
	}
	e, err := t.draw(w, t.points[1:n], edit.Anchor{At: t.last(), Level: t.from.Level})
	if err != nil {
		return Reply{Err: err}
	}
	say := sayCrowded(w, t.from)
	t.drop()
	return Reply{Edit: e, Say: say}
}

func (t *Draw) last() network.Point { return t.points[len(t.points)-1] }

// drop forgets what was begun.
func (t *Draw) drop() { t.points, t.typed, t.way, t.press = nil, typed{}, nil, nil }

// turnOver draws what is drawn so far where the next leg is of another make or
// on another level, and begins another pipe at its end.
func (t *Draw) turnOver(w *World) (Reply, bool) {
	moved := t.from.Level != w.Level
	switch {
	case !t.Busy() || !moved && alike(t.style, w.Style):
		return Reply{}, false
	case len(t.points) == 1:
		t.style = w.Style
		if moved {
			t.drop()
		}
		return Reply{}, false
	}
	last, heading := t.last(), t.bends()
	r := t.finish(w)
	t.drop()
	if !moved {
		t.from, t.way, t.style = edit.Anchor{At: last, Level: w.Level}, heading, w.Style
		t.points = []network.Point{last}
	}
	return r, true
}

// alike reports whether two pipes are made alike.
func alike(a, b edit.PipeStyle) bool {
	slope := a.Slope == b.Slope || a.Slope != nil && b.Slope != nil && *a.Slope == *b.Slope
	a.Slope, b.Slope = nil, nil
	return slope && a == b
}
