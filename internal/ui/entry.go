package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// entry is the field of a dialog. It has the keys while the dialog is open, so it
// hands Escape on to the window, which closes the dialog.
type entry struct {
	widget.Entry
	escape func(*fyne.KeyEvent)
}

func (w *Window) newEntry(text string) *entry {
	e := &entry{escape: w.typedKey}
	e.ExtendBaseWidget(e)
	e.SetText(text)
	return e
}

// TypedKey is for Fyne.
func (e *entry) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyEscape {
		e.escape(k)
		return
	}
	e.Entry.TypedKey(k)
}
