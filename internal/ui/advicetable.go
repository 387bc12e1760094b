package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/route/advice"
)

// adviceTable sets a table in columns, with its actions at the left and what is
// to be said of it below.
func adviceTable(t advice.Table, actions []func()) fyne.CanvasObject {
	var cells []fyne.CanvasObject
	acts := len(actions) > 0 && len(t.Rows) > 0
	if acts {
		cells = append(cells, widget.NewLabel(""))
	}
	for _, head := range t.Head {
		cells = append(cells, widget.NewLabelWithStyle(head, fyne.TextAlignLeading, fyne.TextStyle{Bold: true}))
	}
	for i, row := range t.Rows {
		switch {
		case acts && i < len(actions) && actions[i] != nil:
			cells = append(cells, widget.NewButton("Take it", actions[i]))
		case acts:
			cells = append(cells, widget.NewLabel(""))
		}
		for _, text := range row {
			cells = append(cells, widget.NewLabel(text))
		}
	}
	notes := widget.NewLabel(strings.Join(t.Notes, "\n"))
	notes.Wrapping = fyne.TextWrapWord
	if len(cells) == 0 {
		return container.NewVScroll(notes)
	}
	across := len(t.Head)
	if acts {
		across++
	}
	return container.NewVScroll(container.NewVBox(container.NewHScroll(container.New(columns(across), cells...)), notes))
}

// columns lays cells out in so many columns, each as wide as its widest cell, and
// rows as high as their highest, so that what stands in a row stands in line.
type columns int

// measure is how wide the columns and how high the rows are.
func (c columns) measure(cells []fyne.CanvasObject) (wide, high []float32) {
	wide, high = make([]float32, c), make([]float32, (len(cells)+int(c)-1)/int(c))
	for i, cell := range cells {
		column, row, least := i%int(c), i/int(c), cell.MinSize()
		wide[column], high[row] = max(wide[column], least.Width), max(high[row], least.Height)
	}
	return wide, high
}

func (c columns) MinSize(cells []fyne.CanvasObject) fyne.Size {
	wide, high := c.measure(cells)
	gap := theme.Padding()
	size := fyne.NewSize(float32(len(wide)-1)*gap, float32(len(high)-1)*gap)
	for _, w := range wide {
		size.Width += w
	}
	for _, h := range high {
		size.Height += h
	}
	return size
}

func (c columns) Layout(cells []fyne.CanvasObject, _ fyne.Size) {
	wide, high := c.measure(cells)
	gap := theme.Padding()
	at := fyne.NewPos(0, 0)
	for i, cell := range cells {
		column, row := i%int(c), i/int(c)
		cell.Move(at)
		cell.Resize(fyne.NewSize(wide[column], high[row]))
		if at.X += wide[column] + gap; column == int(c)-1 {
			at = fyne.NewPos(0, at.Y+high[row]+gap)
		}
	}
}
