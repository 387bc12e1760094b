package form

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// columns is what the rows of one sheet share: how wide the labels are, at the size
// of text that they were measured at.
type columns struct {
	label, text float32
	measure     func() float32
}

// wide is how wide the labels are.
func (c *columns) wide() float32 {
	if text := theme.TextSize(); text != c.text {
		c.label, c.text = c.measure(), text
	}
	return c.label
}

// again has the labels measured anew.
func (c *columns) again() { c.text = 0 }

// most is the share of a row that its label may take; where the labels need
// more, they stand above what they name.
const most = 0.42

// rowLayout sets a label, an input and what is wrong with it: the label beside
// the input, or above it where the row is narrow.
type rowLayout struct {
	columns *columns
	width   float32 // as last laid out
}

func (l *rowLayout) stacked(o []fyne.CanvasObject) bool {
	label := l.columns.wide()
	if l.width > 0 && unlabelled(o[0]) && label+o[1].MinSize().Width > l.width {
		return true // what names itself would reach past the row
	}
	return l.width > 0 && label > most*l.width
}

func unlabelled(label fyne.CanvasObject) bool {
	t, ok := label.(*widget.Label)
	return ok && t.Text == ""
}

// above is the room of a label above its input; an empty one needs none.
func (l *rowLayout) above(label fyne.CanvasObject) float32 {
	if unlabelled(label) {
		return 0
	}
	return label.MinSize().Height - theme.InnerPadding()
}

func (l *rowLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	label, in, fault := o[0], o[1], o[2]
	x, y := l.columns.wide(), float32(0)
	if l.stacked(o) {
		x, y = 0, l.above(label)
	}
	label.Move(fyne.NewPos(0, 0))
	label.Resize(fyne.NewSize(l.columns.wide(), label.MinSize().Height))
	in.Move(fyne.NewPos(x, y))
	in.Resize(fyne.NewSize(size.Width-x, in.Size().Height))
	in.Resize(fyne.NewSize(size.Width-x, in.MinSize().Height))
	if fault.Visible() {
		fault.Move(fyne.NewPos(x, y+in.Size().Height-theme.InnerPadding()/2))
		fault.Resize(fyne.NewSize(size.Width-x, fault.Size().Height))
		fault.Resize(fyne.NewSize(size.Width-x, fault.MinSize().Height))
	}
}

func (l *rowLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	label, in, fault := o[0].MinSize(), o[1].MinSize(), o[2]
	h := max(label.Height, in.Height)
	w := min(l.columns.wide(), label.Width) + in.Width
	if l.stacked(o) {
		h, w = l.above(o[0])+in.Height, max(label.Width, in.Width)
	}
	if fault.Visible() {
		h += fault.MinSize().Height - theme.InnerPadding()/2
	}
	return fyne.NewSize(w, h)
}

// stack sets objects one below the other. It lays each out twice, for wrapped
// text knows its height only when it knows its width.
type stack struct {
	gap float32
	bar bool // leaves room for a scroll bar
}

func (l *stack) inset() float32 {
	if l.bar {
		return theme.ScrollBarSmallSize() + theme.Padding()/2
	}
	return 0
}

func (l *stack) Layout(o []fyne.CanvasObject, size fyne.Size) {
	y, w := float32(0), size.Width-l.inset()
	for _, c := range o {
		if !c.Visible() {
			continue
		}
		c.Move(fyne.NewPos(0, y))
		c.Resize(fyne.NewSize(w, c.MinSize().Height))
		h := c.MinSize().Height
		c.Resize(fyne.NewSize(w, h))
		y += h + l.gap
	}
}

func (l *stack) MinSize(o []fyne.CanvasObject) fyne.Size {
	var size fyne.Size
	for _, c := range o {
		if !c.Visible() {
			continue
		}
		m := c.MinSize()
		if size.Height > 0 {
			size.Height += l.gap
		}
		size.Width = max(size.Width, m.Width+l.inset())
		size.Height += m.Height
	}
	return size
}

// page is a column of objects that scrolls.
type page struct {
	widget.BaseWidget
	body   *fyne.Container
	scroll *container.Scroll
	least  fyne.Size
}

func newPage(least fyne.Size, objects ...fyne.CanvasObject) *page {
	p := &page{body: container.New(&stack{gap: 2, bar: true}, objects...), least: least}
	p.scroll = container.NewVScroll(p.body)
	p.ExtendBaseWidget(p)
	return p
}

// again lays the page out anew after something grew or went.
func (p *page) again() {
	p.lay(p.Size())
	p.scroll.Refresh()
}

// lay sets the column as wide as the page.
func (p *page) lay(size fyne.Size) {
	if size.Width <= 0 {
		return
	}
	p.body.Resize(fyne.NewSize(size.Width, p.body.MinSize().Height))
	p.body.Layout.Layout(p.body.Objects, p.body.Size())
	p.scroll.Resize(size)
	p.scroll.Refresh()
}

// CreateRenderer is for Fyne.
func (p *page) CreateRenderer() fyne.WidgetRenderer { return &pageRenderer{p} }

type pageRenderer struct{ p *page }

func (r *pageRenderer) Layout(size fyne.Size)        { r.p.lay(size) }
func (r *pageRenderer) MinSize() fyne.Size           { return r.p.least }
func (r *pageRenderer) Refresh()                     { r.p.again() }
func (r *pageRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.p.scroll} }
func (r *pageRenderer) Destroy()                     {}
