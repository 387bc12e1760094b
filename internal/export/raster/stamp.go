package raster

import (
	"image"
	"math"

	"linemap/internal/export/drawing"
)

// stampKey names a mark as it is painted. Marks that differ by less than the eye
// sees are one.
type stampKey struct {
	symbol            drawing.Symbol
	size, longer, pen float32
	turn              int8 // of turns to the circle
	x, y              int8 // part of a dot to the right and down, in parts
	ink, fill         drawing.Colour
	filled            bool
}

// The fineness of stamps: turns to the circle, places within a dot in each
// direction. At the largest size a stamp is off by a third of a dot at its rim.
const (
	turns   = 96
	parts   = 4
	largest = 20.0 // dots
)

// stamp is the picture of a mark: opaque where it covers a dot wholly.
type stamp struct {
	img    *image.RGBA
	middle image.Point
}

// Stamp paints a mark at c.
func (p *Painter) Stamp(m drawing.Mark, c drawing.Point) {
	size, x, y := m.Size*p.scale, c.X*p.scale, c.Y*p.scale
	half := size + m.Longer*p.scale/2 + m.Pen.Width*p.scale + 2
	if !(x > float64(p.clip.Min.X)-half && y > float64(p.clip.Min.Y)-half &&
		x < float64(p.clip.Max.X)+half && y < float64(p.clip.Max.Y)+half) {
		return
	}
	if !(size <= largest && half <= 2*largest) || len(m.Pen.Dash) > 0 {
		m.Outlines(c, p)
		return
	}
	col, row := math.Floor(x), math.Floor(y)
	key := stampKey{
		symbol: m.Symbol, size: float32(m.Size), longer: float32(m.Longer), pen: float32(m.Pen.Width), ink: p.inked(m.Pen.Ink),
		turn: int8(math.Mod(math.Round(m.Turn*turns/(2*math.Pi)), turns)),
		x:    int8((x - col) * parts), y: int8((y - row) * parts),
	}
	if m.Fill != nil {
		key.fill, key.filled = p.inked(*m.Fill), true
	}
	s := p.stamps[key]
	if s == nil {
		s = p.cutStamp(m, key, int(math.Ceil(half)))
		p.stamps[key] = s
	}
	p.settle()
	s.press(p.img, p.clip, image.Pt(int(col), int(row)))
}

// cutStamp paints a mark by itself.
func (p *Painter) cutStamp(m drawing.Mark, key stampKey, half int) *stamp {
	m.Turn = float64(key.turn) * 2 * math.Pi / turns
	img := image.NewRGBA(image.Rect(0, 0, 2*half+1, 2*half+1))
	alone := New(img, p.scale)
	alone.Inks, alone.turned = p.Inks, p.turned
	within := func(k int8) float64 { return (float64(half) + (float64(k)+0.5)/parts) / p.scale }
	m.Outlines(drawing.Point{X: within(key.x), Y: within(key.y)}, alone)
	alone.Flush()
	return &stamp{img, image.Pt(half, half)}
}

// press puts the stamp on a bitmap with its middle at a dot.
func (s *stamp) press(img *image.RGBA, clip image.Rectangle, at image.Point) {
	move := at.Sub(s.middle)
	box := s.img.Bounds().Add(move).Intersect(clip)
	for y := box.Min.Y; y < box.Max.Y; y++ {
		src := s.img.Pix[s.img.PixOffset(box.Min.X-move.X, y-move.Y):]
		dst := img.Pix[img.PixOffset(box.Min.X, y):]
		for i := 0; i < 4*box.Dx(); i += 4 {
			a := src[i+3]
			if a == 0 {
				continue
			}
			if a == 255 {
				copy(dst[i:i+4], src[i:i+4])
				continue
			}
			b := 255 - uint32(a)
			for k := i; k < i+4; k++ {
				dst[k] = byte(uint32(src[k]) + (uint32(dst[k])*b+127)/255)
			}
		}
	}
}
