package board

import (
	"math"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/ui/hand"
	"linemap/internal/ui/view"
)

// pointer is what is known of the pointer and the keys.
type pointer struct {
	in   bool
	dot  view.Dot
	mods fyne.KeyModifier
	// down is the button held, 0 for none; panning says that it moves the view.
	down    desktop.MouseButton
	panning bool
	space   bool
	moved   bool // since the button went down
	// The last press, to tell double clicks.
	at     view.Dot
	when   time.Time
	clicks int
}

// A second press within this time and distance is a double click.
const (
	doubleTime = 400 * time.Millisecond
	doubleDots = 5
)

var (
	_ desktop.Mouseable  = (*Board)(nil)
	_ desktop.Hoverable  = (*Board)(nil)
	_ desktop.Keyable    = (*Board)(nil)
	_ desktop.Cursorable = (*Board)(nil)
	_ fyne.Draggable     = (*Board)(nil)
	_ fyne.Scrollable    = (*Board)(nil)
	_ fyne.Focusable     = (*Board)(nil)
)

func dot(p fyne.Position) view.Dot { return view.Dot{X: float64(p.X), Y: float64(p.Y)} }

// event makes an event of what is known.
func (b *Board) event(kind hand.EventKind) hand.Event {
	p := &b.pointer
	return hand.Event{
		Kind: kind, Dot: p.dot, At: b.view.Ground(p.dot), Clicks: p.clicks,
		Shift: p.mods&fyne.KeyModifierShift != 0, Ctrl: p.mods&fyne.KeyModifierControl != 0, Alt: p.mods&fyne.KeyModifierAlt != 0,
		Right: p.down == desktop.MouseButtonSecondary,
	}
}

// give hands an event to the tool and does what it asks for; it reports whether
// the tool had a use for it.
func (b *Board) give(ev hand.Event) (used bool) {
	used = true // what ends in a fault is not tried again elsewhere
	b.acts.Guard(func() {
		reply := b.tool.Handle(b.World(), ev)
		b.follow(reply, ev)
		used = !reply.Unused
	})
	return used
}

// follow does what a tool asks for.
func (b *Board) follow(r hand.Reply, ev hand.Event) {
	if r.Err != nil {
		b.acts.Tell(r.Err)
	}
	if r.Edit != nil {
		b.desk.Do(r.Edit)
	}
	if r.Say != "" && b.acts.Say != nil {
		b.acts.Say(r.Say)
	}
	if r.Select != nil {
		b.desk.Select(*r.Select)
	}
	if r.Tool != nil {
		b.tool = r.Tool
	}
	if r.Ask != "" {
		b.ask(r, ev)
	}
	b.overlay()
	b.acts.Moved()
	if r.Menu {
		b.acts.Menu(b.onCanvas(ev.Dot))
	}
}

func (b *Board) onCanvas(d view.Dot) fyne.Position {
	return fyne.CurrentApp().Driver().AbsolutePositionForObject(b).Add(pos(d))
}

// underPointer is how far a field reaches to the left of the pointer.
const underPointer = 16

// ask opens a field under the pointer: beside it, the driver would take the keys
// from the field again as soon as the click that opened it is done.
func (b *Board) ask(r hand.Reply, ev hand.Event) {
	c := fyne.CurrentApp().Driver().CanvasForObject(b)
	if c == nil {
		return
	}
	entry := newQuestion(r.Ask, func() {
		b.stopAsking()
		b.Focus()
	})
	pop := widget.NewPopUp(entry, c)
	b.stopAsking()
	b.asking = pop
	entry.OnSubmitted = func(text string) {
		if b.asking != pop { // what it was about is gone
			return
		}
		b.stopAsking()
		b.Focus()
		if r.Answer != nil {
			b.acts.Guard(func() { b.follow(r.Answer(text), ev) })
		}
	}
	pop.Resize(fyne.NewSize(280, entry.MinSize().Height))
	pop.ShowAtPosition(b.onCanvas(ev.Dot).SubtractXY(underPointer, entry.MinSize().Height/2))
	c.Focus(entry)
}

// question is a field that Escape closes.
type question struct {
	widget.Entry
	back func()
}

func newQuestion(hint string, back func()) *question {
	q := &question{back: back}
	q.ExtendBaseWidget(q)
	q.SetPlaceHolder(hint)
	return q
}

// TypedKey is for Fyne.
func (q *question) TypedKey(e *fyne.KeyEvent) {
	if e.Name == fyne.KeyEscape {
		q.back()
		return
	}
	q.Entry.TypedKey(e)
}

// stopAsking closes the field, if one is open: what it was about may be gone.
func (b *Board) stopAsking() {
	if b.asking != nil {
		b.asking.Hide()
		b.asking = nil
	}
}

// Focus gives the board the keys.
func (b *Board) Focus() {
	if c := fyne.CurrentApp().Driver().CanvasForObject(b); c != nil {
		c.Focus(b)
	}
}

// MouseDown begins a press.
func (b *Board) MouseDown(e *desktop.MouseEvent) {
	b.Focus()
	p := &b.pointer
	p.dot, p.mods, p.down, p.moved = dot(e.Position), e.Modifier, e.Button, false
	if p.panning = e.Button == desktop.MouseButtonTertiary || p.space; p.panning {
		return
	}
	now := b.now()
	near := math.Hypot(p.dot.X-p.at.X, p.dot.Y-p.at.Y) <= doubleDots
	if near && now.Sub(p.when) <= doubleTime {
		p.clicks++
	} else {
		p.clicks = 1
	}
	p.at, p.when = p.dot, now
	b.give(b.event(hand.Press))
}

