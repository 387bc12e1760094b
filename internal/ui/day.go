package ui

import (
	"fmt"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/export"
	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/route/replay"
	"linemap/internal/ui/board"
	"linemap/internal/ui/form"
)

// day joins the strip of the day to the plan and to the board.
type day struct {
	play    *widget.Button
	readout *widget.Label
	playing bool
	replay  *replay.Replay
	of      *route.Plan // what replay plays
	toggle  func()
}

// controls are the play button and the words beside the strip.
func (d *day) controls(w *Window) fyne.CanvasObject {
	d.toggle = func() { d.run(w, !d.playing) }
	d.play = widget.NewButtonWithIcon("", theme.MediaPlayIcon(), w.guard(d.toggle))
	d.readout = widget.NewLabel("")
	d.readout.Wrapping = fyne.TextWrapWord
	d.readout.SizeName = theme.SizeNameCaptionText
	title := widget.NewLabel("The day")
	title.TextStyle.Bold = true
	side := container.NewBorder(container.NewHBox(title, d.play), nil, nil, nil, container.NewVScroll(d.readout))
	return container.New(width(190), side)
}

// run plays the day or stops it where it is.
func (d *day) run(w *Window, on bool) {
	switch {
	case !on || d.replay == nil:
		w.strip.Pause()
	default:
		if w.strip.Time() >= d.replay.Ends() {
			w.strip.SetTime(0)
		}
		w.strip.Play()
	}
}

// follows shows on the button whether the day plays.
func (d *day) follows(on bool) {
	d.playing = on
	if on {
		d.play.SetIcon(theme.MediaPauseIcon())
	} else {
		d.play.SetIcon(theme.MediaPlayIcon())
	}
}

// follow shows the plan as it stands.
func (d *day) follow(w *Window) {
	p := w.desk.Planning()
	if p.Plan != d.of {
		d.of, d.replay = p.Plan, nil
		if p.Plan != nil {
			g, _ := network.Trace(&p.Site.Network)
			d.replay = replay.New(p.Site, w.desk.Tables(), g, p.Plan)
		}
		w.board.Play(board.Played{})
		w.board.Light(0)
		d.run(w, false)
		d.readout.SetText("")
	}
	switch {
	case p.Plan != nil && len(p.Plan.Day) > 0:
		w.strip.SetPlan(p.Site, p.Plan, p.Stale)
	case p.Err != nil:
		w.strip.SetPlan(nil, nil, false)
		w.strip.SetMessage("There is no plan: " + p.Err.Error())
	default:
		w.strip.SetPlan(nil, nil, false)
		w.strip.SetMessage(form.Next(w.desk))
	}
}

// playAt shows the moment of the day that the marker of the strip is at.
func (w *Window) playAt(t time.Duration) {
	w.guard(func() {
		d := &w.day
		if d.replay == nil || t <= 0 {
			w.board.Play(board.Played{})
			return
		}
		m := d.replay.At(t)
		sys := w.units()
		p := board.Played{Lay: m.Lay, Hose: m.Hose}
		words := export.Capital(m.Words)
		if m.Run > 0 && len(m.Hose) > 0 {
			p.Label = sys.Footage(m.Reading)
			words += fmt.Sprintf("\n%s of hose, %.1f bends spent, %s at the nozzle", sys.Footage(m.Reading), m.Bends, sys.Pressure(m.Pressure))
			if m.Pull > 0 {
				words += ", pull at the reel " + sys.Force(m.Pull)
			} else if m.Drag > 0 {
				words += ", the hose drags " + sys.Force(m.Drag)
			}
			if m.Level != "" && m.Level != w.desk.Level() {
				words += "\nThe nozzle is on " + m.Level + "."
			}
		}
		words += fmt.Sprintf("\nTank %s", sys.Volume(m.Tank))
		d.readout.SetText(words)
		w.board.Play(p)
	})()
}

// width is a layout of a fixed width, in proportion to the size of text.
type width float32

// MinSize is for Fyne.
func (w width) MinSize(objects []fyne.CanvasObject) fyne.Size {
	const ordinary = 13
	return fyne.NewSize(float32(w)*theme.Size(theme.SizeNameText)/ordinary, objects[0].MinSize().Height)
}

// Layout is for Fyne.
func (w width) Layout(objects []fyne.CanvasObject, s fyne.Size) { objects[0].Resize(s) }
