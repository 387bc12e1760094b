package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/ui/hand"
)

// kit is the column of tools on the left: one row for each, with the key that
// takes it in hand.
type kit struct {
	w      *Window
	column fyne.CanvasObject
	rows   []*kitRow
}

func newKit(w *Window) *kit {
	k := &kit{w: w}
	list := container.New(tight{})
	group := ""
	for _, e := range hand.Kit() {
		if e.Group != group && group != "" {
			list.Add(widget.NewSeparator())
		}
		group = e.Group
		row := newKitRow(e, func() { k.take(e) })
		k.rows = append(k.rows, row)
		list.Add(row)
	}
	k.column = container.NewVScroll(list)
	return k
}

// take puts a tool in hand.
func (k *kit) take(e hand.Entry) {
	k.w.guard(func() {
		t := e.New()
		if e.Name == hand.StackName {
			if t = k.w.stackTool(); t == nil {
				return
			}
		}
		k.w.board.SetTool(t)
		k.w.board.Focus()
	})()
}

// follow marks the tool in hand.
func (k *kit) follow() {
	name := k.w.board.Tool().Name()
	for _, r := range k.rows {
		r.mark(r.entry.Name == name)
	}
}

// kitRow is one tool of the kit.
type kitRow struct {
	widget.BaseWidget
	entry      hand.Entry
	tapped     func()
	chosen     bool
	hovered    bool
	ground     *canvas.Rectangle
	edge       *canvas.Rectangle
	name, keys *canvas.Text
}

func newKitRow(e hand.Entry, tapped func()) *kitRow {
	r := &kitRow{entry: e, tapped: tapped}
	r.ground = canvas.NewRectangle(color.Transparent)
	r.edge = canvas.NewRectangle(color.Transparent)
	r.name = canvas.NewText(e.Name, color.Black)
	r.keys = canvas.NewText(e.Key, color.Black)
	r.keys.TextStyle.Monospace = true
	r.ExtendBaseWidget(r)
	return r
}

func (r *kitRow) mark(chosen bool) {
	if r.chosen != chosen {
		r.chosen = chosen
		r.Refresh()
	}
}

// Tapped takes the tool in hand.
func (r *kitRow) Tapped(*fyne.PointEvent) { r.tapped() }

// MouseIn lights the row up under the pointer, until MouseOut.
func (r *kitRow) MouseIn(*desktop.MouseEvent) { r.hovered = true; r.Refresh() }

// MouseMoved is for Fyne.
func (r *kitRow) MouseMoved(*desktop.MouseEvent) {}

// MouseOut is for Fyne.
func (r *kitRow) MouseOut() { r.hovered = false; r.Refresh() }

// CreateRenderer is for Fyne.
func (r *kitRow) CreateRenderer() fyne.WidgetRenderer {
	k := &kitRowRenderer{r}
	k.Refresh()
	return k
}

type kitRowRenderer struct{ r *kitRow }

func (k *kitRowRenderer) Destroy() {}

func (k *kitRowRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{k.r.ground, k.r.edge, k.r.name, k.r.keys}
}

func (k *kitRowRenderer) MinSize() fyne.Size {
	name, key := k.r.name.MinSize(), k.r.keys.MinSize()
	return fyne.NewSize(name.Width+key.Width+30, name.Height+5)
}

func (k *kitRowRenderer) Layout(s fyne.Size) {
	r := k.r
	r.ground.Resize(s)
	r.edge.Resize(fyne.NewSize(4, s.Height))
	name, key := r.name.MinSize(), r.keys.MinSize()
	r.name.Move(fyne.NewPos(10, (s.Height-name.Height)/2))
	r.keys.Move(fyne.NewPos(s.Width-key.Width-8, (s.Height-key.Height)/2))
}

func (k *kitRowRenderer) Refresh() {
	r := k.r
	size := theme.Size(theme.SizeNameText)
	r.name.TextSize, r.keys.TextSize = size, size
	r.name.Color = theme.Color(theme.ColorNameForeground)
	r.keys.Color = theme.Color(theme.ColorNamePlaceHolder)
	r.name.TextStyle.Bold = r.chosen
	r.ground.FillColor, r.edge.FillColor = color.Transparent, color.Transparent
	if r.hovered {
		r.ground.FillColor = theme.Color(theme.ColorNameHover)
	}
	if r.chosen {
		r.ground.FillColor = theme.Color(theme.ColorNameSelection)
		r.edge.FillColor = theme.Color(theme.ColorNamePrimary)
	}
	k.Layout(r.Size())
	canvas.Refresh(r)
}

// tight lays rows one under the other without room between them.
type tight struct{}

// MinSize is for Fyne.
func (tight) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var s fyne.Size
	for _, o := range objects {
		m := o.MinSize()
		s.Width, s.Height = max(s.Width, m.Width), s.Height+m.Height
	}
	return s
}

// Layout is for Fyne.
func (tight) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	y := float32(0)
	for _, o := range objects {
		h := o.MinSize().Height
		o.Move(fyne.NewPos(0, y))
		o.Resize(fyne.NewSize(size.Width, h))
		y += h
	}
}
