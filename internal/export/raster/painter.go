package raster

import (
	"image"
	"math"
	"sync"

	"linemap/internal/export/drawing"
)

// Painter paints on a bitmap. It is a [drawing.Painter] and a
// [drawing.Stamper], for one goroutine.
type Painter struct {
	// Inks, where set, turns each ink into the one to paint with. It may not
	// change once something is painted.
	Inks func(drawing.Colour) drawing.Colour

	img   *image.RGBA
	scale float64 // dots per millimetre
	clip  image.Rectangle

	// The figures that wait to be painted with one ink.
	cover *cover
	ink   drawing.Colour

	stamps map[stampKey]*stamp
	turned map[drawing.Colour]drawing.Colour // by Inks
}

// point is a place in dots from the top left corner of the bitmap.
type point struct{ x, y float64 }

// covers are those not in use: one is as large as its bitmap.
var covers = sync.Pool{New: func() any { return new(cover) }}

// New returns a painter for a bitmap with so many dots per millimetre. Call
// [Painter.Flush] when all is painted.
func New(img *image.RGBA, dotsPerMM float64) *Painter {
	p := &Painter{img: img, scale: dotsPerMM, stamps: map[stampKey]*stamp{}, turned: map[drawing.Colour]drawing.Colour{}}
	p.cut(img.Bounds())
	return p
}

// cut has what follows cut to a box.
func (p *Painter) cut(box image.Rectangle) {
	p.clip = box
	if p.cover == nil {
		p.cover = covers.Get().(*cover)
	}
	p.cover.reset(box)
}

// Flush paints what waits, and gives back what the painter worked with.
func (p *Painter) Flush() {
	p.settle()
	if p.cover != nil {
		covers.Put(p.cover)
		p.cover = nil
	}
}

// settle paints the figures that wait, so that what follows lies above them.
func (p *Painter) settle() {
	if p.cover == nil {
		p.cut(p.clip)
		return
	}
	if p.cover.top < p.cover.bottom {
		p.cover.paint(p.img, p.ink)
	}
}

// Clip cuts what follows to a box.
func (p *Painter) Clip(b *drawing.Box) {
	p.settle()
	box := p.img.Bounds()
	if b != nil {
		box = box.Intersect(image.Rect(
			whole(math.Floor(b.X*p.scale)), whole(math.Floor(b.Y*p.scale)),
			whole(math.Ceil(b.Right()*p.scale)), whole(math.Ceil(b.Bottom()*p.scale))))
	}
	if box != p.clip {
		p.cut(box)
	}
}

// whole returns v as a dot that lies in or near a bitmap of any size.
func whole(v float64) int {
	const far = 1 << 20
	if math.IsNaN(v) {
		return 0
	}
	return int(math.Max(-far, math.Min(far, v)))
}

// Layer is nothing on a bitmap.
func (p *Painter) Layer(drawing.Layer) {}

// Outline fills a figure, and strokes it.
func (p *Painter) Outline(o drawing.Outline, pen drawing.Pen, fill *drawing.Colour) {
	lines := p.flatten(o)
	if fill != nil {
		p.with(*fill)
		p.area(lines)
	}
	if pen.Width > 0 {
		p.with(pen.Ink)
		for _, l := range lines {
			p.stroke(l, pen)
		}
	}
}

// area covers the inside of a figure. One of several rings may have holes, so
// nothing else may lie among them.
func (p *Painter) area(lines []line) {
	if len(lines) == 1 {
		p.ring(lines[0].points)
		return
	}
	p.settle()
	for _, l := range lines {
		if len(l.points) > 2 && p.meets(l.points) {
			p.cover.ring(l.points, 1)
		}
	}
	p.settle()
}

// with changes to another ink.
func (p *Painter) with(ink drawing.Colour) {
	ink = p.inked(ink)
	if ink != p.ink {
		p.settle()
		p.ink = ink
	}
	if p.cover == nil {
		p.settle()
	}
}

// inked is the colour that an ink has on the bitmap.
func (p *Painter) inked(ink drawing.Colour) drawing.Colour {
	if p.Inks == nil {
		return ink
	}
	c, ok := p.turned[ink]
	if !ok {
		c = p.Inks(ink)
		p.turned[ink] = c
	}
	return c
}

// ring covers a closed figure. All turn one way, so that where they overlap
// they add up.
func (p *Painter) ring(pts []point) {
	if len(pts) < 3 || !p.meets(pts) {
		return
	}
	area := 0.0
	a := pts[len(pts)-1]
	for _, b := range pts {
		area += (a.x - pts[0].x) * (b.y - pts[0].y)
		area -= (b.x - pts[0].x) * (a.y - pts[0].y)
		a = b
	}
	sign := 1.0
	if area < 0 {
		sign = -1
	}
	p.cover.ring(pts, sign)
}

// far is the distance in dots beyond which a difference of two dots is lost.
const far = 1e15

// meets reports whether a figure lies on the paper and may be seen.
func (p *Painter) meets(pts []point) bool {
	low, high := point{math.Inf(1), math.Inf(1)}, point{math.Inf(-1), math.Inf(-1)}
	for _, a := range pts {
		if math.IsNaN(a.x + a.y) {
			return false
		}
		low = point{min(low.x, a.x), min(low.y, a.y)}
		high = point{max(high.x, a.x), max(high.y, a.y)}
	}
	return low.x > -far && low.y > -far && high.x < far && high.y < far &&
		high.x > float64(p.clip.Min.X) && high.y > float64(p.clip.Min.Y) &&
		low.x < float64(p.clip.Max.X) && low.y < float64(p.clip.Max.Y)
}
