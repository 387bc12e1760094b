package raster

import (
	"image"
	"math"
	"sync"

	"linemap/internal/export/drawing"
)

// tallest is the size in dots from which letters are not kept as sprites.
const tallest = 64

// spriteKey names a letter as it is printed: its size in 64ths of a dot, and how
// far into a dot it starts, in parts.
type spriteKey struct {
	c    rune
	size int16
	part int8
	bold bool
}

// sprite is how much of each dot a letter covers, from a corner as seen from the
// start of its baseline.
type sprite struct {
	alpha  *image.Alpha
	corner image.Point
}

// sprites holds the letters printed so far, by all painters.
var sprites struct {
	sync.Mutex
	of map[spriteKey]*sprite
}

// mostSprites bounds the letters kept; a text in one size takes some hundreds.
const mostSprites = 1 << 13

// print writes an upright text from the start of its baseline with sprites. The
// baseline is put on a whole dot, where letters look sharpest.
func (p *Painter) print(t drawing.Text, at point, size float64) {
	row := int(math.Round(at.y))
	x := at.x
	sprites.Lock()
	defer sprites.Unlock()
	for _, c := range t.S {
		col := math.Floor(x)
		key := spriteKey{c: c, bold: t.Style.Bold, size: int16(size * 64), part: int8((x - col) * parts)}
		s, ok := sprites.of[key]
		if !ok {
			if sprites.of == nil || len(sprites.of) >= mostSprites {
				sprites.of = map[spriteKey]*sprite{}
			}
			s = key.cut()
			sprites.of[key] = s
		}
		if s != nil {
			p.ink8(s, image.Pt(int(col), row))
		}
		x += outline(c, t.Style.Bold).advance * size
	}
}

// cut makes the sprite of a letter, nil for one without ink.
func (k spriteKey) cut() *sprite {
	size, shift := float64(k.size)/64, (float64(k.part)+0.5)/parts
	low, high := point{math.Inf(1), math.Inf(1)}, point{math.Inf(-1), math.Inf(-1)}
	var rings [][]point
	for _, r := range outline(k.c, k.bold).rings {
		ring := make([]point, len(r))
		for i, q := range r {
			ring[i] = point{shift + q.x*size, q.y * size}
			low = point{min(low.x, ring[i].x), min(low.y, ring[i].y)}
			high = point{max(high.x, ring[i].x), max(high.y, ring[i].y)}
		}
		rings = append(rings, ring)
	}
	if len(rings) == 0 {
		return nil
	}
	box := image.Rect(int(math.Floor(low.x)), int(math.Floor(low.y)), int(math.Ceil(high.x)), int(math.Ceil(high.y)))
	img := image.NewRGBA(box)
	var c cover
	c.reset(box)
	for _, r := range rings {
		c.ring(r, 1)
	}
	c.paint(img, drawing.Black)
	s := &sprite{image.NewAlpha(image.Rectangle{Max: box.Size()}), box.Min}
	for i := range s.alpha.Pix {
		s.alpha.Pix[i] = img.Pix[4*i+3]
	}
	return s
}

// ink8 puts the ink in hand on the dots that a sprite covers.
func (p *Painter) ink8(s *sprite, at image.Point) {
	move := at.Add(s.corner)
	box := s.alpha.Rect.Add(move).Intersect(p.clip)
	for y := box.Min.Y; y < box.Max.Y; y++ {
		src := s.alpha.Pix[s.alpha.PixOffset(box.Min.X-move.X, y-move.Y):]
		dst := p.img.Pix[p.img.PixOffset(box.Min.X, y):]
		for i := range box.Dx() {
			if a := uint32(src[i]); a > 0 {
				blend(dst[4*i:4*i+4:4*i+4], p.ink, a+a>>7)
			}
		}
	}
}
