package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/network"
	"linemap/internal/site/edit"
	"linemap/internal/ui/desk"
)

// guideStep is one step of the guided first sketch: what to do, and how to see that
// it is done.
type guideStep struct {
	say  string
	done func(d *desk.Desk) bool
}

// guideSteps are the steps of the guided first sketch.
var guideSteps = []guideStep{
	{
		"Press P for pipe. Click in the middle of the board, move to the right, type 40 and press Return: 40 feet (or metres) of main. Press Return once more to end it.",
		func(d *desk.Desk) bool { return len(d.Site().Network.Pipes) > 0 },
	},
	{
		"Press O for outlet and click the right end of the pipe: there the drain leaves for the sewer. Water flows to it from everywhere.",
		func(d *desk.Desk) bool { return hasNode(d, network.KindOutlet) },
	},
	{
		"Press P again. Click somewhere above the main, then click the main at a slant toward the outlet: a branch, joined with a wye. Corners that you click on the way become bends.",
		func(d *desk.Desk) bool { return hasNode(d, network.KindJunction) },
	},
	{
		"Press C for cleanout and click the main between the wye and the outlet: there the hose goes in.",
		func(d *desk.Desk) bool { return hasNode(d, network.KindAccess) },
	},
	{
		"Press S for spot and click below the cleanout: there the trailer stands.",
		func(d *desk.Desk) bool { return len(d.Site().Spots) > 0 },
	},
	{
		"The strip at the foot now shows the day. Press the play button beside it and watch the hose. Press Escape for the pick tool, and click a pipe to see its card.",
		func(d *desk.Desk) bool {
			refs := d.Selection().Refs() // what was drawn last is selected too
			return len(refs) == 1 && refs[0].Kind == edit.Pipe && d.Planning().Plan != nil
		},
	},
	{
		"That is all there is to it. Ctrl+S saves the sketch, Ctrl+E writes the run sheet and the map, Ctrl+Z takes back whatever went wrong. F1 lists all keys.",
		func(*desk.Desk) bool { return false },
	},
}

func hasNode(d *desk.Desk, kind network.NodeKind) bool {
	for i := range d.Site().Network.Nodes {
		if d.Site().Network.Nodes[i].Kind == kind {
			return true
		}
	}
	return false
}

// guide is the guided first sketch while it is on.
type guide struct {
	w    *Window
	at   int
	text *widget.Label
	bar  *widget.ProgressBar
	card fyne.CanvasObject
}

// startGuide begins the guided sketch on an empty site.
func (w *Window) startGuide() {
	w.unlessChanged(func() {
		if err := w.desk.New(w.prefs.units()); err != nil {
			w.tell(err)
			return
		}
		w.hideWelcome()
		w.endGuide()
		g := &guide{w: w, text: widget.NewLabel(""), bar: widget.NewProgressBar()}
		g.text.Wrapping = fyne.TextWrapWord
		g.bar.TextFormatter = func() string { return fmt.Sprintf("step %d of %d", g.at+1, len(guideSteps)) }
		skip := widget.NewButton("Next step", w.guard(func() { g.show(g.at + 1) }))
		end := widget.NewButton("End the guide", w.guard(w.endGuide))
		ground := canvas.NewRectangle(theme.Color(theme.ColorNameOverlayBackground))
		ground.StrokeColor, ground.StrokeWidth = theme.Color(theme.ColorNamePrimary), 2
		inner := container.NewBorder(g.bar, container.NewHBox(skip, end), nil, nil, g.text)
		g.card = container.New(corner{420, 190}, container.NewStack(ground, container.NewPadded(inner)))
		w.guide = g
		w.over.Add(g.card)
		g.show(0)
		w.board.Focus()
	})
}

// show shows a step, the last one for any beyond.
func (g *guide) show(to int) {
	g.at = min(to, len(guideSteps)-1)
	g.text.SetText(guideSteps[g.at].say)
	g.bar.SetValue(float64(g.at) / float64(len(guideSteps)-1))
}

// follow goes on where a step is done.
func (g *guide) follow() {
	if g != nil && guideSteps[g.at].done(g.w.desk) {
		g.show(g.at + 1)
	}
}

func (w *Window) endGuide() {
	if w.guide != nil {
		w.over.Remove(w.guide.card)
		w.guide = nil
		w.board.Focus()
	}
}

// corner is a layout that puts one thing into the top left corner.
type corner fyne.Size

// MinSize is for Fyne.
func (c corner) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(100, 60) }

// Layout is for Fyne.
func (c corner) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	const gap = 12
	for _, o := range objects {
		o.Move(fyne.NewPos(gap, gap))
		o.Resize(fyne.NewSize(min(c.Width, s.Width-2*gap), min(max(c.Height, o.MinSize().Height), s.Height-2*gap)))
	}
}
