package board

import (
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"linemap/internal/export/drawing"
	"linemap/internal/network"
	"linemap/internal/ui/look"
	"linemap/internal/ui/view"
)

// overlay holds the live objects over the bitmap. Objects are kept and used
// again: making them anew for every move of the pointer would cost more than
// the picture.
type overlay struct {
	paper   *canvas.Rectangle
	bitmap  *canvas.Image
	objects []fyne.CanvasObject
	grown   bool // since objects was made

	lines pool[*canvas.Line]
	discs pool[*canvas.Circle]
	boxes pool[*canvas.Rectangle]
	texts pool[*canvas.Text]
}

// pool hands out objects, hidden ones first.
type pool[T fyne.CanvasObject] struct {
	all  []T
	used int
}

func newOverlay() *overlay {
	o := &overlay{paper: canvas.NewRectangle(color.White), bitmap: &canvas.Image{ScaleMode: canvas.ImageScaleFastest, FillMode: canvas.ImageFillStretch}}
	o.stack()
	return o
}

// stack puts the objects in their order: plates and frames under lines, lines
// under discs, text on top.
func (o *overlay) stack() {
	o.objects = append(o.objects[:0:0], o.paper, o.bitmap)
	o.objects = append(o.objects, o.boxes.objects()...)
	o.objects = append(o.objects, o.lines.objects()...)
	o.objects = append(o.objects, o.discs.objects()...)
	o.objects = append(o.objects, o.texts.objects()...)
}

func (p *pool[T]) objects() []fyne.CanvasObject {
	all := make([]fyne.CanvasObject, len(p.all))
	for i, obj := range p.all {
		all[i] = obj
	}
	return all
}

func take[T fyne.CanvasObject](o *overlay, p *pool[T], make func() T) T {
	if p.used == len(p.all) {
		obj := make()
		p.all = append(p.all, obj)
		o.grown = true
	}
	obj := p.all[p.used]
	p.used++
	if !obj.Visible() { // showing what is shown costs a refresh
		obj.Show()
	}
	return obj
}

func (p *pool[T]) hideRest() {
	for _, obj := range p.all[p.used:] {
		if obj.Visible() {
			obj.Hide()
		}
	}
	p.used = 0
}

// brush draws live objects in one view and look.
type brush struct {
	*overlay
	view view.View
	look look.Look
}

// mostLines bounds what is drawn live of one thing; what is larger is framed.
const mostLines = 400

// overlay draws the live objects anew.
func (b *Board) overlay() {
	if b.layer == nil {
		return
	}
	br := brush{b.layer, b.view, b.Look()}
	b.layer.paper.FillColor = br.look.Colour(drawing.White, 1)
	w := b.World()
	br.lit(b)
	br.selection(b.marks())
	br.hose(b.played)
	br.ghost(b.tool.Ghost(w))
	br.scaleBar(b)
	b.layer.lines.hideRest()
	b.layer.discs.hideRest()
	b.layer.boxes.hideRest()
	b.layer.texts.hideRest()
	if b.layer.grown {
		b.layer.grown = false
		b.layer.stack()
	}
	canvas.Refresh(b)
}

// line draws a line through places on the ground, pixels wide.
func (br brush) line(points []network.Point, c color.Color, width float32) {
	for i := 1; i < len(points) && i <= mostLines; i++ {
		br.stroke(br.view.Dot(points[i-1]), br.view.Dot(points[i]), c, width)
	}
}

// stroke draws a line on the screen, as far as it is seen.
func (br brush) stroke(p, q view.Dot, c color.Color, width float32) {
	p, q, seen := clip(p, q, br.view.W, br.view.H)
	if !seen {
		return
	}
	l := take(br.overlay, &br.lines, func() *canvas.Line { return canvas.NewLine(color.Black) })
	l.StrokeColor, l.StrokeWidth = c, width
	l.Position1, l.Position2 = pos(p), pos(q)
}

// dashed draws a broken line on the screen.
func (br brush) dashed(points []network.Point, c color.Color, width float32) {
	const on, off = 7.0, 5.0
	n := 0
	for i := 1; i < len(points); i++ {
		p, q, seen := clip(br.view.Dot(points[i-1]), br.view.Dot(points[i]), br.view.W, br.view.H)
		if !seen {
			continue
		}
		long := math.Hypot(q.X-p.X, q.Y-p.Y)
		for at := 0.0; at < long && n < mostLines; at += on + off {
			end := math.Min(long, at+on)
			along := func(t float64) view.Dot { return view.Dot{X: p.X + (q.X-p.X)*t/long, Y: p.Y + (q.Y-p.Y)*t/long} }
			br.stroke(along(at), along(end), c, width)
			n++
		}
	}
}

