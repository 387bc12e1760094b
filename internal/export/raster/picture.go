package raster

import (
	"image"
	"math"
	"sync"

	"linemap/internal/export/drawing"
)

// Picture paints an image, faded. On dark paper a plan on white paper is turned
// light on dark; a photograph stays as it is.
func (p *Painter) Picture(s drawing.Picture, c drawing.Point, w, h float64) {
	p.settle()
	if s.Image == nil || s.Image.Bounds().Empty() {
		return
	}
	size := s.Image.Bounds().Size()
	kx, ky := w*p.scale/float64(size.X), h*p.scale/float64(size.Y) // dots for each of the image's
	seen := uint32(s.Opacity()*256 + 0.5)
	mx, my := c.X*p.scale, c.Y*p.scale
	if !(kx > 0 && ky > 0) || math.IsInf(kx+ky, 0) || math.IsNaN(mx+my+s.Turn) || math.IsInf(mx+my+s.Turn, 0) || seen == 0 {
		return
	}
	sin, cos := math.Sincos(s.Turn)
	rx, ry := (math.Abs(w*cos)+math.Abs(h*sin))/2*p.scale, (math.Abs(w*sin)+math.Abs(h*cos))/2*p.scale
	box := image.Rect(whole(math.Floor(mx-rx)), whole(math.Floor(my-ry)), whole(math.Ceil(mx+rx)), whole(math.Ceil(my+ry))).Intersect(p.clip)
	if box.Empty() {
		return
	}
	py := pyramidOf(s.Image)
	src := py.level(max(kx, ky))
	// From a dot of the bitmap to one of the image, whose y runs down as well.
	fx, fy := float64(src.Rect.Dx())/(w*p.scale), float64(src.Rect.Dy())/(h*p.scale)
	look := &looking{
		img: p.img, src: src, box: box, seen: seen,
		ux: cos * fx, uy: -sin * fx, vx: sin * fy, vy: cos * fy,
	}
	look.u0 = float64(src.Rect.Dx())/2 - (mx*look.ux + my*look.uy)
	look.v0 = float64(src.Rect.Dy())/2 - (mx*look.vx + my*look.vy)
	if paper := p.inked(drawing.White); luminance(paper) < 0.2 && py.light() {
		look.night, look.paper, look.light = true, paper, p.inked(drawing.Black)
	}
	look.paint()
}

// looking is an image being put on a bitmap: the dot x, y shows the place
// u0 + ux x + uy y, v0 + vx x + vy y of the image.
type looking struct {
	img, src               *image.RGBA
	box                    image.Rectangle
	u0, ux, uy, v0, vx, vy float64
	seen                   uint32
	night                  bool
	paper, light           drawing.Colour
}

// paint does the rows in two halves at a time.
func (l *looking) paint() {
	mid := (l.box.Min.Y + l.box.Max.Y) / 2
	var w sync.WaitGroup
	w.Go(func() { l.rows(l.box.Min.Y, mid) })
	l.rows(mid, l.box.Max.Y)
	w.Wait()
}

func (l *looking) rows(from, to int) {
	w, h := l.src.Rect.Dx(), l.src.Rect.Dy()
	const one = 1 << 16
	for y := from; y < to; y++ {
		fx, fy := float64(l.box.Min.X)+0.5, float64(y)+0.5
		u, v := l.u0+l.ux*fx+l.uy*fy, l.v0+l.vx*fx+l.vy*fy
		// Whole parts of the row lie outside of a turned image.
		first, last := inRange(u, l.ux, float64(w), 0, l.box.Dx())
		first, last = inRange(v, l.vx, float64(h), first, last)
		dst := l.img.Pix[l.img.PixOffset(l.box.Min.X, y):]
		for i := first; i < last; i++ {
			// Half a dot off: a sample lies between the middles of four.
			su, sv := int((u+l.ux*float64(i)-0.5)*one), int((v+l.vx*float64(i)-0.5)*one)
			c := l.sample(max(0, min(su, (w-1)*one)), max(0, min(sv, (h-1)*one)))
			if l.night {
				c = l.turn(c)
			}
			b := 256 - c[3]*l.seen/255
			d := dst[4*i : 4*i+4 : 4*i+4]
			for k := range d {
				d[k] = byte((c[k]*l.seen + uint32(d[k])*b + 128) >> 8)
			}
		}
	}
}

// inRange narrows the dots of a row to those where a value that starts at v and
// grows by step lies from 0 to limit.
func inRange(v, step, limit float64, first, last int) (int, int) {
	a, b := -v, limit-v
	if step == 0 {
		if a > 0 || b <= 0 {
			return 0, 0
		}
		return first, last
	}
	a, b = a/step, b/step
	if a > b {
		a, b = b, a
	}
	return max(first, whole(math.Ceil(a))), min(last, whole(math.Floor(b))+1)
}

// sample mixes the four dots around a place given in 65536ths.
func (l *looking) sample(u, v int) [4]uint32 {
	x, y := u>>16, v>>16
	fx, fy := uint32(u>>8)&255, uint32(v>>8)&255
	right, down := 4, l.src.Stride
	if x+1 >= l.src.Rect.Dx() {
		right = 0
	}
	if y+1 >= l.src.Rect.Dy() {
		down = 0
	}
	pix := l.src.Pix[y*l.src.Stride+4*x:]
	var c [4]uint32
	for k := range c {
		top := uint32(pix[k])*(256-fx) + uint32(pix[right+k])*fx
		low := uint32(pix[down+k])*(256-fx) + uint32(pix[down+right+k])*fx
		c[k] = (top*(256-fy) + low*fy) >> 16
	}
	return c
}

// turn swaps light and dark and keeps the hue.
func (l *looking) turn(c [4]uint32) [4]uint32 {
	shift := c[3] - max(c[0], c[1], c[2]) - min(c[0], c[1], c[2]) // may wrap around, and back
	for k, p := range [3][2]uint8{{l.paper.R, l.light.R}, {l.paper.G, l.light.G}, {l.paper.B, l.light.B}} {
		c[k] = ((c[k]+shift)*uint32(p[1]-p[0]) + c[3]*uint32(p[0])) / 255
	}
	return c
}
