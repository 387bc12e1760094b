package ui

import (
	"errors"
	"fmt"
	"runtime/debug"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/site"
)

// guard returns do with a net under it: a fault in it is told, and the sketch is
// kept, instead of ending the program.
func (w *Window) guard(do func()) func() {
	return func() {
		defer func() {
			if fault := recover(); fault != nil {
				w.fault(fault)
			}
		}()
		do()
	}
}

// fault tells of a panic after the work is safe.
func (w *Window) fault(fault any) {
	fyne.LogError("fault", fmt.Errorf("%v\n%s", fault, debug.Stack()))
	kept := "A copy of the sketch is kept; save it now with File, Save."
	if err := w.rescue.Now(); err != nil {
		kept = err.Error()
	}
	w.report("A fault in the program", fmt.Sprintf("%v", fault), kept+" Please report what you did just before.")
}

// tell shows an error: what went wrong, where, and what to do.
func (w *Window) tell(err error) {
	if err == nil {
		return
	}
	var load *site.LoadError
	if errors.As(err, &load) {
		w.unreadable(load)
		return
	}
	w.status.say(err)
}

// unreadable tells what is wrong with the file of a site, under what is said of it
// first.
func (w *Window) unreadable(load *site.LoadError, lines ...string) {
	for _, p := range load.Problems {
		lines = append(lines, p.String())
	}
	if load.More > 0 {
		lines = append(lines, fmt.Sprintf("and %d more", load.More))
	}
	w.report("The site cannot be read", strings.Join(lines, "\n"), "Nothing of it was loaded. Mend the file, or open another.")
}

// report opens a dialog with what happened, where, and what to do.
func (w *Window) report(what, where, todo string) {
	text := widget.NewLabel(where)
	text.Wrapping = fyne.TextWrapWord
	text.Selectable = true
	advice := widget.NewLabel(todo)
	advice.Wrapping = fyne.TextWrapWord
	body := container.NewBorder(nil, advice, nil, nil, container.NewVScroll(text))
	d := dialog.NewCustom(what, "Close", body, w.win)
	d.Resize(fyne.NewSize(520, 300))
	d.Show()
}
