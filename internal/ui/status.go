package ui

import (
	"fmt"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/export"
	"linemap/internal/route"
	"linemap/internal/unit"
)

// status is the line at the foot of the window: what a click would do, where
// the pointer is, how the plan stands.
type status struct {
	w    *Window
	bar  fyne.CanvasObject
	hint *widget.Label
	at   *widget.Label
	plan *widget.Label
	sign *widget.Icon
	stop *widget.Button

	// said is what stands in place of the hint, until when.
	said  string
	wrong bool
	until time.Time
	told  *time.Timer
}

// How long a remark stands before the hint comes back.
const (
	noteStands  = 4 * time.Second
	wrongStands = 9 * time.Second
)

func newStatus(w *Window) *status {
	s := &status{w: w, hint: label(""), at: widget.NewLabel(""), plan: widget.NewLabel("")}
	s.at.TextStyle.Monospace = true
	s.sign = widget.NewIcon(theme.WarningIcon())
	s.sign.Hide()
	s.stop = widget.NewButton("Stop", w.guard(w.desk.StopPlanning))
	s.stop.Hide()
	right := container.NewHBox(s.at, widget.NewSeparator(), s.plan, s.stop)
	s.bar = container.NewBorder(widget.NewSeparator(), nil, s.sign, right, s.hint)
	return s
}

// note says something in passing.
func (s *status) note(text string) { s.put(text, false, noteStands) }

// done takes a remark away: what it was about is over.
func (s *status) done() {
	s.until = time.Time{}
	s.follow()
}

// say says why something did not go.
func (s *status) say(err error) { s.put(export.Capital(err.Error()), true, wrongStands) }

func (s *status) put(text string, wrong bool, stands time.Duration) {
	s.said, s.wrong, s.until = text, wrong, time.Now().Add(stands)
	if s.told != nil {
		s.told.Stop()
	}
	s.told = time.AfterFunc(stands, func() { fyne.Do(s.w.guard(s.follow)) })
	s.follow()
}

// follow brings the line up to date.
func (s *status) follow() {
	if s == nil || s.w.status == nil {
		return
	}
	text, wrong := s.w.board.Hint(), false
	if time.Now().Before(s.until) {
		text, wrong = s.said, s.wrong
	}
	set(s.hint, text)
	if wrong {
		s.sign.Show()
	} else {
		s.sign.Hide()
	}
	if wrong { // the whole line, down to what to do
		set(s.at, "")
	} else {
		set(s.at, s.place())
	}
	set(s.plan, planWords(s.w))
	if p := s.w.desk.Planning(); p.Running && time.Since(p.Since) > blink {
		s.stop.Show()
	} else {
		s.stop.Hide()
	}
	if s.w.kit != nil {
		s.w.kit.follow()
	}
}

// blink is how long the planner may work before it is worth a word.
const blink = 300 * time.Millisecond

// set changes a label where it says something else: a label laid out anew for
// every move of the pointer would be felt.
func set(l *widget.Label, text string) {
	if l.Text != text {
		l.SetText(text)
	}
}

// place says where the pointer is, to the grain that a pixel shows.
func (s *status) place() string {
	at, snapped, in := s.w.board.Pointer()
	if !in {
		return ""
	}
	text := coordinate(s.w.units(), at.X, "E", "W") + "  " + coordinate(s.w.units(), at.Y, "N", "S")
	if snapped != "" {
		text = snapped + "   " + text
	}
	return text
}

// coordinate says how far off the origin a place is, and to which side.
func coordinate(sys unit.System, l unit.Length, ahead, behind string) string {
	if l < 0 {
		return sys.Footage(-l) + " " + behind
	}
	return sys.Footage(l) + " " + ahead
}

// planWords says how the plan stands.
func planWords(w *Window) string {
	p := w.desk.Planning()
	switch {
	case p.Running && time.Since(p.Since) > blink:
		text := "Planning"
		if p.Progress != nil {
			text += fmt.Sprintf(": %s so far", unit.Minutes(p.Progress.Cost))
			if p.Progress.Bound > 0 {
				text += fmt.Sprintf(", gap %.1f %%", 100*p.Progress.Gap())
			}
		}
		return text
	case p.Err != nil:
		return "No plan: " + p.Err.Error()
	case p.Plan == nil:
		return ""
	case p.Stale:
		return "Plan of an older sketch"
	}
	return verdict(p.Plan)
}

// verdict says a plan in a few words.
func verdict(p *route.Plan) string {
	runs := len(p.Runs())
	switch {
	case runs == 0 && len(p.Shortfalls) > 0:
		return "Nothing can be cleaned yet"
	case runs == 0:
		return "Nothing to clean"
	}
	text := unit.Minutes(p.Cost) + ", " + unit.Count(runs, "run")
	switch {
	case p.Stopped:
		text += ", stopped"
	case p.Proven:
		text += ", none quicker"
	case p.Bound > 0:
		text += fmt.Sprintf(", at most %.1f %% above the best", 100*p.Gap())
	}
	if h := p.ByHand; h != nil {
		text += ", by hand " + signed(h.More)
		if n := h.PassedOver(); n > 0 {
			text += fmt.Sprintf(" and %d not heeded", n)
		}
	}
	if n := len(p.Shortfalls); n > 0 {
		text += fmt.Sprintf(", %d not cleaned", n)
	}
	return text
}

// signed writes what something costs more or less: "+12 min".
func signed(d time.Duration) string {
	if d < 0 {
		return "-" + unit.Minutes(-d)
	}
	return "+" + unit.Minutes(d)
}
