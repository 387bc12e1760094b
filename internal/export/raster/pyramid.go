package raster

import (
	"image"
	"image/draw"
	"runtime"
	"sync"
	"weak"
)

// pyramid is an image at half its size again and again, for looking at it from
// afar without losing its thin lines.
type pyramid struct {
	base   *image.RGBA
	halves *halves
}

// halves are the smaller levels, made when first needed.
type halves struct {
	sync.Mutex
	levels []*image.RGBA
}

// kept holds the levels of images that are still in use elsewhere: a floor plan
// is painted again and again.
var kept struct {
	sync.Mutex
	of map[weak.Pointer[image.RGBA]]*halves
}

// pyramidOf returns the pyramid of an image, which nobody may change.
func pyramidOf(img image.Image) *pyramid {
	base, ok := img.(*image.RGBA)
	if !ok || base.Rect.Min != (image.Point{}) {
		base = image.NewRGBA(image.Rectangle{Max: img.Bounds().Size()})
		draw.Draw(base, base.Rect, img, img.Bounds().Min, draw.Src)
		return &pyramid{base, new(halves)}
	}
	key := weak.Make(base)
	kept.Lock()
	defer kept.Unlock()
	h := kept.of[key]
	if h == nil {
		if kept.of == nil {
			kept.of = map[weak.Pointer[image.RGBA]]*halves{}
		}
		h = new(halves)
		kept.of[key] = h
		runtime.AddCleanup(base, forget, key)
	}
	return &pyramid{base, h}
}

func forget(key weak.Pointer[image.RGBA]) {
	kept.Lock()
	defer kept.Unlock()
	delete(kept.of, key)
}

// level returns the smallest level that has no less than one dot for each two
// dots painted, when k dots are painted for each of the image's.
func (p *pyramid) level(k float64) *image.RGBA {
	p.halves.Lock()
	defer p.halves.Unlock()
	now := p.base
	for i := 0; k < 0.7 && (now.Rect.Dx() > 1 || now.Rect.Dy() > 1); i++ {
		if i == len(p.halves.levels) {
			p.halves.levels = append(p.halves.levels, half(now))
		}
		now = p.halves.levels[i]
		k *= 2
	}
	return now
}

// light reports whether an image is mostly white, as a drawing on paper is. What
// is transparent shows the paper.
func (p *pyramid) light() bool {
	m := p.level(0).Pix
	return int(m[0])+int(m[1])+int(m[2])+3*(255-int(m[3])) > 3*165
}

// half shrinks an image to half its size by the means of four dots.
func half(m *image.RGBA) *image.RGBA {
	w, h := m.Rect.Dx(), m.Rect.Dy()
	out := image.NewRGBA(image.Rect(0, 0, (w+1)/2, (h+1)/2))
	for y := range out.Rect.Dy() {
		a := m.Pix[2*y*m.Stride:]
		b := m.Pix[min(2*y+1, h-1)*m.Stride:]
		dst := out.Pix[y*out.Stride:]
		for x := range out.Rect.Dx() {
			l, r := 8*x, 4*min(2*x+1, w-1)
			for k := range 4 {
				dst[4*x+k] = byte((uint32(a[l+k]) + uint32(a[r+k]) + uint32(b[l+k]) + uint32(b[r+k]) + 2) / 4)
			}
		}
	}
	return out
}
