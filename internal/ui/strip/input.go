package strip

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

var (
	_ desktop.Hoverable      = (*Strip)(nil)
	_ desktop.Cursorable     = (*Strip)(nil)
	_ fyne.Tappable          = (*Strip)(nil)
	_ fyne.SecondaryTappable = (*Strip)(nil)
	_ fyne.Draggable         = (*Strip)(nil)
	_ fyne.Scrollable        = (*Strip)(nil)
	_ fyne.Focusable         = (*Strip)(nil)
)

// dragging is what is known of a drag: what it moves is settled where it begins.
type dragging struct {
	going  bool
	marker bool
}

// grab is how near to the marker the pointer takes hold of it, in pixels.
const grab = 6

// find tells what lies at a position.
func (s *Strip) find(at fyne.Position) place {
	if s.day == nil {
		return nowhere
	}
	return s.day.hit(s.span, s.stack(), float64(at.X), float64(at.Y))
}

// onMarker tells whether a position takes hold of the marker.
func (s *Strip) onMarker(at fyne.Position) bool {
	return s.day != nil && math.Abs(float64(at.X)-s.span.x(s.time)) <= grab && float64(at.Y) < s.stack().words.y
}

// Tapped moves the marker on the clock and on the tank; on a run it lights the run
// up, and again puts it out.
func (s *Strip) Tapped(e *fyne.PointEvent) {
	s.guard(func() {
		s.focus()
		p := s.find(e.Position)
		switch {
		case s.day == nil:
		case p.ofTime:
			s.SetTime(p.time)
		case p.run == s.chosen:
			s.choose(0)
		default:
			s.choose(p.run)
		}
		s.over()
	})
}

// TappedSecondary opens the menu of a run.
func (s *Strip) TappedSecondary(e *fyne.PointEvent) {
	s.guard(func() {
		if p := s.find(e.Position); p.run > 0 && s.acts.Menu != nil {
			s.acts.Menu(p.run, e.AbsolutePosition)
		}
	})
}

// Dragged moves the marker if it begins on it, on the clock or on the tank, else
// the day where it is zoomed.
func (s *Strip) Dragged(e *fyne.DragEvent) {
	s.guard(func() {
		if s.day == nil {
			return
		}
		if !s.drag.going {
			s.focus()
			began := e.Position.SubtractXY(e.Dragged.DX, e.Dragged.DY)
			s.drag = dragging{going: true, marker: s.onMarker(began) || s.find(began).ofTime}
			if s.drag.marker {
				s.Pause()
			}
		}
		if s.drag.marker {
			s.SetTime(s.span.time(float64(e.Position.X)))
			s.point(s.find(e.Position))
			return
		}
		s.look(s.span.scroll(float64(e.Dragged.DX), s.day.ends))
	})
}

// DragEnd ends a drag.
func (s *Strip) DragEnd() { s.drag = dragging{} }

// MouseIn follows the pointer.
func (s *Strip) MouseIn(e *desktop.MouseEvent) { s.MouseMoved(e) }

// MouseMoved follows the pointer: the line of words tells of what it points at,
// and its run is lit.
func (s *Strip) MouseMoved(e *desktop.MouseEvent) {
	s.guard(func() { s.point(s.find(e.Position)) })
}

// MouseOut lets the chosen run be lit again.
func (s *Strip) MouseOut() { s.guard(func() { s.point(nowhere) }) }

// Scrolled zooms at the pointer; sideways, or with Shift, it scrolls.
func (s *Strip) Scrolled(e *fyne.ScrollEvent) {
	s.guard(func() {
		if s.day == nil {
			return
		}
		dx, dy := float64(e.Scrolled.DX), float64(e.Scrolled.DY)
		if d, ok := fyne.CurrentApp().Driver().(desktop.Driver); ok && d.CurrentKeyModifiers()&fyne.KeyModifierShift != 0 {
			dx, dy = dx+dy, 0 // some systems turn the wheel's way themselves
		}
		if dx != 0 && math.Abs(dx) >= math.Abs(dy) {
			s.look(s.span.scroll(4*dx, s.day.ends))
		} else {
			s.zoom(float64(e.Position.X), dy)
		}
		s.point(s.find(e.Position))
	})
}

// zoom zooms about a place by turns of the wheel.
func (s *Strip) zoom(x, turns float64) {
	const perTurn = 0.015
	s.look(s.span.zoom(x, math.Exp(perTurn*max(-60, min(turns, 60))), s.day.ends))
}

// Cursor is the shape of the pointer.
func (s *Strip) Cursor() desktop.Cursor {
	switch {
	case s.day == nil:
		return desktop.DefaultCursor
	case s.drag.marker || s.hover.ofTime:
		return desktop.HResizeCursor
	case s.hover.run > 0:
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}
