package form

import (
	"errors"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/ui/desk"
	"linemap/internal/unit"
)

// living is what a dialog has to tell of changes.
type living interface {
	refresh()
	// settle takes what is typed; false where some of it is wrong.
	settle() bool
}

// open opens a dialog about a part of the site. What is filled in counts at
// once, as edits that can be undone; closing it takes what is still typed, and
// stays open where that is wrong.
func open(d *desk.Desk, w fyne.Window, title string, size fyne.Size, content fyne.CanvasObject, parts ...living) {
	refresh := func() {
		for _, p := range parts {
			p.refresh()
		}
	}
	var over fyne.CanvasObject
	var stop func()
	stop = d.Watch(func(c desk.Change) {
		switch {
		case over != nil && !slices.Contains(w.Canvas().Overlays().List(), over):
			stop() // Escape took it away, of which a dialog is not told
		case c&desk.Document != 0:
			refresh()
		}
	})
	var box *dialog.CustomDialog
	done := widget.NewButton("Done", func() {
		right := true
		for _, p := range parts {
			right = p.settle() && right
		}
		if right {
			box.Hide()
		}
	})
	done.Importance = widget.HighImportance
	foot := container.NewHBox(layout.NewSpacer(), done)
	box = dialog.NewCustomWithoutButtons(title, container.NewBorder(nil, foot, nil, nil, content), w)
	box.SetOnClosed(stop)
	box.Resize(fitting(w, size))
	box.Show()
	over = w.Canvas().Overlays().Top()
	refresh()
}

// fitting is a size, held to the window's.
func fitting(w fyne.Window, size fyne.Size) fyne.Size {
	const margin = 40
	in := w.Canvas().Size()
	return fyne.NewSize(min(size.Width, max(0, in.Width-margin)), min(size.Height, max(0, in.Height-margin)))
}

// partOf is a subject that is one part of the site, such as its job: a change
// puts another value in its place.
func partOf[T any](
	d *desk.Desk, get func(*site.Site) *T, clone func(T) T, put func(*site.Site, T) (*edit.Edit, error), called string,
) subject[T] {
	return subject[T]{
		things: func() []*T {
			if v := get(d.Site()); v != nil {
				return []*T{v}
			}
			return nil
		},
		called: func([]*T) string { return called },
		change: func(_ string, to func(*T)) error {
			v := clone(*get(d.Site()))
			to(&v)
			e, err := put(d.Site(), v)
			if err == nil {
				d.Do(e)
			}
			return err
		},
	}
}

// pageOf is a sheet on a page of its own. The sheet is made by make, which is
// given what it calls where it grows.
func pageOf[T any](make func(resized func()) *sheet[T]) (*page, *sheet[T]) {
	p := newPage(fyne.NewSize(300, 200))
	s := make(func() { p.again() })
	p.body.Add(s.box)
	return p, s
}

// sayProblem opens a dialog that says what could not be done, where and why.
func sayProblem(w fyne.Window, what string, err error) {
	head := widget.NewLabel(what)
	head.Wrapping, head.TextStyle.Bold = fyne.TextWrapWord, true
	why := widget.NewLabel(problemText(err))
	why.Wrapping = fyne.TextWrapWord
	box := dialog.NewCustom("That did not work", "Close", newPage(fyne.NewSize(320, 120), head, why), w)
	box.Resize(fitting(w, fyne.NewSize(480, 300)))
	box.Show()
}

// problemText lists all that is wrong with a file, a line for each.
func problemText(err error) string {
	var wrong *site.LoadError
	if !errors.As(err, &wrong) {
		return err.Error()
	}
	var lines []string
	for _, p := range wrong.Problems {
		lines = append(lines, p.String())
	}
	if wrong.More > 0 {
		lines = append(lines, "and "+unit.Count(wrong.More, "more problem"))
	}
	return strings.Join(lines, "\n")
}

// iconButton is a small button with a sign and a word.
func iconButton(word string, icon fyne.ThemeIconName, do func()) *widget.Button {
	b := widget.NewButtonWithIcon(word, theme.DefaultTheme().Icon(icon), do)
	b.Importance = widget.LowImportance
	return b
}