// disc draws a ring, filled or not, about a place.
func (br brush) disc(at network.Point, radius float64, stroke, fill color.Color, width float32) {
	d := br.view.Dot(at)
	if d.X < -radius || d.Y < -radius || d.X > br.view.W+radius || d.Y > br.view.H+radius {
		return
	}
	c := take(br.overlay, &br.discs, func() *canvas.Circle { return canvas.NewCircle(color.Transparent) })
	c.FillColor, c.StrokeColor, c.StrokeWidth = fill, stroke, width
	c.Resize(fyne.NewSquareSize(float32(2 * radius)))
	c.Move(fyne.NewPos(float32(d.X-radius), float32(d.Y-radius)))
}

// box draws a rectangle on the screen.
func (br brush) box(a, b view.Dot, stroke, fill color.Color, width float32) {
	r := take(br.overlay, &br.boxes, func() *canvas.Rectangle { return canvas.NewRectangle(color.Transparent) })
	r.FillColor, r.StrokeColor, r.StrokeWidth = fill, stroke, width
	r.Move(fyne.NewPos(float32(math.Min(a.X, b.X)), float32(math.Min(a.Y, b.Y))))
	r.Resize(fyne.NewSize(float32(math.Abs(a.X-b.X)), float32(math.Abs(a.Y-b.Y))))
}

// text writes on the screen, on a plate of the board's colour.
func (br brush) text(d view.Dot, s string, bold bool) {
	t := take(br.overlay, &br.texts, func() *canvas.Text { return canvas.NewText("", color.Black) })
	t.Text, t.Color, t.TextSize = s, br.look.Colour(drawing.Black, 1), fyne.CurrentApp().Settings().Theme().Size("text")
	t.TextStyle.Bold = bold
	size := t.MinSize()
	x := float32(math.Max(4, math.Min(d.X, br.view.W-float64(size.Width)-4)))
	y := float32(math.Max(4, math.Min(d.Y, br.view.H-float64(size.Height)-4)))
	br.plate(x-4, y-1, size.Width+8, size.Height+2)
	t.Move(fyne.NewPos(x, y))
	t.Resize(size)
	t.Refresh()
}

func (br brush) plate(x, y, w, h float32) {
	r := take(br.overlay, &br.boxes, func() *canvas.Rectangle { return canvas.NewRectangle(color.Transparent) })
	r.FillColor, r.StrokeColor, r.StrokeWidth = br.look.Colour(drawing.White, 0.85), color.Transparent, 0
	r.Move(fyne.NewPos(x, y))
	r.Resize(fyne.NewSize(w, h))
}

func (br brush) handle(at network.Point) {
	d := br.view.Dot(at)
	br.box(view.Dot{X: d.X - 4, Y: d.Y - 4}, view.Dot{X: d.X + 4, Y: d.Y + 4}, br.look.Colour(drawing.Blue, 1), br.look.Colour(drawing.White, 1), 2)
}

func pos(d view.Dot) fyne.Position { return fyne.NewPos(float32(d.X), float32(d.Y)) }

// clip cuts a stroke to the screen, and a little beyond.
func clip(p, q view.Dot, w, h float64) (view.Dot, view.Dot, bool) {
	const beyond = 20
	t0, t1 := 0.0, 1.0
	dx, dy := q.X-p.X, q.Y-p.Y
	for _, e := range [4][2]float64{{-dx, p.X + beyond}, {dx, w + beyond - p.X}, {-dy, p.Y + beyond}, {dy, h + beyond - p.Y}} {
		switch t := e[1] / e[0]; {
		case math.IsNaN(e[0]) || math.IsNaN(e[1]):
			return p, q, false
		case e[0] == 0:
			if e[1] < 0 {
				return p, q, false
			}
		case e[0] < 0:
			t0 = math.Max(t0, t)
		default:
			t1 = math.Min(t1, t)
		}
	}
	if t0 > t1 {
		return p, q, false
	}
	return view.Dot{X: p.X + t0*dx, Y: p.Y + t0*dy}, view.Dot{X: p.X + t1*dx, Y: p.Y + t1*dy}, true
}
