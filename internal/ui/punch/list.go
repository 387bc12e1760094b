package punch

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/site/edit"
	"linemap/internal/ui/desk"
)

// List is the punch list of a desk.
type List struct {
	widget.BaseWidget
	desk *desk.Desk
	goTo func(edit.Ref)

	rows    []row
	shown   []int // of rows, by the filter
	lines   [][]string
	filter  int // a gravity, or all
	width   float32
	measure *measure
	state   state

	heading, news *widget.Label
	pick          *widget.Select
	list          *widget.List
	place         *fyne.Container
	picking       bool
}

// all is the filter that hides nothing.
const all = -1

// state is what of the desk's news the rows were made of.
type state struct {
	running, stale bool
	revision       int
}

// New makes the punch list of a desk. GoTo has the board show a thing, where a
// row was clicked; it is selected then.
func New(d *desk.Desk, goTo func(edit.Ref)) *List {
	l := &List{desk: d, goTo: goTo, filter: all}
	l.heading = widget.NewLabel("")
	l.heading.TextStyle.Bold, l.heading.Wrapping = true, fyne.TextWrapWord
	l.news = widget.NewLabel("")
	l.news.SizeName, l.news.Wrapping = theme.SizeNameCaptionText, fyne.TextWrapWord
	l.pick = widget.NewSelect(nil, func(string) {
		if !l.picking {
			l.filter = l.filters()[l.pick.SelectedIndex()]
			l.fill()
		}
	})
	l.place = container.NewStack()
	l.ExtendBaseWidget(l)
	l.refill()
	d.Watch(l.changed)
	return l
}

// CreateRenderer is for Fyne.
func (l *List) CreateRenderer() fyne.WidgetRenderer {
	return &listRenderer{l, []fyne.CanvasObject{l.heading, l.pick, l.news, l.place}}
}

type listRenderer struct {
	l       *List
	objects []fyne.CanvasObject
}

func (r *listRenderer) Layout(size fyne.Size) {
	l := r.l
	pick := l.pick.MinSize()
	pick.Width = min(pick.Width, size.Width/2)
	l.pick.Resize(pick)
	l.pick.Move(fyne.NewPos(size.Width-pick.Width, 0))
	y := max(pick.Height, wrapped(l.heading, 0, size.Width-pick.Width))
	if l.news.Visible() {
		y += wrapped(l.news, y, size.Width)
	}
	l.place.Move(fyne.NewPos(0, y))
	l.place.Resize(fyne.NewSize(size.Width, max(0, size.Height-y)))
	if size.Width != l.width {
		l.width = size.Width
		l.fill()
	}
}

// wrapped sets a wrapping label at a height and returns how much it takes: it
// knows that only once it knows its width.
func wrapped(l *widget.Label, y, width float32) float32 {
	l.Move(fyne.NewPos(0, y))
	l.Resize(fyne.NewSize(width, l.Size().Height))
	l.Resize(fyne.NewSize(width, l.MinSize().Height))
	return l.MinSize().Height
}

func (r *listRenderer) MinSize() fyne.Size {
	const least = 120
	return fyne.NewSize(max(240, r.l.pick.MinSize().Width), least)
}

func (r *listRenderer) Refresh() {
	r.Layout(r.l.Size())
	if m := r.l.measure; m != nil && !m.current() {
		r.l.fill()
	}
}

func (r *listRenderer) Objects() []fyne.CanvasObject { return r.objects }
func (r *listRenderer) Destroy()                     {}

func (l *List) changed(what desk.Change) {
	plan := l.desk.Planning()
	_, current := l.desk.Findings()
	now := state{plan.Running, plan.Stale || !current, plan.Revision}
	switch {
	case what == desk.Opened, what&desk.Checked != 0, what&desk.Planned != 0 && now.revision != l.state.revision:
		l.state = now
		l.refill()
	case now != l.state:
		l.state = now
		l.say()
	}
}

// refill makes the rows anew.
func (l *List) refill() {
	l.rows = rowsOf(l.desk)
	l.fill() // first: saying it lays out the list, and that of the old rows is no good any more
	l.say()
}

