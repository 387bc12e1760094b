package strip

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/export/paper"
	"linemap/internal/route"
	"linemap/internal/site"
)

// Acts are what the strip leaves to the window. Each may be nil.
type Acts struct {
	// Light is called with the run to light up on the board, 0 for none.
	Light func(run int)
	// At is called with every new time of the marker.
	At func(t time.Duration)
	// Menu opens the menu of a run at a place of the canvas.
	Menu func(run int, at fyne.Position)
	// Playing is called when the day begins to play, and when it stops.
	Playing func(on bool)
	// Key takes a key and Rune a character for which the strip has no use.
	Key  func(*fyne.KeyEvent)
	Rune func(rune)
	// Guard calls a function with a net under it: a fault must not end the
	// program.
	Guard func(func())
}

// Strip is the strip of the day.
type Strip struct {
	widget.BaseWidget
	acts  Acts
	ruler *paper.Ruler

	day     *day
	stale   bool
	message string

	span    span
	time    time.Duration
	hover   place
	chosen  int // the run that a click lit
	lit     int // the run that the window lit
	told    int // the run that Light was last called with
	drag    dragging
	focused bool
	player  player
	shown   *renderer // nil before the first
}

// New returns a strip without a day.
func New(acts Acts) *Strip {
	ruler, err := paper.NewRuler()
	if err != nil {
		panic(err) // only where the font that is built in is broken
	}
	s := &Strip{acts: acts, ruler: ruler, hover: nowhere}
	s.player.strip = s
	s.player.start = startTicker
	s.ExtendBaseWidget(s)
	return s
}

var nowhere = place{event: -1}

// guard calls a function with the window's net under it.
func (s *Strip) guard(do func()) {
	if s.acts.Guard != nil {
		s.acts.Guard(do)
		return
	}
	do()
}

// SetPlan shows a plan of a site, which nobody may change while it is shown. Stale
// says that the sketch has changed since. Without a plan the message stands in its
// place.
func (s *Strip) SetPlan(on *site.Site, plan *route.Plan, stale bool) {
	none := on == nil || plan == nil || len(plan.Day) == 0
	same := none && s.day == nil || !none && s.day != nil && s.day.plan == plan && s.day.site == on
	if same && stale == s.stale {
		return
	}
	s.stale = stale
	if !same {
		zoomed := s.day != nil && s.span.shown < s.day.ends
		s.forget()
		if !none {
			s.day = newDay(on, plan)
			if zoomed { // what was looked at stays in view
				s.span = s.span.within(s.day.ends)
			} else {
				s.span = s.fit()
			}
		}
	}
	s.Refresh()
}

// forget drops the day that is shown, and all that hangs on it.
func (s *Strip) forget() {
	s.Pause()
	s.day, s.time, s.hover = nil, 0, nowhere
	s.drag = dragging{}
	s.choose(0)
	s.lit = 0
}

// SetMessage says why there is no day.
func (s *Strip) SetMessage(text string) {
	if text != s.message {
		s.message = text
		s.Refresh()
	}
}

// Time is the time at the marker, from the start of the day.
func (s *Strip) Time() time.Duration { return s.time }

// SetTime moves the marker.
func (s *Strip) SetTime(t time.Duration) {
	if s.day == nil {
		return
	}
	t = max(0, min(t, s.day.ends))
	if t == s.time {
		return
	}
	s.time = t
	if moved := s.span.show(t, s.day.ends); moved != s.span && !s.drag.going {
		s.look(moved)
	} else {
		s.over()
	}
	if s.acts.At != nil {
		s.acts.At(t)
	}
}

// Lit frames a run, 0 for none.
func (s *Strip) Lit(run int) {
	if s.lit != run {
		s.lit = run
		s.over()
	}
}

// choose lights a run until another is chosen.
func (s *Strip) choose(run int) {
	s.chosen = run
	s.tellLight()
}

// tellLight tells the window which run to light: the one under the pointer, else
// the chosen one.
func (s *Strip) tellLight() {
	run := s.chosen
	if s.hover.run > 0 {
		run = s.hover.run
	}
	if run != s.told {
		s.told = run
		if s.acts.Light != nil {
			s.acts.Light(run)
		}
	}
}

// point follows the pointer.
func (s *Strip) point(p place) {
	if p.time = 0; p == s.hover { // within one thing nothing changes
		return
	}
	s.hover = p
	s.tellLight()
	s.over()
}

// look shows another stretch of the day.
func (s *Strip) look(to span) {
	if to != s.span {
		s.span = to
		s.Refresh()
	}
}

// textSize is the size of the strip's text, and lineHeight that of a line of it.
func textSize() float64 { return float64(theme.Size(theme.SizeNameCaptionText)) }

func lineHeight() float64 { return textSize() * 1.35 }

func (s *Strip) stack() rows { return stack(float64(s.Size().Height), lineHeight()) }

// margin is kept free at the right edge.
const margin = 8

// fit is the span of the whole day.
func (s *Strip) fit() span {
	left := s.gutter()
	return whole(s.day.ends, left, float64(s.Size().Width)-left-margin)
}

// gutter is the width of the words left of the day.
func (s *Strip) gutter() float64 {
	p := &picture{day: s.day}
	wide := s.ruler.Width("Trailer", false, textSize()/paper.MMPerPoint)
	for _, m := range p.marks() {
		wide = max(wide, s.ruler.Width(m.name, false, textSize()/paper.MMPerPoint))
	}
	return min(wide+16, float64(s.Size().Width)/3)
}
