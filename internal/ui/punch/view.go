package punch

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// rowView shows one row. It is used again for another when the list scrolls.
type rowView struct {
	widget.BaseWidget
	sign   *sign
	head   *widget.Label // the word of the gravity and the place
	body   *widget.Label
	button *widget.Button
	step   func()
}

func newRowView() *rowView {
	v := &rowView{sign: newSign(), head: widget.NewLabel(""), body: widget.NewLabel("")}
	v.head.TextStyle.Bold = true
	v.head.Truncation = fyne.TextTruncateEllipsis
	v.body.SizeName = bodySize
	v.button = widget.NewButton("", func() {
		if v.step != nil {
			v.step()
		}
	})
	v.ExtendBaseWidget(v)
	return v
}

const bodySize = theme.SizeNameCaptionText

func (v *rowView) show(r *row, lines []string, do func(*Step)) {
	v.sign.set(r.gravity)
	setText(v.head, words[r.gravity]+": "+r.place)
	setText(v.body, strings.Join(lines, "\n"))
	v.step = nil
	if r.step == nil {
		v.button.Hide()
	} else {
		v.step = func() { do(r.step) }
		v.button.SetText(r.step.Say)
		v.button.Show()
	}
	v.Refresh()
}

func setText(l *widget.Label, text string) {
	if l.Text != text {
		l.SetText(text)
	}
}

// CreateRenderer is for Fyne.
func (v *rowView) CreateRenderer() fyne.WidgetRenderer {
	return &rowRenderer{v, []fyne.CanvasObject{v.sign, v.head, v.body, v.button}}
}

type rowRenderer struct {
	v       *rowView
	objects []fyne.CanvasObject
}

// inset is how far the text of a row stands in, past the sign.
func inset() float32 { return theme.TextSize() + 2*theme.Padding() }

// overlap draws the head and the body together: each label keeps its own room
// above and below.
func overlap() float32 { return theme.InnerPadding() * 1.5 }

func (r *rowRenderer) Layout(size fyne.Size) {
	v := r.v
	x, w := inset(), size.Width-inset()
	head := v.head.MinSize().Height
	a := v.sign.MinSize()
	v.sign.Resize(a)
	v.sign.Move(fyne.NewPos(theme.Padding(), (head-a.Height)/2))
	v.head.Move(fyne.NewPos(x-theme.InnerPadding()/2, 0))
	v.head.Resize(fyne.NewSize(w, head))
	v.body.Move(fyne.NewPos(x-theme.InnerPadding()/2, head-overlap()))
	body := v.body.MinSize().Height
	v.body.Resize(fyne.NewSize(w, body))
	v.button.Move(fyne.NewPos(x+theme.InnerPadding()/2, head-overlap()+body))
	v.button.Resize(v.button.MinSize())
}

// MinSize is the height of a row with one line; the list is told those of the
// others.
func (r *rowRenderer) MinSize() fyne.Size {
	return fyne.NewSize(160, r.v.head.MinSize().Height)
}

func (r *rowRenderer) Refresh()                     { r.Layout(r.v.Size()) }
func (r *rowRenderer) Objects() []fyne.CanvasObject { return r.objects }
func (r *rowRenderer) Destroy()                     {}

// measure knows how high rows are without showing them.
type measure struct {
	text, inner     float32 // of the theme that it was made for
	head, one, more float32 // a head; a body of one line, and what each further adds
	button          float32
	runes           map[rune]float32
}

func newMeasure() *measure {
	v := newRowView()
	m := &measure{text: theme.TextSize(), inner: theme.InnerPadding(), runes: map[rune]float32{}}
	m.head = v.head.MinSize().Height
	v.body.SetText("x")
	m.one = v.body.MinSize().Height
	v.body.SetText("x\nx")
	m.more = v.body.MinSize().Height - m.one
	m.button = v.button.MinSize().Height
	return m
}

// current reports whether the theme is still the one that was measured.
func (m *measure) current() bool {
	return m.text == theme.TextSize() && m.inner == theme.InnerPadding()
}

// word is the width of a word, letter by letter: thousands of words are made of
// few letters.
func (m *measure) word(w string) float32 {
	sum := float32(0)
	for _, r := range w {
		width, known := m.runes[r]
		if !known {
			width = fyne.MeasureText(string(r), theme.Size(bodySize), fyne.TextStyle{}).Width
			m.runes[r] = width
		}
		sum += width
	}
	return sum
}

// lines breaks the body of a row for a width of the list.
func (m *measure) lines(r *row, width float32) []string {
	const slack = 3 // letters measured one by one are a hair off
	room := width - inset() - 2*theme.InnerPadding() - slack
	var all []string
	for _, p := range r.body {
		all = append(all, wrap(p, room, m.word)...)
	}
	return all
}

// height is how high a row with a body of so many lines is.
func (m *measure) height(r *row, lines int) float32 {
	h := m.head
	if lines > 0 {
		h += m.one + float32(lines-1)*m.more - overlap()
	}
	if r.step != nil {
		h += m.button + theme.Padding()
	}
	return h
}
