package ui

import (
	"cmp"
	"fmt"
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/export"
	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/ui/board"
	"linemap/internal/unit"
)

// showWelcome lays the welcome over the board: a new sketch, the guided one, the
// demo sites, the files of late.
func (w *Window) showWelcome() {
	w.hideWelcome()
	title := widget.NewRichText(&widget.TextSegment{Text: "linemap", Style: widget.RichTextStyleHeading})
	about := widget.NewLabel("Sketch the drains of a building, and see at once how a jetter cleans them: from which openings, in which order, with which hose, in how many minutes.")
	about.Wrapping = fyne.TextWrapWord

	begin := container.New(&cells{most: 3},
		w.bigButton("New sketch in feet", func() { w.beginNew(unit.US) }),
		w.bigButton("New sketch in metres", func() { w.beginNew(unit.Metric) }),
		w.bigButton("Guide me: three minutes", w.startGuide),
	)
	demos := container.New(&cells{most: 3})
	names, _ := site.Demos() // they travel inside the program
	for _, name := range names {
		demos.Add(w.demoCard(name))
	}
	rows := []fyne.CanvasObject{title, about, begin, heading("Look at a demo site"), demos}
	if recent := w.prefs.recent(); len(recent) > 0 {
		rows = append(rows, heading("Go on with"))
		for _, path := range recent[:min(len(recent), 4)] {
			link := widget.NewButton(filepath.Base(path)+"   "+filepath.Dir(path), w.guard(func() { w.open(path) }))
			link.Alignment, link.Importance = widget.ButtonAlignLeading, widget.LowImportance
			rows = append(rows, link)
		}
	}
	safety := widget.NewLabel("linemap plans; it does not supervise. Follow the machine's manual, local codes and a licensed contractor.")
	safety.Wrapping = fyne.TextWrapWord
	safety.SizeName = theme.SizeNameCaptionText
	body := container.NewBorder(nil, container.NewVBox(safety, container.NewHBox(widget.NewButton("Close", w.guard(w.hideWelcome)))), nil, nil,
		container.NewVScroll(container.NewVBox(rows...)))
	w.welcome = container.NewStack(canvas.NewRectangle(theme.Color(theme.ColorNameOverlayBackground)), container.NewPadded(body))
	w.over.Add(w.welcome)
}

func (w *Window) hideWelcome() {
	if w.welcome != nil {
		w.over.Remove(w.welcome)
		w.welcome = nil
		w.board.Focus()
	}
}

func (w *Window) beginNew(units unit.System) {
	w.prefs.SetString(prefUnits, string(units))
	w.newSite()
}

func (w *Window) bigButton(text string, do func()) fyne.CanvasObject {
	b := widget.NewButton(text, w.guard(do))
	b.Importance = widget.HighImportance
	return b
}

func heading(text string) fyne.CanvasObject {
	l := widget.NewLabel(text)
	l.TextStyle.Bold = true
	return l
}

// demoCard shows a demo site as a small picture with what it is.
func (w *Window) demoCard(name string) fyne.CanvasObject {
	const wide, high = 300, 170
	picture := &canvas.Image{FillMode: canvas.ImageFillContain}
	picture.SetMinSize(fyne.NewSize(wide/2, high/2))
	caption := widget.NewLabel(export.Capital(name))
	caption.Wrapping = fyne.TextWrapWord
	open := widget.NewButton("Open", w.guard(func() { w.openDemo(name) }))
	paper := w.board.Look()
	go func() {
		s, err := site.Demo(name)
		if err != nil {
			return
		}
		img, err := board.Thumbnail(s, 2*wide, 2*high, paper)
		fyne.Do(w.guard(func() {
			caption.SetText(fmt.Sprintf("%s\n%s", s.Job.Title, sizeOf(s)))
			if err == nil {
				picture.Image = img
				picture.Refresh()
			}
		}))
	}()
	return container.NewBorder(picture, open, nil, nil, caption)
}

// sizeOf says how large a site is.
func sizeOf(s *site.Site) string {
	g, _ := network.Trace(&s.Network)
	var long unit.Length
	for p := range s.Network.Pipes {
		long += g.Length(p)
	}
	return fmt.Sprintf("%d pipes, %s", len(s.Network.Pipes), s.Units.Length(long))
}

// cells is a layout in cells of one size, as many in a row as there is room for.
type cells struct {
	most int
	row  int // as last laid out
}

func (c *cells) cell(objects []fyne.CanvasObject) (size fyne.Size) {
	for _, o := range objects {
		size = size.Max(o.MinSize())
	}
	return size
}

// MinSize is for Fyne.
func (c *cells) MinSize(objects []fyne.CanvasObject) fyne.Size {
	cell, row := c.cell(objects), max(1, min(cmp.Or(c.row, c.most), len(objects)))
	rows := float32((len(objects) + row - 1) / row)
	return fyne.NewSize(cell.Width, rows*(cell.Height+theme.Padding())-theme.Padding())
}

// Layout is for Fyne.
func (c *cells) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	gap := theme.Padding()
	c.row = max(1, min(c.most, int((s.Width+gap)/(c.cell(objects).Width+gap))))
	wide := (s.Width+gap)/float32(c.row) - gap
	for i, o := range objects { // wrapped text knows its height when it knows its width
		o.Resize(fyne.NewSize(wide, o.MinSize().Height))
		o.Move(fyne.NewPos(float32(i%c.row)*(wide+gap), 0))
	}
	high := c.cell(objects).Height
	for i, o := range objects {
		o.Resize(fyne.NewSize(wide, high))
		o.Move(fyne.NewPos(o.Position().X, float32(i/c.row)*(high+gap)))
	}
}
