package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// list is a list to choose from in the bar over the board. Left without a
// choice it would keep the keys, and the letters of the tools would do nothing:
// it gives them back to the board.
type list struct {
	widget.Select
	w *Window
}

func newList(w *Window, options []string, do func(string)) *list {
	l := &list{w: w}
	l.ExtendBaseWidget(l)
	l.Options, l.OnChanged = options, do
	return l
}

// TypedRune is for Fyne.
func (l *list) TypedRune(r rune) {
	l.w.board.Focus()
	l.w.board.TypedRune(r)
}

// TypedKey is for Fyne.
func (l *list) TypedKey(e *fyne.KeyEvent) {
	if e.Name == fyne.KeyEscape {
		l.w.board.Focus()
		return
	}
	l.Select.TypedKey(e)
}
