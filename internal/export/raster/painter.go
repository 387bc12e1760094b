package raster

import (
	"image"
	"image/color"
	"math"

	"golang.org/x/image/vector"

	"linemap/internal/export/drawing"
)

// Painter paints on a bitmap. It is a [drawing.Painter], for one goroutine.
type Painter struct {
	// Inks, where set, turns each ink into the one to paint with.
	Inks func(drawing.Colour) drawing.Colour

	img   *image.RGBA
	scale float64 // dots per millimetre
	clip  image.Rectangle
	fill  vector.Rasterizer

	// The figures that wait to be filled with one ink, as closed rings one after
	// the other in dots.
	ink   drawing.Colour
	rings [][]point
	low   point
	high  point
}

// point is a place in dots from the top left corner of the bitmap.
type point struct{ x, y float64 }

// New returns a painter for a bitmap with so many dots per millimetre.
func New(img *image.RGBA, dotsPerMM float64) *Painter {
	p := &Painter{img: img, scale: dotsPerMM, clip: img.Bounds()}
	p.empty()
	return p
}

// Clip cuts what follows to a box.
func (p *Painter) Clip(b *drawing.Box) {
	p.Flush()
	p.clip = p.img.Bounds()
	if b != nil {
		p.clip = p.clip.Intersect(image.Rect(
			whole(math.Floor(b.X*p.scale)), whole(math.Floor(b.Y*p.scale)),
			whole(math.Ceil(b.Right()*p.scale)), whole(math.Ceil(b.Bottom()*p.scale))))
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
		for _, l := range lines {
			p.ring(l.points, true)
		}
	}
	if pen.Width > 0 {
		p.with(pen.Ink)
		for _, l := range lines {
			p.stroke(l, pen)
		}
	}
}

// with changes to another ink.
func (p *Painter) with(ink drawing.Colour) {
	if p.Inks != nil {
		ink = p.Inks(ink)
	}
	if ink != p.ink {
		p.Flush()
		p.ink = ink
	}
}

func (p *Painter) empty() {
	p.rings = p.rings[:0]
	p.low, p.high = point{math.Inf(1), math.Inf(1)}, point{math.Inf(-1), math.Inf(-1)}
}

// ring adds a closed figure to those that wait. All rings turn one way, so that
// where they overlap they add up; turned keeps a figure with holes as it is.
func (p *Painter) ring(pts []point, as ...bool) {
	if len(pts) < 3 {
		return
	}
	low, high := point{math.Inf(1), math.Inf(1)}, point{math.Inf(-1), math.Inf(-1)}
	area := 0.0
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		area += a.x*b.y - b.x*a.y
		low.x, low.y = math.Min(low.x, a.x), math.Min(low.y, a.y)
		high.x, high.y = math.Max(high.x, a.x), math.Max(high.y, a.y)
	}
	if math.IsNaN(area) || math.IsInf(area, 0) || high.x < float64(p.clip.Min.X) || high.y < float64(p.clip.Min.Y) ||
		low.x > float64(p.clip.Max.X) || low.y > float64(p.clip.Max.Y) {
		return
	}
	if len(as) == 0 && area < 0 {
		turned := make([]point, len(pts))
		for i, a := range pts {
			turned[len(pts)-1-i] = a
		}
		pts = turned
	}
	if len(as) > 0 { // a figure of its own: what overlaps must not be cut out
		p.Flush()
	}
	p.rings = append(p.rings, pts)
	p.low.x, p.low.y = math.Min(p.low.x, low.x), math.Min(p.low.y, low.y)
	p.high.x, p.high.y = math.Max(p.high.x, high.x), math.Max(p.high.y, high.y)
	if len(as) > 0 {
		p.Flush()
	}
}

// Flush fills what waits.
func (p *Painter) Flush() {
	if len(p.rings) == 0 {
		return
	}
	box := image.Rect(whole(math.Floor(p.low.x)), whole(math.Floor(p.low.y)), whole(math.Ceil(p.high.x))+1, whole(math.Ceil(p.high.y))+1).Intersect(p.clip)
	if !box.Empty() {
		p.fill.Reset(box.Dx(), box.Dy())
		for _, r := range p.rings {
			p.add(r, box)
		}
		p.fill.Draw(p.img, box, image.NewUniform(color.NRGBA{p.ink.R, p.ink.G, p.ink.B, 255}), image.Point{})
	}
	p.empty()
}

// add gives a ring to the rasterizer, cut to the rows and columns of the box:
// far-off points would cost time and precision.
func (p *Painter) add(ring []point, box image.Rectangle) {
	x0, y0 := float64(box.Min.X), float64(box.Min.Y)
	w, h := float64(box.Dx()), float64(box.Dy())
	for i, a := range cut(ring, box) {
		x, y := float32(math.Max(0, math.Min(w, a.x-x0))), float32(math.Max(0, math.Min(h, a.y-y0)))
		if i == 0 {
			p.fill.MoveTo(x, y)
		} else {
			p.fill.LineTo(x, y)
		}
	}
	p.fill.ClosePath()
}

// cut returns the part of a ring inside a box (Sutherland and Hodgman, 1974).
func cut(ring []point, box image.Rectangle) []point {
	edges := [4]func(point) float64{
		func(a point) float64 { return a.x - float64(box.Min.X) },
		func(a point) float64 { return float64(box.Max.X) - a.x },
		func(a point) float64 { return a.y - float64(box.Min.Y) },
		func(a point) float64 { return float64(box.Max.Y) - a.y },
	}
	for _, inside := range edges {
		whole := true
		for _, a := range ring {
			if inside(a) < 0 {
				whole = false
				break
			}
		}
		if whole {
			continue
		}
		var kept []point
		for i, b := range ring {
			a := ring[(i+len(ring)-1)%len(ring)]
			da, db := inside(a), inside(b)
			if (da < 0) != (db < 0) {
				t := da / (da - db)
				kept = append(kept, point{a.x + t*(b.x-a.x), a.y + t*(b.y-a.y)})
			}
			if db >= 0 {
				kept = append(kept, b)
			}
		}
		ring = kept
	}
	return ring
}
