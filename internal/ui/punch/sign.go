package punch

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// sign is the drawn sign of a gravity: a cross, a broken pipe, a triangle or a
// ring. Its shape tells it apart without its colour.
type sign struct {
	widget.BaseWidget
	gravity gravity
}

func newSign() *sign {
	s := new(sign)
	s.ExtendBaseWidget(s)
	return s
}

func (s *sign) set(g gravity) {
	if s.gravity != g {
		s.gravity = g
		s.Refresh()
	}
}

// shapes are the lines of each sign in a square from 0 to 1.
var shapes = [gravities][][4]float32{
	mend:  {{0.15, 0.15, 0.85, 0.85}, {0.15, 0.85, 0.85, 0.15}},
	short: {{0, 0.5, 0.3, 0.5}, {0.3, 0.2, 0.3, 0.8}, {0.7, 0.2, 0.7, 0.8}, {0.7, 0.5, 1, 0.5}},
	heed:  {{0.5, 0.08, 0.98, 0.92}, {0.98, 0.92, 0.02, 0.92}, {0.02, 0.92, 0.5, 0.08}},
}

// CreateRenderer is for Fyne.
func (s *sign) CreateRenderer() fyne.WidgetRenderer {
	r := &signRenderer{sign: s, ring: canvas.NewCircle(color.Transparent)}
	r.objects = []fyne.CanvasObject{r.ring}
	for range 4 {
		l := canvas.NewLine(color.Transparent)
		r.lines = append(r.lines, l)
		r.objects = append(r.objects, l)
	}
	r.Refresh()
	return r
}

type signRenderer struct {
	sign    *sign
	ring    *canvas.Circle
	lines   []*canvas.Line
	objects []fyne.CanvasObject
}

func (r *signRenderer) colour() color.Color {
	name := theme.ColorNamePrimary
	switch r.sign.gravity {
	case mend, short:
		name = theme.ColorNameError
	case heed:
		name = theme.ColorNameWarning
	}
	return theme.ColorForWidget(name, r.sign)
}

func (r *signRenderer) Layout(size fyne.Size) {
	a := min(size.Width, size.Height)
	r.ring.Move(fyne.NewPos(a*0.1, a*0.1))
	r.ring.Resize(fyne.NewSize(a*0.8, a*0.8))
	for i, l := range r.lines {
		if at := shapes[r.sign.gravity]; i < len(at) {
			l.Position1 = fyne.NewPos(at[i][0]*a, at[i][1]*a)
			l.Position2 = fyne.NewPos(at[i][2]*a, at[i][3]*a)
		}
	}
}

func (r *signRenderer) MinSize() fyne.Size {
	a := theme.SizeForWidget(theme.SizeNameText, r.sign)
	return fyne.NewSquareSize(a)
}

func (r *signRenderer) Refresh() {
	c, wide := r.colour(), theme.SizeForWidget(theme.SizeNameText, r.sign)/7
	at := shapes[r.sign.gravity]
	r.ring.StrokeColor, r.ring.StrokeWidth = c, wide
	r.ring.Hidden = len(at) > 0
	for i, l := range r.lines {
		l.StrokeColor, l.StrokeWidth = c, wide
		l.Hidden = i >= len(at)
	}
	r.Layout(r.sign.Size())
	canvas.Refresh(r.sign)
}

func (r *signRenderer) Objects() []fyne.CanvasObject { return r.objects }
func (r *signRenderer) Destroy()                     {}