// say says above the rows what they come to, and whether they are of the sketch
// as it stands.
func (l *List) say() {
	plan := l.desk.Planning()
	_, current := l.desk.Findings()
	setText(l.heading, heading(l.rows, plan.Plan, l.desk.Units()))
	news := ""
	switch {
	case !current:
		news = "Being checked: this is of the sketch before the last change."
	case plan.Running && plan.Stale:
		news = "Being planned: what is not cleaned is of the sketch before the last change."
	case plan.Running && plan.Plan == nil:
		news = "Being planned: what is not cleaned is not known yet."
	case plan.Err != nil:
		news = "No plan: " + plan.Err.Error()
	}
	setText(l.news, news)
	if hide := news == ""; hide == l.news.Visible() {
		if hide {
			l.news.Hide()
		} else {
			l.news.Show()
		}
	}
	l.Refresh()
}

// filters are the gravities that there are, after all of them.
func (l *List) filters() []int {
	found := []int{all}
	for g := range gravities {
		if slices.ContainsFunc(l.rows, func(r row) bool { return int(r.gravity) == g }) {
			found = append(found, g)
		}
	}
	return found
}

// fill shows the rows that the filter lets through.
func (l *List) fill() {
	filters := l.filters()
	if !slices.Contains(filters, l.filter) {
		l.filter = all
	}
	l.picking = true
	l.pick.Options = nil
	for _, f := range filters {
		word := "All"
		if f != all {
			word = words[f]
		}
		l.pick.Options = append(l.pick.Options, word)
		if f == l.filter {
			l.pick.Selected = word
		}
	}
	l.pick.Refresh()
	l.picking = false
	l.shown = l.shown[:0]
	for i := range l.rows {
		if l.filter == all || int(l.rows[i].gravity) == l.filter {
			l.shown = append(l.shown, i)
		}
	}
	if l.width > 0 {
		l.lay()
	}
}

// lay makes the list of the rows. It is another one each time: a list of the
// toolkit is told its heights before it is shown, or it lays itself out once
// for each of them.
func (l *List) lay() {
	if l.measure == nil || !l.measure.current() {
		l.measure = newMeasure()
	}
	offset, focused := float32(0), false
	on := fyne.CurrentApp().Driver().CanvasForObject(l)
	if l.list != nil {
		offset = l.list.GetScrollOffset()
		focused = on != nil && on.Focused() == fyne.Focusable(l.list)
	}
	list := widget.NewList(
		func() int { return len(l.shown) },
		func() fyne.CanvasObject { return newRowView() },
		func(i widget.ListItemID, o fyne.CanvasObject) {
			if i < len(l.shown) {
				o.(*rowView).show(&l.rows[l.shown[i]], l.lines[i], l.do)
			}
		})
	list.OnSelected = func(i widget.ListItemID) {
		list.UnselectAll() // so that it can be clicked again
		if i < len(l.shown) {
			l.visit(l.rows[l.shown[i]].ref)
		}
	}
	l.lines = make([][]string, len(l.shown))
	for i, at := range l.shown {
		r := &l.rows[at]
		l.lines[i] = l.measure.lines(r, l.width)
		list.SetItemHeight(i, l.measure.height(r, len(l.lines[i])))
	}
	l.list = list
	l.place.Objects = []fyne.CanvasObject{list}
	l.place.Refresh()
	list.ScrollToOffset(offset)
	if focused {
		on.Focus(list)
	}
}

// visit goes to a thing and selects it.
func (l *List) visit(r edit.Ref) {
	if r == (edit.Ref{}) {
		return
	}
	if level, on := edit.LevelOf(l.desk.Site(), r); on && level != "" {
		l.desk.SetLevel(level)
	}
	l.desk.Select(edit.Select(r))
	if l.desk.Selection().Has(r) { // it may be gone since it was checked
		l.goTo(r)
	}
}

// do carries a cure out.
func (l *List) do(s *Step) {
	if err := s.Do(); err != nil {
		setText(l.news, fmt.Sprintf("%s: %v", s.Say, err))
		l.news.Show()
		l.Refresh()
	}
}
