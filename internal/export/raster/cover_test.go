package raster

import (
	"image"
	"image/color"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"golang.org/x/image/vector"
	"pgregory.net/rapid"

	"linemap/internal/export/drawing"
)

// ringIn draws a ring of a few points in and around a bitmap.
func ringIn(t *rapid.T, size float64) []point {
	n := rapid.IntRange(3, 7).Draw(t, "corners")
	ring := make([]point, n)
	for i := range ring {
		ring[i] = point{rapid.Float64Range(-size, 2*size).Draw(t, "x"), rapid.Float64Range(-size, 2*size).Draw(t, "y")}
	}
	return ring
}

// The rasterizer of golang.org/x/image is another hand's work: both must find
// the same coverage, whatever crosses and whatever leaves the bitmap.
func TestCoverageAgainstAnotherRasterizer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const size = 40
		ring := ringIn(t, size)
		img := image.NewRGBA(image.Rect(0, 0, size, size))
		var c cover
		c.reset(img.Rect)
		c.ring(ring, 1)
		c.paint(img, drawing.Black)

		// The other one works on a bitmap that holds all of the ring, and is large
		// enough for it to count in floating point.
		v := vector.NewRasterizer(600, 600)
		for i, p := range ring {
			if x, y := float32(p.x+size), float32(p.y+size); i == 0 {
				v.MoveTo(x, y)
			} else {
				v.LineTo(x, y)
			}
		}
		v.ClosePath()
		want := image.NewAlpha(image.Rect(0, 0, 600, 600))
		v.Draw(want, want.Rect, image.NewUniform(color.Alpha{255}), image.Point{})
		for y := range size {
			for x := range size {
				assert.InDelta(t, want.AlphaAt(x+size, y+size).A, img.RGBAAt(x, y).A, 2.5, "dot %d, %d", x, y)
			}
		}
		for _, v := range c.change {
			assert.Zero(t, v, "nothing is left for the next figure")
		}
	})
}

// What a figure covers sums up to its area (the surveyor's formula), however
// fine it is.
func TestCoverageIsArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const size = 64
		at := func(name string) point {
			return point{rapid.Float64Range(1, size-1).Draw(t, name), rapid.Float64Range(1, size-1).Draw(t, name)}
		}
		a, b, c := at("a"), at("b"), at("c")
		img := image.NewRGBA(image.Rect(0, 0, size, size))
		p := New(img, 1)
		p.Outline(drawing.Outline{
			{Op: drawing.Move, P: [3]drawing.Point{{X: a.x, Y: a.y}}},
			{Op: drawing.Line, P: [3]drawing.Point{{X: b.x, Y: b.y}}},
			{Op: drawing.Line, P: [3]drawing.Point{{X: c.x, Y: c.y}}},
			{Op: drawing.Close},
		}, drawing.Pen{}, &drawing.Black)
		p.Flush()
		area := math.Abs((b.x-a.x)*(c.y-a.y)-(c.x-a.x)*(b.y-a.y)) / 2
		assert.InDelta(t, area, inked(img), 0.02*area+0.5)
	})
}

// inked is how many dots are covered in all.
func inked(img *image.RGBA) float64 {
	sum := 0.0
	for i := 3; i < len(img.Pix); i += 4 {
		sum += float64(img.Pix[i]) / 255
	}
	return sum
}