// MouseUp ends a press.
func (b *Board) MouseUp(e *desktop.MouseEvent) {
	p := &b.pointer
	if p.down == 0 {
		return
	}
	p.dot, p.mods = dot(e.Position), e.Modifier
	panned := p.panning
	ev := b.event(hand.Release)
	p.down, p.panning = 0, false
	if !panned {
		b.give(ev)
	}
}

// Dragged moves with a button held.
func (b *Board) Dragged(e *fyne.DragEvent) {
	p := &b.pointer
	p.dot, p.moved = dot(e.Position), true
	if p.panning {
		b.SetView(b.view.Pan(float64(e.Dragged.DX), float64(e.Dragged.DY)))
		return
	}
	if p.down == 0 { // the press went elsewhere
		return
	}
	b.give(b.event(hand.Drag))
}

// DragEnd is told by MouseUp too.
func (b *Board) DragEnd() {}

// MouseIn brings the pointer onto the board.
func (b *Board) MouseIn(e *desktop.MouseEvent) { b.MouseMoved(e) }

// MouseMoved moves the pointer with no button held.
func (b *Board) MouseMoved(e *desktop.MouseEvent) {
	p := &b.pointer
	p.in, p.dot, p.mods = true, dot(e.Position), e.Modifier
	if p.down == 0 {
		b.give(b.event(hand.Move))
	}
}

// MouseOut takes the pointer off the board.
func (b *Board) MouseOut() {
	b.pointer.in = false
	b.give(b.event(hand.Leave))
}

// step is how much one notch of the wheel magnifies; Fyne reports a notch as 10
// or more.
const step = 0.012

// Scrolled zooms at the pointer; with Shift it pans sideways, with Ctrl up and
// down.
func (b *Board) Scrolled(e *fyne.ScrollEvent) {
	b.pointer.dot = dot(e.Position)
	mods := b.pointer.mods
	if d, ok := fyne.CurrentApp().Driver().(desktop.Driver); ok {
		mods = d.CurrentKeyModifiers()
	}
	dx, dy := float64(e.Scrolled.DX), float64(e.Scrolled.DY)
	switch {
	case mods&fyne.KeyModifierShift != 0:
		b.SetView(b.view.Pan(4*(dx+dy), 0)) // some systems turn the wheel's way themselves
	case mods&fyne.KeyModifierControl != 0:
		b.SetView(b.view.Pan(4*dx, 4*dy))
	default:
		b.SetView(b.view.Zoom(b.pointer.dot, math.Exp(step*math.Max(-60, math.Min(60, dy)))))
	}
}

// Cursor is the shape of the pointer.
func (b *Board) Cursor() desktop.Cursor {
	switch {
	case b.pointer.panning || b.pointer.space:
		return desktop.PointerCursor
	case b.tool.Name() == hand.NewPick().Name():
		return desktop.DefaultCursor
	}
	return desktop.CrosshairCursor
}

// FocusGained and FocusLost are for Fyne.
func (b *Board) FocusGained() {}

// FocusLost lets go of the keys.
func (b *Board) FocusLost() { b.pointer.space, b.pointer.mods = false, 0 }

// KeyDown notes the keys that are held.
func (b *Board) KeyDown(e *fyne.KeyEvent) { b.held(e.Name, true) }

// KeyUp notes the keys that are let go.
func (b *Board) KeyUp(e *fyne.KeyEvent) { b.held(e.Name, false) }

func (b *Board) held(key fyne.KeyName, down bool) {
	bit := map[fyne.KeyName]fyne.KeyModifier{
		desktop.KeyShiftLeft: fyne.KeyModifierShift, desktop.KeyShiftRight: fyne.KeyModifierShift,
		desktop.KeyControlLeft: fyne.KeyModifierControl, desktop.KeyControlRight: fyne.KeyModifierControl,
		desktop.KeyAltLeft: fyne.KeyModifierAlt, desktop.KeyAltRight: fyne.KeyModifierAlt,
	}[key]
	switch {
	case key == fyne.KeySpace:
		b.pointer.space = down
	case bit != 0 && down:
		b.pointer.mods |= bit
	case bit != 0:
		b.pointer.mods &^= bit
	default:
		return
	}
	if b.pointer.in && b.pointer.down == 0 && bit != 0 { // what a click would do may change
		b.give(b.event(hand.Move))
	}
}

// TypedKey gives a key to the tool, then to the window.
func (b *Board) TypedKey(e *fyne.KeyEvent) {
	if e.Name == fyne.KeySpace {
		return
	}
	ev := b.event(hand.Key)
	ev.Key = string(e.Name)
	if !b.give(ev) {
		b.acts.Key(e)
	}
}

// AcceptsTab keeps the Tab key for the tools.
func (b *Board) AcceptsTab() bool { return b.tool.Busy() }

// TypedRune gives a character to the tool, then to the window.
func (b *Board) TypedRune(r rune) {
	ev := b.event(hand.Rune)
	ev.Rune = r
	if r == ' ' { // moves the board, but within a figure that is being typed
		if b.tool.Busy() {
			b.give(ev)
		}
		return
	}
	if !b.give(ev) {
		b.acts.Rune(r)
	}
}
