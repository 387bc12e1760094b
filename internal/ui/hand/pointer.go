package hand

import (
	"math"

	"linemap/internal/network"
	"linemap/internal/site/edit"
	"linemap/internal/ui/aim"
)

// pointer is where a tool is held.
type pointer struct {
	at network.Point
	// in says that the pointer is over the board.
	in bool
	// free and exact are the keys that free the next leg of the trade's angles,
	// and of the grid too.
	free, exact bool
}

// near is how many pixels away things draw the pointer; bare is how many when
// snapping is off.
const (
	near = 10
	bare = 3
)

// follow notes where an event happened. It returns the event to go on with:
// arrows move the pointer, Insert is a click. Used says that there is nothing
// left to do.
func (p *pointer) follow(w *World, ev Event) (_ Event, used bool) {
	switch ev.Kind {
	case Leave:
		p.in = false
		return ev, false
	case Rune:
		return ev, false
	case Key:
		if d, ok := arrow(w, ev); ok {
			if !p.in {
				p.at, p.in = w.View.Centre, true
			}
			p.at.X, p.at.Y = p.at.X+d.X, p.at.Y+d.Y
			return ev, true
		}
		if ev.Key != "Insert" || !p.in {
			return ev, false
		}
		ev.Kind, ev.Clicks, ev.Right, ev.At, ev.Dot = Press, 1, false, p.at, w.View.Dot(p.at)
		return ev, false
	}
	if !finite(ev.At) {
		return ev, true
	}
	p.at, p.in, p.free, p.exact = ev.At, true, ev.Shift, ev.Alt
	return ev, false
}

// arrow is the step of an arrow key: one of the grid, with Alt a tenth of it.
func arrow(w *World, ev Event) (network.Point, bool) {
	d, ok := map[string]network.Point{"Left": {X: -1}, "Right": {X: 1}, "Up": {Y: 1}, "Down": {Y: -1}}[ev.Key]
	step := w.Grid
	if ev.Alt {
		step /= 10
	}
	return network.Point{X: d.X * step, Y: d.Y * step}, ok && w.Grid > 0
}

// sight is what draws the pointer, without a leg that begins anywhere.
func (p *pointer) sight(w *World) aim.Sight {
	s := aim.Sight{At: p.at, Level: w.Level, Within: near * w.View.PerPixel(), Grid: w.Grid, Free: p.free, Exact: p.exact}
	if !w.Snap {
		s.Within, s.Exact = bare*w.View.PerPixel(), true
	}
	return s
}

// pixels is how far apart two events lie on the screen.
func pixels(a, b Event) float64 { return math.Hypot(a.Dot.X-b.Dot.X, a.Dot.Y-b.Dot.Y) }

func finite(p network.Point) bool {
	sum := p.X.Metres() + p.Y.Metres()
	return !math.IsNaN(sum) && !math.IsInf(sum, 0)
}

// enters reports whether a key is one of the two that enter.
func enters(ev Event) bool { return ev.Key == "Return" || ev.Key == "KP_Enter" }

// show puts what the pointer was drawn to into a ghost, and lights up what a
// click would join.
func (g *Ghost) show(w *World, a aim.Aim) {
	if line := lineOf(w, edit.PipeRef(a.Anchor.Pipe)); line != nil {
		g.Lines = append(g.Lines, Line{line, Lit})
	}
	if a.Anchor.Node != "" {
		g.Marks = append(g.Marks, Mark{a.At(), Hover})
	}
	if len(a.Guide) > 0 {
		g.Lines = append(g.Lines, Line{a.Guide, Guideline})
	}
	g.Marks = append(g.Marks, Mark{a.At(), Aim})
	g.Snapped = a.Snapped
}

// edited is the reply with an edit, or with why there is none.
func edited(e *edit.Edit, err error) Reply {
	if err != nil {
		return Reply{Err: err}
	}
	return Reply{Edit: e}
}
