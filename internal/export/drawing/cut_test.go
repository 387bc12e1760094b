package drawing

import (
	"image"
	"image/color"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// spotted is a white picture with one black square of 4 by 4 dots whose middle
// is at x, y.
func spotted(w, h, x, y int) *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	for i := range m.Pix {
		m.Pix[i] = 255
	}
	for dy := -2; dy < 2; dy++ {
		for dx := -2; dx < 2; dx++ {
			m.SetRGBA(x+dx, y+dy, color.RGBA{A: 255})
		}
	}
	return m
}

// middle returns the middle of what is dark in a picture, as it lies on the
// ground, and whether anything is.
func middle(s Picture) (Point, bool) {
	b := s.Image.Bounds()
	var at Point
	sum := 0.0
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			r, _, _, _ := s.Image.At(x, y).RGBA()
			dark := 1 - float64(r)/0xffff
			sum += dark
			at = at.Add(Point{float64(x-b.Min.X) + 0.5, float64(y-b.Min.Y) + 0.5}.Scale(dark))
		}
	}
	if sum < 1e-3 {
		return at, false
	}
	at = at.Scale(1 / sum)
	right, up := (at.X-float64(b.Dx())/2)*s.W/float64(b.Dx()), (float64(b.Dy())/2-at.Y)*s.H/float64(b.Dy())
	sin, cos := math.Sincos(s.Turn)
	return s.At.Add(Point{right*cos - up*sin, right*sin + up*cos}), true
}

// TestCutKeepsPlaces cuts and shrinks pictures turned in all ways: what shows in
// the box stays where it is on the ground.
func TestCutKeepsPlaces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.IntRange(20, 90).Draw(t, "w"), rapid.IntRange(20, 90).Draw(t, "h")
		s := Picture{
			Image: spotted(w, h, rapid.IntRange(3, w-3).Draw(t, "x"), rapid.IntRange(3, h-3).Draw(t, "y")),
			At:    Point{rapid.Float64Range(-20, 20).Draw(t, "east"), rapid.Float64Range(-20, 20).Draw(t, "north")},
			W:     0.2 * float64(w), H: 0.2 * float64(h), Turn: rapid.Float64Range(-7, 7).Draw(t, "turn"), Dim: 0.5,
		}
		before, ok := middle(s)
		require.True(t, ok)
		f := Frame{Ground: Point{1, 2}, Paper: Point{100, 80}, Scale: rapid.Float64Range(1, 10).Draw(t, "scale")}
		at := f.To(before)
		half := rapid.Float64Range(15, 60).Draw(t, "half") // more than the square
		box := Box{X: at.X - half, Y: at.Y - half, W: 2 * half, H: 2 * half}
		density := rapid.Float64Range(0.3, 3).Draw(t, "density")
		cut, ok := s.Cut(f, box, density)
		require.True(t, ok)
		after, ok := middle(cut)
		require.True(t, ok, "the square is still there")
		size := cut.Image.Bounds().Size()
		// A dot of the fewer has no place within itself.
		near := 0.02 + max(cut.W/float64(size.X), cut.H/float64(size.Y)) - 0.2
		assert.InDelta(t, before.X, after.X, near)
		assert.InDelta(t, before.Y, after.Y, near)
		assert.InDelta(t, 0.5, cut.Dim, 0)
		assert.LessOrEqual(t, float64(size.X), max(1, cut.W*f.Scale*density+1e-9))
		assert.LessOrEqual(t, float64(size.Y), max(1, cut.H*f.Scale*density+1e-9))
		assert.LessOrEqual(t, size.X, w)
	})
}

func TestCutOfNothing(t *testing.T) {
	f := Frame{Scale: 5}
	box := Box{W: 100, H: 100} // east 0 to 20 m, north 0 to -20 m
	s := Picture{Image: spotted(20, 20, 10, 10), W: 4, H: 4}
	for name, at := range map[string]Point{"left": {-5, -5}, "above": {5, 5}, "far": {1e300, 0}, "nowhere": {math.NaN(), 0}} {
		s.At = at
		_, ok := s.Cut(f, box, 8)
		assert.False(t, ok, name)
	}
	s.At = Point{-1, 1}
	_, ok := s.Cut(f, box, 8)
	assert.True(t, ok, "a corner shows")
	_, ok = Picture{W: 1, H: 1}.Cut(f, box, 8)
	assert.False(t, ok, "no image")
	_, ok = Picture{Image: image.NewRGBA(image.Rectangle{}), W: 1, H: 1}.Cut(f, box, 8)
	assert.False(t, ok, "no dots")
}

// TestShrinkKeepsTheInk compares the sum of all dots before and after.
func TestShrinkKeepsTheInk(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.IntRange(1, 60).Draw(t, "w"), rapid.IntRange(1, 60).Draw(t, "h")
		m := image.NewRGBA(image.Rect(0, 0, w, h))
		copy(m.Pix, rapid.SliceOfN(rapid.Byte(), 4*w*h, 4*w*h).Draw(t, "dots"))
		nw, nh := rapid.IntRange(1, w).Draw(t, "to w"), rapid.IntRange(1, h).Draw(t, "to h")
		out := shrink(m, m.Rect, nw, nh)
		assert.Equal(t, image.Pt(nw, nh), out.Rect.Size())
		mean := func(m *image.RGBA) float64 {
			sum := 0.0
			for _, v := range m.Pix {
				sum += float64(v)
			}
			return sum / float64(len(m.Pix))
		}
		assert.InDelta(t, mean(m), mean(out), 0.51)
	})
}
