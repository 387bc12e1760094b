package drawing

import (
	"image"
	"image/draw"
	"math"
)

// Cut returns what of the picture lies in a box of the paper, with at most so
// many dots per millimetre of paper, and false where that is nothing. So a
// paper does not carry what it does not show.
func (s Picture) Cut(f Frame, b Box, dotsPerMM float64) (Picture, bool) {
	if s.Image == nil || !(s.W > 0 && s.H > 0 && dotsPerMM > 0) || s.Image.Bounds().Empty() {
		return s, false
	}
	size := s.Image.Bounds().Size()
	dotW, dotH := s.W/float64(size.X), s.H/float64(size.Y) // on the ground
	sin, cos := math.Sincos(s.Turn)
	low, high := Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
	for _, corner := range []Point{{b.X, b.Y}, {b.Right(), b.Y}, {b.X, b.Bottom()}, {b.Right(), b.Bottom()}} {
		d := f.From(corner).Sub(s.At)
		right, up := d.X*cos+d.Y*sin, d.Y*cos-d.X*sin
		x, y := float64(size.X)/2+right/dotW, float64(size.Y)/2-up/dotH
		low, high = Point{min(low.X, x), min(low.Y, y)}, Point{max(high.X, x), max(high.Y, y)}
	}
	part := image.Rect(
		within(math.Floor(low.X)-1, size.X), within(math.Floor(low.Y)-1, size.Y),
		within(math.Ceil(high.X)+1, size.X), within(math.Ceil(high.Y)+1, size.Y))
	if part.Empty() {
		return s, false
	}
	mid := part.Min.Add(part.Max)
	right := (float64(mid.X)/2 - float64(size.X)/2) * dotW
	up := (float64(size.Y)/2 - float64(mid.Y)/2) * dotH
	s.At = s.At.Add(Point{right*cos - up*sin, right*sin + up*cos})
	s.W, s.H = float64(part.Dx())*dotW, float64(part.Dy())*dotH
	s.Image = shrink(s.Image, part.Add(s.Image.Bounds().Min),
		fewer(part.Dx(), s.W*f.zoom()*dotsPerMM), fewer(part.Dy(), s.H*f.zoom()*dotsPerMM))
	return s, true
}

// zoom is how many millimetres of paper a length of one is.
func (f Frame) zoom() float64 {
	if f.Scale == 0 { // the paper itself
		return 1
	}
	return f.Scale
}

// within returns v as a place from 0 to most.
func within(v float64, most int) int {
	if !(v > 0) {
		return 0
	}
	return int(min(v, float64(most)))
}

// fewer returns how many dots n dots become when at most that many are wanted.
func fewer(n int, wanted float64) int { return max(1, min(n, within(math.Floor(wanted), n))) }

// shrink returns a part of an image as w by h dots, each the mean of those that
// it stands for, so that thin lines get fainter and do not go.
func shrink(m image.Image, part image.Rectangle, w, h int) *image.RGBA {
	src := image.NewRGBA(image.Rectangle{Max: part.Size()})
	draw.Draw(src, src.Rect, m, part.Min, draw.Src)
	if part.Dx() == w && part.Dy() == h {
		return src
	}
	across, down := shares(part.Dx(), w), shares(part.Dy(), h)
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	line, now, next := make([]float32, 4*w+4), make([]float32, 4*w+4), make([]float32, 4*w+4)
	row := 0
	for y, d := range down {
		if d.to > row {
			write(out, row, now)
			now, next, row = next, now, d.to
			clear(next)
		}
		clear(line)
		for x, a := range across {
			dot := src.Pix[y*src.Stride+4*x:][:4]
			to := line[4*a.to:][:8]
			for c, v := range dot {
				to[c] += a.share * float32(v)
				to[c+4] += a.rest * float32(v)
			}
		}
		for i, v := range line {
			now[i] += d.share * v
			next[i] += d.rest * v
		}
	}
	write(out, row, now)
	return out
}

// write puts a finished row into an image.
func write(out *image.RGBA, row int, line []float32) {
	pix := out.Pix[row*out.Stride:][:out.Stride]
	for i := range pix {
		pix[i] = byte(min(line[i], 254.5) + 0.5)
	}
}

// share says to which of fewer dots one of many goes: a share of it to one, the
// rest to the one after.
type share struct {
	to          int
	share, rest float32
}

// shares spreads many dots over few, so that each of those sums up to one.
func shares(many, few int) []share {
	all := make([]share, many)
	k := float64(few) / float64(many)
	for i := range all {
		from := float64(i) * k
		to := min(int(from), few-1)
		over := max(0, from+k-float64(to+1))
		if to == few-1 {
			over = 0 // by rounding
		}
		all[i] = share{to, float32(k - over), float32(over)}
	}
	return all
}
