package raster

import (
	"image"
	"image/color"
	"math"

	"golang.org/x/image/draw"
	"golang.org/x/image/math/f64"

	"linemap/internal/export/drawing"
)

// Picture paints an image, faded.
func (p *Painter) Picture(s drawing.Picture, c drawing.Point, w, h float64) {
	p.Flush()
	size := s.Image.Bounds().Size()
	if size.X == 0 || size.Y == 0 {
		return
	}
	sin, cos := math.Sincos(s.Turn)
	kx, ky := w*p.scale/float64(size.X), h*p.scale/float64(size.Y)
	if !(kx > 0 && ky > 0) || math.IsInf(kx+ky+c.X+c.Y, 0) || math.IsNaN(c.X+c.Y) {
		return
	}
	mx, my := float64(size.X)/2+float64(s.Image.Bounds().Min.X), float64(size.Y)/2+float64(s.Image.Bounds().Min.Y)
	// From a dot of the image to a dot of the bitmap, whose y runs down.
	m := f64.Aff3{
		kx * cos, ky * sin, c.X*p.scale - mx*kx*cos - my*ky*sin,
		-kx * sin, ky * cos, c.Y*p.scale + mx*kx*sin - my*ky*cos,
	}
	seen := math.Max(0, math.Min(1, 1-s.Dim))
	mask := image.NewUniform(color.Alpha16{uint16(seen * 0xffff)})
	dst := p.img.SubImage(p.clip).(*image.RGBA)
	draw.ApproxBiLinear.Transform(dst, m, s.Image, s.Image.Bounds(), draw.Over, &draw.Options{SrcMask: mask})
}
