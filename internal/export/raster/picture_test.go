package raster

import (
	"image"
	"image/color"
	"image/draw"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"linemap/internal/export/drawing"
)

// quarters is an image whose quarters are red, green, blue and black, read as a
// page is.
func quarters(w, h int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for i, c := range []color.RGBA{{255, 0, 0, 255}, {0, 255, 0, 255}, {0, 0, 255, 255}, {0, 0, 0, 255}} {
		x, y := i%2*w/2, i/2*h/2
		draw.Draw(img, image.Rect(x, y, x+w/2, y+h/2), image.NewUniform(c), image.Point{}, draw.Src)
	}
	return img
}

func TestPictureLiesOnTheGround(t *testing.T) {
	// 40 m by 20 m about 100, 50, at 1 mm for each metre and 2 dots to the mm.
	f := drawing.Frame{Ground: drawing.Point{X: 100, Y: 50}, Paper: drawing.Point{X: 50, Y: 50}, Scale: 1}
	show := func(pic drawing.Picture) *image.RGBA {
		img := sheetOf(200, 200)
		pic.At, pic.W, pic.H = f.Ground, 40, 20
		paint(img, 2, panelOf(f, pic))
		return img
	}
	flat := show(drawing.Picture{Image: quarters(80, 40)})
	assert.Equal(t, color.RGBA{255, 0, 0, 255}, flat.RGBAAt(70, 90), "north-west")
	assert.Equal(t, color.RGBA{0, 255, 0, 255}, flat.RGBAAt(130, 90), "north-east")
	assert.Equal(t, color.RGBA{0, 0, 255, 255}, flat.RGBAAt(70, 110), "south-west")
	assert.Equal(t, image.Rect(60, 80, 140, 120), extentOf(flat))

	turned := show(drawing.Picture{Image: quarters(80, 40), Turn: math.Pi / 2})
	assert.Equal(t, color.RGBA{255, 0, 0, 255}, turned.RGBAAt(90, 130), "its north-west is south-west now")
	assert.Equal(t, color.RGBA{0, 255, 0, 255}, turned.RGBAAt(90, 70))

	dim := show(drawing.Picture{Image: quarters(80, 40), Dim: 0.75})
	assert.InDelta(t, 255*0.75, dim.RGBAAt(70, 90).G, 2)
	assert.Equal(t, flat.Pix[:0], dim.Pix[:0])
	assert.Equal(t, image.Rectangle{}, extentOf(show(drawing.Picture{Image: quarters(80, 40), Dim: 1})), "wholly faded")

	gray := image.NewGray(image.Rect(7, 7, 87, 47)) // another kind, from another corner
	assert.Equal(t, image.Rect(60, 80, 140, 120), extentOf(show(drawing.Picture{Image: gray})))
}

// From afar every line of a plan still counts with its share of the ground.
func TestThinLinesAreNotLost(t *testing.T) {
	plan := image.NewRGBA(image.Rect(0, 0, 1024, 1024))
	draw.Draw(plan, plan.Rect, image.White, image.Point{}, draw.Src)
	for x := 5; x < 1024; x += 16 {
		draw.Draw(plan, image.Rect(x, 0, x+1, 1024), image.Black, image.Point{}, draw.Src)
	}
	img := sheetOf(64, 64)
	paint(img, 1, panelOf(drawing.Frame{}, drawing.Picture{Image: plan, At: drawing.Point{X: 32, Y: 32}, W: 60, H: 60}))
	for y := 10; y < 54; y++ {
		for x := 10; x < 54; x++ {
			assert.InDelta(t, 255*15/16.0, img.RGBAAt(x, y).R, 4, "dot %d, %d", x, y)
		}
	}
}

func TestPlansAreTurnedAtNight(t *testing.T) {
	show := func(ground, ink color.Color) (color.RGBA, color.RGBA) {
		pic := image.NewRGBA(image.Rect(0, 0, 40, 40))
		draw.Draw(pic, pic.Rect, image.NewUniform(ground), image.Point{}, draw.Src)
		draw.Draw(pic, image.Rect(16, 0, 24, 40), image.NewUniform(ink), image.Point{}, draw.Src)
		img := image.NewRGBA(image.Rect(0, 0, 40, 40))
		p := New(img, 1)
		p.Inks = Night
		drawing.Paint(&drawing.Sheet{Panels: []drawing.Panel{panelOf(drawing.Frame{}, drawing.Picture{
			Image: pic, At: drawing.Point{X: 20, Y: 20}, W: 40, H: 40,
		})}}, p)
		p.Flush()
		return img.RGBAAt(4, 20), img.RGBAAt(20, 20)
	}
	white, black := show(color.White, color.Black)
	assert.Equal(t, color.RGBA{NightPaper.R, NightPaper.G, NightPaper.B, 255}, white, "the plan's paper is the board's")
	assert.Equal(t, color.RGBA{nightInk, nightInk, nightInk, 255}, black)
	_, red := show(color.White, color.RGBA{180, 0, 0, 255})
	assert.Greater(t, red.R, red.G, "red stays red")
	sea, ship := show(color.RGBA{20, 40, 60, 255}, color.White)
	assert.Equal(t, color.RGBA{20, 40, 60, 255}, sea, "a photograph stays as it is")
	assert.Equal(t, color.RGBA{255, 255, 255, 255}, ship)
}

// Whatever its frame, a picture is painted without a fault, and is opaque where
// it was.
func TestPictureAnywhere(t *testing.T) {
	pic := quarters(30, 20)
	rapid.Check(t, func(t *rapid.T) {
		img := sheetOf(50, 50)
		paint(img, 2, panelOf(
			drawing.Frame{Paper: drawing.Point{X: 12, Y: 12}, Scale: rapid.Float64Range(1e-6, 1e4).Draw(t, "scale")},
			drawing.Picture{
				Image: pic, At: drawing.Point{X: rapid.Float64Range(-20, 20).Draw(t, "x"), Y: rapid.Float64Range(-20, 20).Draw(t, "y")},
				W: rapid.Float64Range(1e-3, 1e6).Draw(t, "w"), H: rapid.Float64Range(1e-3, 1e6).Draw(t, "h"),
				Turn: rapid.Float64Range(-10, 10).Draw(t, "turn"), Dim: rapid.Float64Range(-1, 2).Draw(t, "dim"),
			}))
		for i := 3; i < len(img.Pix); i += 4 {
			assert.GreaterOrEqual(t, img.Pix[i], uint8(254))
		}
	})
}
