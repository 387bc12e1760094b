package form

import (
	"errors"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/site"
	"linemap/internal/ui/desk"
)

// subject is what a sheet is about.
type subject[T any] struct {
	// things are those that the sheet is about, as they stand now; none where
	// they are gone. They are only looked at.
	things func() []*T
	// called names them for the name of a step: "P-3", "3 pipes".
	called func(all []*T) string
	// change does something to each of them as one step of this name.
	change func(name string, to func(*T)) error
}

// sheet is a form on the screen.
type sheet[T any] struct {
	desk    *desk.Desk
	about   subject[T]
	lines   []*line[T]
	columns columns
	box     *fyne.Container
	// resized is called where the sheet grew or shrank.
	resized func()
}

// newSheet makes a form of a table of fields.
func newSheet[T any](d *desk.Desk, about subject[T], resized func(), fields ...field[T]) *sheet[T] {
	s := &sheet[T]{desk: d, about: about, resized: resized, box: container.New(&stack{gap: 2})}
	s.columns.measure = s.labels
	for _, f := range fields {
		l := newLine(s, f)
		s.lines = append(s.lines, l)
		s.box.Add(l.row)
	}
	return s
}

// refresh shows the things as they stand. What is being typed stays.
func (s *sheet[T]) refresh() { s.show(false) }

// turn shows the sheet for other things; what was typed for the old ones must
// be settled before.
func (s *sheet[T]) turn() { s.show(true) }

func (s *sheet[T]) show(anew bool) {
	all := s.about.things()
	if len(all) == 0 {
		return
	}
	for _, l := range s.lines {
		l.show(all, anew)
	}
	s.columns.again()
	s.resized()
}

// labels is how wide the labels are. Where the size of text changes, some of them
// are asked before they know of it, so their text is measured and not they.
func (s *sheet[T]) labels() float32 {
	wide := float32(0)
	for _, l := range s.lines {
		if l.row.Visible() {
			text := fyne.MeasureText(l.label.Text, theme.TextSize(), l.label.TextStyle)
			wide = max(wide, text.Width+2*theme.InnerPadding())
		}
	}
	return wide
}

// settle hands over what is typed in a field and not handed over yet. It is
// false where some field is wrong.
func (s *sheet[T]) settle() bool {
	right := true
	for _, l := range s.lines {
		if text, pending := l.input.pending(); pending && l.row.Visible() {
			l.commit(text)
			right = right && l.fault.Text == ""
		}
	}
	return right
}

// drop forgets what is typed.
func (s *sheet[T]) drop() {
	for _, l := range s.lines {
		if _, pending := l.input.pending(); pending {
			l.back()
		}
	}
}

// holds reports whether something that has the focus is one of the sheet's.
func (s *sheet[T]) holds(o fyne.Focusable) bool {
	return o != nil && slices.ContainsFunc(s.lines, func(l *line[T]) bool { return any(l.input.object()) == any(o) })
}

// line is one field of a sheet.
type line[T any] struct {
	sheet *sheet[T]
	field field[T]

	row   *fyne.Container
	label *widget.Label
	input input
	fault *widget.Label

	shown string
	mixed bool
}

func newLine[T any](s *sheet[T], f field[T]) *line[T] {
	l := &line[T]{sheet: s, field: f, label: widget.NewLabel(f.label), fault: widget.NewLabel("")}
	l.input = newInput(f.way, f.label, f.hint, l.commit, l.back)
	l.fault.Wrapping, l.fault.Importance, l.fault.SizeName = fyne.TextWrapWord, widget.DangerImportance, theme.SizeNameCaptionText
	l.fault.Hide()
	if f.way == ticked { // it stands beside the box
		l.label.SetText("")
	}
	l.row = container.New(&rowLayout{columns: &s.columns}, l.label, l.input.object(), l.fault)
	return l
}

// show shows what the things have in common; anew drops what is typed.
func (l *line[T]) show(all []*T, anew bool) {
	there := true
	l.shown, l.mixed = "", false
	if l.field.way == told {
		l.shown = l.field.tell(l.sheet.desk, all)
		there = l.shown != ""
	} else {
		l.shown, l.mixed, there = l.common(all)
	}
	if there != l.row.Visible() {
		if there {
			l.row.Show()
		} else {
			l.row.Hide()
		}
	}
	if !there {
		return
	}
	if _, pending := l.input.pending(); pending && !anew {
		return
	}
	l.back()
}

// back shows again what was there before typing.
func (l *line[T]) back() {
	l.say(nil)
	l.input.put(l.shown, l.mixed, l.options())
}

// common is the text that all the things have; mixed where they differ, and not
// there where one of them has no such field.
func (l *line[T]) common(all []*T) (text string, mixed, there bool) {
	f := &l.field
	for i, v := range all {
		if i > 0 && f.same != nil {
			equal, there := f.same(all[0], v)
			if !there {
				return "", false, false
			}
			if equal || mixed {
				continue
			}
		}
		t, there := f.show(l.sheet.desk, v)
		if !there {
			return "", false, false
		}
		if i == 0 {
			text = t
		}
		mixed = mixed || t != text
	}
	return text, mixed, true
}

func (l *line[T]) options() []string {
	if l.field.options == nil {
		return nil
	}
	all := l.sheet.about.things()
	if len(all) == 0 {
		return nil
	}
	return l.field.options(l.sheet.desk, all[0])
}

// commit makes an edit of what was filled in, or says why it cannot.
func (l *line[T]) commit(text string) {
	all := l.sheet.about.things()
	if len(all) == 0 || text == l.shown && !l.mixed {
		l.say(nil)
		return
	}
	to, err := l.field.read(l.sheet.desk, text)
	if err == nil {
		// What was typed is handed over: the edit shows what it makes of it.
		l.input.keep(true)
		err = l.sheet.about.change("change "+l.field.called()+" of "+l.sheet.about.called(all), to)
	}
	if err != nil {
		l.input.keep(false)
		if _, pending := l.input.pending(); !pending {
			l.input.put(l.shown, l.mixed, l.options())
		}
		l.say(err)
		return
	}
	l.sheet.refresh()
}

// say says under the field what is wrong with it; nil for nothing.
func (l *line[T]) say(err error) {
	text := ""
	if err != nil {
		text = inWords(err)
	}
	if l.fault.Text == text {
		return
	}
	l.fault.SetText(text)
	if text == "" {
		l.fault.Hide()
	} else {
		l.fault.Show()
	}
	l.sheet.resized()
}

// inWords says what is wrong with one figure; the field says which one it is.
func inWords(err error) string {
	var wrong *site.LoadError
	if errors.As(err, &wrong) && len(wrong.Problems) > 0 {
		p := wrong.Problems[0]
		return "found " + p.Found + ", must be " + p.Limit
	}
	return err.Error()
}
