package raster

import (
	"bytes"
	"flag"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"linemap/internal/export/drawing"
)

var update = flag.Bool("update", false, "write the goldens anew")

// specimen is a row of all symbols, lines in the patterns of the map, a ribbon
// and lettering.
func specimen() *drawing.Sheet {
	var l drawing.List
	for i := range int(drawing.Slip) + 1 {
		l.Add(drawing.Base, drawing.Mark{
			At: drawing.Point{X: 4 + 5*float64(i), Y: 4}, Symbol: drawing.Symbol(i), Size: 3.5, Turn: math.Pi / 8 * float64(i%3),
			Pen: drawing.Pen{Width: 0.3}, Fill: &drawing.White,
		})
	}
	lines := []drawing.Pen{
		{Width: 0.9, Dash: []float64{3.4, 0.8}},
		{Width: 0.65, Dash: []float64{4.2, 0.8, 0.9, 0.8}},
		{Width: 0.5, Ink: drawing.Blue, Dash: []float64{2, 1.3}},
		{Width: 0.45, Ink: drawing.Green, Dash: []float64{0, 1.4}, Round: true},
		{Width: 3.2, Ink: drawing.Grey},
		{Width: 2.76, Ink: drawing.Orange.Tint(0.42)},
		{Width: 1.2},
		{Width: 0.4, Ink: drawing.Vermillion},
	}
	for i, pen := range lines {
		y := 8 + 2.2*float64(min(i, 4))
		l.Add(drawing.Base, drawing.Path{Points: []drawing.Point{{X: 2, Y: y}, {X: 30, Y: y}, {X: 34, Y: y + 4}}, Pen: pen})
	}
	for i, ink := range []drawing.Colour{drawing.Black, drawing.Grey, drawing.Vermillion} {
		l.Add(drawing.Base, drawing.Text{
			At: drawing.Point{X: 37, Y: 10 + 3.2*float64(i)}, S: "CO-2  4 in CI", Style: drawing.Style{Pt: 7, Bold: i == 0, Ink: ink},
		})
	}
	l.Add(drawing.Base, drawing.Text{At: drawing.Point{X: 56, Y: 20}, S: "MH-1", Turn: math.Pi / 2, Style: drawing.Style{Pt: 7}})
	return &drawing.Sheet{W: 60, H: 23, Panels: []drawing.Panel{{List: l}}}
}

func TestGoldens(t *testing.T) {
	for name, night := range map[string]bool{"day": false, "night": true} {
		const dots = 4.2
		s := specimen()
		img := image.NewRGBA(image.Rect(0, 0, int(s.W*dots), int(s.H*dots)))
		p := New(img, dots)
		ground := drawing.White
		if night {
			p.Inks, ground = Night, NightPaper
		}
		draw.Draw(img, img.Rect, image.NewUniform(color.RGBA{ground.R, ground.G, ground.B, 255}), image.Point{}, draw.Src)
		drawing.Paint(s, p)
		p.Flush()
		file := "testdata/specimen_" + name + ".png"
		if *update {
			var b bytes.Buffer
			require.NoError(t, png.Encode(&b, img))
			require.NoError(t, os.WriteFile(file, b.Bytes(), 0o644))
		}
		golden, err := os.Open(file)
		require.NoError(t, err)
		want, err := png.Decode(golden)
		require.NoError(t, err)
		require.NoError(t, golden.Close())
		require.Equal(t, img.Rect, want.Bounds())
		for y := range img.Rect.Dy() {
			for x := range img.Rect.Dx() { // machines may round a share of a dot differently
				r, g, b, _ := want.At(x, y).RGBA()
				got := img.RGBAAt(x, y)
				for k, v := range [3]uint8{got.R, got.G, got.B} {
					require.InDelta(t, [3]uint32{r, g, b}[k]>>8, v, 4, "%s: dot %d, %d", name, x, y)
				}
			}
		}
	}
}
