package form

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// entry is an entry that hands over what was typed when Enter is pressed or it
// is left, and takes it back on Escape.
type entry struct {
	widget.Entry
	shown string // what was put there, not typed
	// handed says that what was typed is handed over.
	handed bool
	hand   func(text string)
	back   func()
}

func newEntry(lines int, hint string, hand func(string), back func()) *entry {
	e := &entry{hand: hand, back: back}
	e.ExtendBaseWidget(e)
	e.PlaceHolder = hint
	e.Wrapping = fyne.TextWrap(fyne.TextTruncateClip)
	if lines > 1 {
		e.MultiLine, e.Wrapping = true, fyne.TextWrapWord
		e.SetMinRowsVisible(lines)
	}
	e.OnSubmitted = func(string) { e.over() }
	return e
}

// put shows a text, with the caret where it was.
func (e *entry) put(text string) {
	e.shown, e.handed = text, false
	if e.Text != text {
		e.SetText(text)
	}
}

// dirty reports whether something was typed that was not handed over.
func (e *entry) dirty() bool { return e.Text != e.shown && !e.handed }

// FocusGained marks what is there, so that typing takes its place.
func (e *entry) FocusGained() {
	e.Entry.FocusGained()
	if !e.MultiLine && e.Text != "" {
		e.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
}

// FocusLost hands over what was typed.
func (e *entry) FocusLost() {
	e.Entry.FocusLost()
	e.over()
}

// over ends typing: what differs is handed over, and a message about what was
// typed before goes where it is as it was.
func (e *entry) over() {
	if e.dirty() {
		e.hand(e.Text)
	} else {
		e.back()
	}
}

// AcceptsTab lets Tab go on to the next field from every entry.
func (e *entry) AcceptsTab() bool { return false }

// TypedKey takes back what was typed on Escape, and leaves the entry where
// nothing was.
func (e *entry) TypedKey(k *fyne.KeyEvent) {
	if k.Name != fyne.KeyEscape {
		e.Entry.TypedKey(k)
		return
	}
	if e.dirty() {
		e.back()
		return
	}
	if c := fyne.CurrentApp().Driver().CanvasForObject(e); c != nil {
		c.Unfocus()
	}
}
