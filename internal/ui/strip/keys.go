package strip

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// FocusGained shows that keys go to the strip.
func (s *Strip) FocusGained() {
	s.focused = true
	s.over()
}

// FocusLost shows that they do not.
func (s *Strip) FocusLost() {
	s.focused = false
	s.over()
}

func (s *Strip) focus() {
	if c := fyne.CurrentApp().Driver().CanvasForObject(s); c != nil {
		c.Focus(s)
	}
}

// TypedKey goes from event to event (left, right) and from run to run (up, down),
// to the ends of the day, plays it (space), and lights (return) and opens the menu
// (menu key) of the run at the marker.
func (s *Strip) TypedKey(e *fyne.KeyEvent) {
	s.guard(func() {
		if !s.pressed(e.Name) && s.acts.Key != nil {
			s.acts.Key(e)
		}
	})
}

// pressed does what a key asks for; it reports whether it asks for anything.
func (s *Strip) pressed(key fyne.KeyName) bool {
	if s.day == nil {
		return false
	}
	switch key {
	case fyne.KeyLeft:
		s.SetTime(s.day.before(s.time))
	case fyne.KeyRight:
		s.SetTime(s.day.after(s.time))
	case fyne.KeyUp:
		s.SetTime(s.day.runBefore(s.time))
	case fyne.KeyDown:
		s.SetTime(s.day.runAfter(s.time))
	case fyne.KeyHome:
		s.SetTime(0)
	case fyne.KeyEnd:
		s.SetTime(s.day.ends)
	case fyne.KeySpace:
		if s.Playing() {
			s.Pause()
		} else {
			s.Play()
		}
	case fyne.KeyReturn, fyne.KeyEnter:
		if run := s.runAtMarker(); run != s.chosen {
			s.choose(run)
		} else {
			s.choose(0)
		}
		s.over()
	case desktop.KeyMenu:
		if run := s.runAtMarker(); run > 0 && s.acts.Menu != nil {
			at := fyne.CurrentApp().Driver().AbsolutePositionForObject(s)
			s.acts.Menu(run, at.AddXY(float32(s.span.x(s.time)), float32(s.stack().runs.y)))
		}
	default:
		return false
	}
	return true
}

// runAtMarker is the run that is made at the marker, 0 for none.
func (s *Strip) runAtMarker() int {
	if i := s.day.at(s.time); i >= 0 {
		return max(0, s.day.plan.Day[i].Run)
	}
	return 0
}

// TypedRune zooms at the marker by plus and minus, and shows the whole day by 0.
func (s *Strip) TypedRune(r rune) {
	s.guard(func() {
		const turns = 25
		switch {
		case s.day != nil && (r == '+' || r == '='):
			s.zoom(s.span.x(s.time), turns)
		case s.day != nil && r == '-':
			s.zoom(s.span.x(s.time), -turns)
		case s.day != nil && r == '0':
			s.look(s.fit())
		case r != ' ' && s.acts.Rune != nil:
			s.acts.Rune(r)
		}
	})
}
