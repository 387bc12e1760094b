package picture

import (
	"image"
	"image/draw"
	"math"

	"linemap/internal/site"
	"linemap/internal/unit"
)

// Shown is a picture as it is painted.
type Shown struct {
	// Image is upright, with a dot for each Factor by Factor dots of the picture
	// where that has more than 16 million.
	Image  *image.RGBA
	Factor int
	// Size is the size of the picture itself, to which an underlay's scale
	// belongs.
	Size image.Point
}

// Dot returns the length on the ground of one dot of the image, for the underlay
// that it was loaded for.
func (s *Shown) Dot(u *site.Underlay) unit.Length { return u.Scale * unit.Length(s.Factor) }

// mostShown is how many dots a picture is painted with at most.
const mostShown = 16_000_000

// show decodes a picture and makes it fit to be painted.
func show(data []byte) (*Shown, error) {
	f, err := inspect(data)
	if err != nil {
		return nil, err
	}
	m, err := f.decode(data)
	if err != nil {
		return nil, err
	}
	factor := factorFor(m.Bounds().Size(), mostShown)
	return &Shown{Image: f.jpeg.turn.upright(shrink(m, factor)), Factor: factor, Size: f.size()}, nil
}

// factorFor returns by how much a picture is shrunk to have so many dots.
func factorFor(size image.Point, most int) int {
	factor := math.Ceil(math.Sqrt(float64(size.X) * float64(size.Y) / float64(most)))
	return max(1, int(factor))
}

// shrink returns a picture whose dots are each the mean of factor by factor dots
// of m, so that thin lines get fainter and do not go. It works through m in
// bands: a large picture is not in memory a second time.
func shrink(m image.Image, factor int) *image.RGBA {
	in := m.Bounds()
	w, h := (in.Dx()+factor-1)/factor, (in.Dy()+factor-1)/factor
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	if factor == 1 {
		draw.Draw(out, out.Rect, m, in.Min, draw.Src)
		return out
	}
	band := image.NewRGBA(image.Rect(0, 0, in.Dx(), factor))
	sums := make([][4]int, w)
	for y := range h {
		rows := min(factor, in.Dy()-y*factor)
		draw.Draw(band, image.Rect(0, 0, in.Dx(), rows), m, in.Min.Add(image.Pt(0, y*factor)), draw.Src)
		clear(sums)
		for row := range rows {
			pix := band.Pix[row*band.Stride:][:4*in.Dx()]
			for x := 0; x < len(pix); x += 4 {
				sum := &sums[x/4/factor]
				sum[0] += int(pix[x])
				sum[1] += int(pix[x+1])
				sum[2] += int(pix[x+2])
				sum[3] += int(pix[x+3])
			}
		}
		line := out.Pix[y*out.Stride:][:4*w]
		for x := range sums {
			n := rows * min(factor, in.Dx()-x*factor)
			for c, sum := range sums[x] {
				line[4*x+c] = byte((sum + n/2) / n)
			}
		}
	}
	return out
}
