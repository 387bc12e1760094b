package raster

import (
	"image"
	"math"
	"math/bits"

	"linemap/internal/export/drawing"
)

// cover gathers how much of each dot of a box the figures that wait cover. An
// edge adds the change that it makes to the coverage along its rows, so that a
// running sum along a row gives the coverage itself (the signed-area method of
// libart and FreeType). What no edge touched is not looked at: a long thin line
// costs as much as its length, not as much as the box around it.
type cover struct {
	box    image.Rectangle
	stride int
	change []float32
	// touched marks, by row, the stretches of dots with a change, each 1<<shift
	// dots long.
	touched []uint64
	shift   uint
	// The rows touched, none where top is bottom.
	top, bottom int
}

// reset empties the cover for a box of the bitmap.
func (c *cover) reset(box image.Rectangle) {
	c.box, c.stride, c.shift = box, box.Dx()+2, 0
	for c.stride>>c.shift >= 64 {
		c.shift++
	}
	if n := c.stride * box.Dy(); n > len(c.change) {
		c.change = make([]float32, n)
	}
	if box.Dy() > len(c.touched) {
		c.touched = make([]uint64, box.Dy())
	}
	c.top, c.bottom = 0, 0
}

// ring adds a closed figure, or takes it away where sign is -1.
func (c *cover) ring(pts []point, sign float64) {
	a := pts[len(pts)-1]
	for _, b := range pts {
		c.edge(a, b, sign)
		a = b
	}
}

// edge adds one edge of a figure, cut to the box.
func (c *cover) edge(a, b point, sign float64) {
	if a.y == b.y {
		return
	}
	if a.y > b.y {
		a, b, sign = b, a, -sign
	}
	dx, dy := float64(c.box.Min.X), float64(c.box.Min.Y)
	a.x, b.x, a.y, b.y = a.x-dx, b.x-dx, a.y-dy, b.y-dy
	w, h := float64(c.box.Dx()), float64(c.box.Dy())
	if b.y <= 0 || a.y >= h || a.x >= w && b.x >= w {
		return
	}
	if a.y < 0 {
		a = point{a.x - a.y*(b.x-a.x)/(b.y-a.y), 0}
	}
	if b.y > h {
		b = point{a.x + (h-a.y)*(b.x-a.x)/(b.y-a.y), h}
	}
	// To the left of the box an edge covers the whole row, to the right nothing: it
	// is cut at both sides, in the order in which it comes to them.
	sides := [2]float64{0, w}
	if a.x > b.x {
		sides = [2]float64{w, 0}
	}
	for _, side := range sides {
		if (a.x < side) == (b.x < side) {
			continue
		}
		at := point{side, a.y + (side-a.x)*(b.y-a.y)/(b.x-a.x)}
		if at.y > a.y && at.y < b.y {
			c.rows(a, at, sign, w)
			a = at
		}
	}
	c.rows(a, b, sign, w)
}

// rows adds an edge that goes down and lies within the rows of the box, as it
// looks when pushed into its columns.
func (c *cover) rows(a, b point, sign, w float64) {
	if a.x >= w && b.x >= w {
		return
	}
	x, to := max(0, min(w, a.x)), max(0, min(w, b.x))
	slope := 0.0
	if b.y > a.y {
		slope = (to - x) / (b.y - a.y)
	}
	first, last := int(a.y), min(int(math.Ceil(b.y)), c.box.Dy())
	if first >= last {
		return
	}
	if c.top == c.bottom {
		c.top, c.bottom = first, last
	} else {
		c.top, c.bottom = min(c.top, first), max(c.bottom, last)
	}
	for y := first; y < last; y++ {
		high := min(float64(y+1), b.y) - max(float64(y), a.y)
		next := max(0, min(w, x+high*slope))
		row := c.change[y*c.stride : (y+1)*c.stride]
		c.touched[y] |= c.row(row, min(x, next), max(x, next), high*sign)
		x = next
	}
}

// row adds the part of an edge within one row, from column x0 to x1, and
// returns the stretches touched.
func (c *cover) row(row []float32, x0, x1, d float64) uint64 {
	i, k := int(x0), int(math.Ceil(x1))
	if k <= i+1 {
		right := d * (0.5*(x0+x1) - float64(i))
		row[i] += float32(d - right)
		row[i+1] += float32(right)
		k = i + 1
	} else {
		s := 1 / (x1 - x0)
		f0, f1 := x0-float64(i), x1-float64(k)+1
		first, last := 0.5*s*(1-f0)*(1-f0), 0.5*s*f1*f1
		row[i] += float32(d * first)
		if k == i+2 {
			row[i+1] += float32(d * (1 - first - last))
		} else {
			second := s * (1.5 - f0)
			row[i+1] += float32(d * (second - first))
			for j := i + 2; j < k-1; j++ {
				row[j] += float32(d * s)
			}
			row[k-1] += float32(d * (1 - second - float64(k-i-3)*s - last))
		}
		row[k] += float32(d * last)
	}
	return (^uint64(0) << (uint(i) >> c.shift)) & (^uint64(0) >> (63 - uint(k)>>c.shift))
}

// slight is a coverage that is a rounding error.
const slight = 1.0 / 512

// paint puts an ink on what is covered, and empties the cover.
func (c *cover) paint(img *image.RGBA, ink drawing.Colour) {
	w := c.box.Dx()
	for y := c.top; y < c.bottom; y++ {
		left := c.touched[y]
		if left == 0 {
			continue
		}
		c.touched[y] = 0
		row := c.change[y*c.stride : (y+1)*c.stride]
		o := img.PixOffset(c.box.Min.X, c.box.Min.Y+y)
		dots := img.Pix[o : o+4*w]
		sum, x := float32(0), 0
		for ; left != 0; left &= left - 1 {
			from := min(bits.TrailingZeros64(left)<<c.shift, w)
			if x < from {
				span(dots[4*x:4*from], ink, sum)
			}
			end := min(from+1<<c.shift, len(row))
			x = min(end, w)
			for i := from; i < x; i++ {
				sum += row[i]
				row[i] = 0
				if sum > slight || sum < -slight {
					blend(dots[4*i:4*i+4:4*i+4], ink, share(sum))
				}
			}
			clear(row[x:end])
		}
		if x < w {
			span(dots[4*x:], ink, sum)
		}
	}
	c.top, c.bottom = 0, 0
}

// share is a coverage in 256ths.
func share(sum float32) uint32 {
	if sum < 0 {
		sum = -sum
	}
	return uint32(min(sum, 1)*256 + 0.5)
}

// span puts an ink on a row of dots that are covered alike.
func span(dots []byte, ink drawing.Colour, sum float32) {
	if sum <= slight && sum >= -slight {
		return
	}
	a := share(sum)
	for i := 0; i+4 <= len(dots); i += 4 {
		blend(dots[i:i+4:i+4], ink, a)
	}
}

// blend puts so many 256ths of an ink on a dot.
func blend(d []byte, ink drawing.Colour, a uint32) {
	b := 256 - a
	d[0] = byte((uint32(ink.R)*a + uint32(d[0])*b + 128) >> 8)
	d[1] = byte((uint32(ink.G)*a + uint32(d[1])*b + 128) >> 8)
	d[2] = byte((uint32(ink.B)*a + uint32(d[2])*b + 128) >> 8)
	d[3] = byte((255*a + uint32(d[3])*b + 128) >> 8)
}
