package form

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/unit"
)

// various stands where the things selected differ.
const various = "various"

// input is what a field is filled in with.
type input interface {
	object() fyne.CanvasObject
	// put shows a text; mixed says that the things differ. Options are what can
	// be chosen.
	put(text string, mixed bool, options []string)
	// pending is what was typed and not handed over.
	pending() (string, bool)
	// keep has what was typed count as handed over, and as typed again where it
	// was not taken.
	keep(taken bool)
}

// newInput makes the input of a way; hand gets what is filled in, back is called
// where it is taken back.
func newInput(w way, label, hint string, hand func(string), back func()) input {
	switch w {
	case written:
		const lines = 3
		return &typedInput{newEntry(lines, hint, hand, back), hint}
	case chosen:
		in := &chosenInput{hint: hint}
		in.list = widget.NewSelect(nil, func(word string) {
			if !in.putting {
				hand(word)
			}
		})
		return in
	case ticked:
		in := &tickedInput{label: label}
		in.box = widget.NewCheck(label, func(on bool) {
			if in.putting {
				return
			}
			if on {
				hand(yes)
			} else {
				hand(no)
			}
		})
		return in
	case slid:
		in := &slidInput{Slider: widget.NewSlider(0, 1)}
		in.Step = 0.05
		in.OnChangeEnded = func(v float64) {
			if !in.putting {
				hand(unit.Shares.Write(v, unit.US))
			}
		}
		return in
	case told:
		l := widget.NewLabel("")
		l.Wrapping = fyne.TextWrapWord
		return (*toldInput)(l)
	}
	return &typedInput{newEntry(1, hint, hand, back), hint}
}

type typedInput struct {
	entry *entry
	hint  string
}

func (in *typedInput) object() fyne.CanvasObject { return in.entry }

func (in *typedInput) put(text string, mixed bool, _ []string) {
	hint := in.hint
	if mixed {
		text, hint = "", various
	}
	if in.entry.PlaceHolder != hint {
		in.entry.SetPlaceHolder(hint)
	}
	in.entry.put(text)
}

func (in *typedInput) pending() (string, bool) { return in.entry.Text, in.entry.dirty() }
func (in *typedInput) keep(taken bool)         { in.entry.handed = taken }

type chosenInput struct {
	list    *widget.Select
	hint    string
	putting bool
}

func (in *chosenInput) object() fyne.CanvasObject { return in.list }

func (in *chosenInput) put(text string, mixed bool, options []string) {
	hint := in.hint
	if mixed {
		text, hint = "", various
	}
	if in.list.Selected == text && in.list.PlaceHolder == hint && slices.Equal(in.list.Options, options) {
		return
	}
	in.list.PlaceHolder, in.list.Options = hint, options
	in.putting = true
	in.list.Selected = text
	in.list.Refresh()
	in.putting = false
}

func (in *chosenInput) pending() (string, bool) { return "", false }
func (in *chosenInput) keep(bool)               {}

type tickedInput struct {
	box     *widget.Check
	label   string
	putting bool
}

func (in *tickedInput) object() fyne.CanvasObject { return in.box }

func (in *tickedInput) put(text string, mixed bool, _ []string) {
	in.putting = true
	in.box.Checked, in.box.Partial = text == yes && !mixed, mixed
	label := in.label
	if mixed {
		label += " (" + various + ")"
	}
	in.box.Text = label
	in.box.Refresh()
	in.putting = false
}

func (in *tickedInput) pending() (string, bool) { return "", false }
func (in *tickedInput) keep(bool)               {}

type slidInput struct {
	*widget.Slider
	putting bool
}

func (in *slidInput) object() fyne.CanvasObject { return in.Slider }

func (in *slidInput) put(text string, _ bool, _ []string) {
	v, err := unit.Shares.Parse(text, unit.US)
	if err != nil {
		return
	}
	in.putting = true
	in.SetValue(v)
	in.putting = false
}

func (in *slidInput) pending() (string, bool) { return "", false }
func (in *slidInput) keep(bool)               {}

type toldInput widget.Label

func (in *toldInput) object() fyne.CanvasObject { return (*widget.Label)(in) }

func (in *toldInput) put(text string, _ bool, _ []string) {
	if in.Text != text {
		(*widget.Label)(in).SetText(text)
	}
}

func (in *toldInput) pending() (string, bool) { return "", false }
func (in *toldInput) keep(bool)               {}
