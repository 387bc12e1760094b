package board

import (
	"fmt"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"linemap/internal/export/chart"
	"linemap/internal/ui/look"
	"linemap/internal/ui/view"
)

func sprint(v any) string { return fmt.Sprint(v) }

// border is how far the bitmap reaches past the board on each side, as a share
// of the board.
const border = 0.3

// most bounds the size of a bitmap in dots, whatever the screen.
const most = 24e6

// Look is how the board is coloured now.
func (b *Board) Look() look.Look {
	if app := fyne.CurrentApp(); app != nil {
		return look.For(look.Dark(app))
	}
	return look.Day
}

// repaint asks for a new bitmap of what there is now.
func (b *Board) repaint() {
	if b.view.W <= 0 || b.view.H <= 0 {
		return
	}
	d := b.desk
	j := &job{site: d.Snapshot(), look: b.Look(), grid: d.Grid().Shown, density: b.density()}
	if b.plan {
		if p := d.Planning().Plan; p != nil && len(p.Blocks) > 0 { // one that cleans nothing would cross out all
			j.plan = p
		}
	}
	j.opt = chart.BoardOptions{
		Level: d.Level(), Ghost: b.ghosted, ShowPlan: b.plan, ShowLays: b.plan, Units: d.Units(), Pictures: b.acts.Pictures,
	}
	j.view = b.view.Resize(reach(b.view.W, j.density), reach(b.view.H, j.density))
	b.asked = j
	b.painter.paint(j)
}

// reach is the length of a side of the bitmap, in pixels: whole dots, and as
// many past the board on either side, so that no dot of the bitmap falls between
// two of the screen.
func reach(side, density float64) float64 {
	return math.Ceil(side*density)/density + 2*math.Ceil(border*side*density)/density
}

// want asks for a new bitmap where the one that is there, or asked for, does not
// serve the view.
func (b *Board) want() {
	if b.asked == nil || !b.serves(b.asked) {
		b.repaint()
	}
}

// serves reports whether a bitmap shows the view sharply and reaches past it on
// all sides.
func (b *Board) serves(j *job) bool {
	if j.view.Scale != b.view.Scale || j.density != b.density() {
		return false
	}
	const near = 0.3 // of the border that must be left
	x, y := near*border*b.view.W, near*border*b.view.H
	corner := j.view.Dot(b.view.Ground(view.Dot{}))
	return corner.X >= x && corner.Y >= y && corner.X+b.view.W <= j.view.W-x && corner.Y+b.view.H <= j.view.H-y
}

// density is the number of dots per pixel: that of the screen, less where the
// bitmap would be too large.
func (b *Board) density() float64 {
	density := 1.0
	if c := fyne.CurrentApp().Driver().CanvasForObject(b); c != nil {
		density = float64(c.Scale())
	}
	dots := b.view.W * b.view.H * (1 + 2*border) * (1 + 2*border) * density * density
	if dots > most {
		density *= math.Sqrt(most / dots)
	}
	return density
}

// receive takes a finished bitmap.
func (b *Board) receive(p *picture) {
	if p.err != nil {
		b.acts.Tell(p.err)
		return
	}
	if p.img == nil {
		return
	}
	b.shown = p
	b.layer.bitmap.Image = p.img
	b.place()
	b.layer.bitmap.Refresh()
}

// place moves and stretches the bitmap to where it belongs in the view.
func (b *Board) place() {
	if b.shown == nil || b.layer == nil {
		return
	}
	v := b.shown.job.view
	k := b.view.Scale / v.Scale
	at := b.view.Dot(v.Ground(view.Dot{}))
	b.layer.bitmap.Resize(fyne.NewSize(float32(v.W*k), float32(v.H*k)))
	b.layer.bitmap.Move(fyne.NewPos(float32(at.X), float32(at.Y)))
}

// CreateRenderer is for Fyne.
func (b *Board) CreateRenderer() fyne.WidgetRenderer {
	b.layer = newOverlay()
	return &renderer{board: b}
}

// renderer shows the bitmap and the live objects over it.
type renderer struct{ board *Board }

// IsClip keeps the drawing inside the board.
func (r *renderer) IsClip() bool { return true }

func (r *renderer) Destroy()                     {}
func (r *renderer) MinSize() fyne.Size           { return fyne.NewSize(200, 150) }
func (r *renderer) Objects() []fyne.CanvasObject { return r.board.layer.objects }

func (r *renderer) Layout(size fyne.Size) {
	b := r.board
	first := b.view.W == 0
	b.view = b.view.Resize(float64(size.Width), float64(size.Height))
	b.layer.paper.Resize(size)
	if first {
		b.Fit()
		return
	}
	b.place()
	b.want()
	b.overlay()
}

func (r *renderer) Refresh() {
	b := r.board
	if b.shown == nil || b.asked.look.Dark != b.Look().Dark {
		b.repaint()
	}
	b.overlay()
	canvas.Refresh(b)
}
