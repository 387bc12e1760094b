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
	"linemap/internal/export/paper"
)

// sheetOf is a bitmap of white paper.
func sheetOf(w, h int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(img, img.Rect, image.White, image.Point{}, draw.Src)
	return img
}

func paint(img *image.RGBA, dotsPerMM float64, panels ...drawing.Panel) {
	p := New(img, dotsPerMM)
	drawing.Paint(&drawing.Sheet{Panels: panels}, p)
	p.Flush()
}

func panelOf(f drawing.Frame, shapes ...drawing.Shape) drawing.Panel {
	p := drawing.Panel{Frame: f}
	p.Add(drawing.Base, shapes...)
	return p
}

// A pipe of 100 m lies where its frame says, at any scale and any density.
func TestALineLiesWhereItsFrameSays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const w, h = 300, 200
		dots := rapid.Float64Range(2, 9).Draw(t, "dots per mm")
		f := drawing.Frame{
			Ground: drawing.Point{X: rapid.Float64Range(-1e4, 1e4).Draw(t, "east"), Y: rapid.Float64Range(-1e4, 1e4).Draw(t, "north")},
			Paper:  drawing.Point{X: w / 2 / dots, Y: h / 2 / dots},
			Scale:  rapid.Float64Range(0.1, 0.9).Draw(t, "scale"),
		}
		turn := rapid.Float64Range(0, 2*math.Pi).Draw(t, "turn")
		sin, cos := math.Sincos(turn)
		way := drawing.Point{X: 100 * cos, Y: 100 * sin}
		from := f.Ground.Sub(way.Scale(0.5))
		img := sheetOf(w, h)
		paint(img, dots, panelOf(f, drawing.Path{Points: []drawing.Point{from, from.Add(way)}, Pen: drawing.Pen{Width: 4 / dots}}))
		dark := func(along, aside float64) uint8 { // in dots from the middle
			x, y := w/2+along*cos-aside*sin, h/2-along*sin-aside*cos
			if x < 0 || y < 0 || x >= w || y >= h {
				return 0
			}
			return 255 - img.RGBAAt(int(x), int(y)).R
		}
		half := 50 * f.Scale * dots
		for _, share := range []float64{-0.9, -0.3, 0, 0.4, 0.9} {
			if x, y := w/2+share*half*cos, h/2-share*half*sin; x > 2 && y > 2 && x < w-2 && y < h-2 {
				assert.Greater(t, dark(share*half, 0), uint8(200), "on it")
			}
			assert.Zero(t, dark(share*half, 5), "beside it")
			assert.Zero(t, dark(share*half, -5), "beside it")
		}
		assert.Zero(t, dark(half+3, 0), "past its end")
	})
}

// The PDF reference (ISO 32000-1, 8.4.3.6) says how dashes lie: on, off, in
// turn, from the start of the line on and around its corners.
func TestDashes(t *testing.T) {
	img := sheetOf(200, 40)
	paint(img, 1, panelOf(drawing.Frame{}, drawing.Path{
		Points: []drawing.Point{{X: 0, Y: 20}, {X: 95, Y: 20}, {X: 195, Y: 20}}, Pen: drawing.Pen{Width: 4, Dash: []float64{30, 10}},
	}))
	for x := range 195 {
		assert.Equal(t, x%40 < 30, img.RGBAAt(x, 20).R < 128, "dot %d", x)
	}
	// A row of dots.
	img = sheetOf(100, 20)
	paint(img, 1, panelOf(drawing.Frame{}, drawing.Path{
		Points: []drawing.Point{{X: 10, Y: 10}, {X: 90, Y: 10}}, Pen: drawing.Pen{Width: 6, Dash: []float64{0, 20}, Round: true},
	}))
	for x := 10; x < 90; x += 20 {
		assert.Less(t, img.RGBAAt(x, 10).R, uint8(10))
	}
	for x := 20; x < 90; x += 20 {
		assert.Equal(t, uint8(255), img.RGBAAt(x, 10).R)
	}
}

// Dashes lie on the ground: what is seen of a line does not depend on how much
// of it is seen.
func TestDashesStayWhileOnePans(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		line := drawing.Path{
			Points: []drawing.Point{{X: -3e4, Y: 12}, {X: 40, Y: 12}, {X: 60, Y: 30}, {X: 2e4, Y: 30}},
			Pen:    drawing.Pen{Width: 3, Dash: []float64{4.2, 0.8, 0.9, 0.8}},
		}
		whole, part := sheetOf(100, 40), sheetOf(100, 40)
		paint(whole, 1, panelOf(drawing.Frame{}, line))
		x := rapid.IntRange(0, 60).Draw(t, "left")
		clip := &drawing.Box{X: float64(x), Y: 0, W: 40, H: 40}
		pn := panelOf(drawing.Frame{}, line)
		pn.Clip = clip
		paint(part, 1, pn)
		for y := range 40 {
			for i := x; i < x+40; i++ {
				assert.InDelta(t, whole.RGBAAt(i, y).R, part.RGBAAt(i, y).R, 3, "dot %d, %d", i, y)
			}
		}
	})
}

func TestLettering(t *testing.T) {
	rule, err := paper.NewRuler()
	assert.NoError(t, err)
	const pt, dots = 24, 4
	text := func(s string, turn float64, at drawing.Point) *image.RGBA {
		img := sheetOf(400, 400)
		paint(img, dots, panelOf(drawing.Frame{}, drawing.Text{S: s, At: at, Turn: turn, Style: drawing.Style{Pt: pt, Align: drawing.Centre}}))
		return img
	}
	middle := drawing.Point{X: 50, Y: 50}
	flat := text("MH-12 HO", 0, middle)
	box := extentOf(flat)
	assert.InDelta(t, rule.Width("MH-12 HO", false, pt)*dots, box.Dx(), 6, "as wide as measured")
	assert.InDelta(t, paper.CapHeight*pt*paper.MMPerPoint*dots, box.Dy(), 2, "as high as a capital")
	assert.InDelta(t, 200, (box.Min.X+box.Max.X)/2, 2)
	assert.InDelta(t, 200, box.Max.Y, 1.5, "on its baseline")

	up := extentOf(text("MH-12 HO", math.Pi/2, middle))
	assert.InDelta(t, box.Dx(), up.Dy(), 3, "turned counterclockwise")
	assert.InDelta(t, 200, up.Max.X, 1.5)

	o := text("O", 0, drawing.Point{X: 50, Y: 50})
	hole := extentOf(o)
	assert.Equal(t, uint8(255), o.RGBAAt((hole.Min.X+hole.Max.X)/2, (hole.Min.Y+hole.Max.Y)/2).R, "an O has a hole")
	assert.Equal(t, image.Rectangle{}, extentOf(text("   ", 0, middle)))
}

// extentOf is the part of a bitmap that is not white.
func extentOf(img *image.RGBA) image.Rectangle {
	var box image.Rectangle
	for y := range img.Rect.Dy() {
		for x := range img.Rect.Dx() {
			if img.RGBAAt(x, y).R < 200 {
				box = box.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	return box
}

// A mark looks the same as its outlines, to the part of a dot that stamps are
// fine.
func TestStampsLookLikeTheirOutlines(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawing.Mark{
			At:     drawing.Point{X: rapid.Float64Range(9, 11).Draw(t, "x"), Y: rapid.Float64Range(9, 11).Draw(t, "y")},
			Symbol: drawing.Symbol(rapid.IntRange(int(drawing.Disc), int(drawing.Slip)).Draw(t, "symbol")),
			Size:   rapid.Float64Range(1, 4.5).Draw(t, "size"), Turn: rapid.Float64Range(-7, 7).Draw(t, "turn"),
			Longer: rapid.SampledFrom([]float64{0, 0, 1.2, 4}).Draw(t, "longer"),
			Pen:    drawing.Pen{Width: 0.3, Ink: drawing.Vermillion}, Fill: &drawing.Yellow,
		}
		stamped, drawn := sheetOf(80, 80), sheetOf(80, 80)
		paint(stamped, 4, panelOf(drawing.Frame{}, m))
		p := New(drawn, 4)
		m.Outlines(m.At, p)
		p.Flush()
		sum, ink := 0.0, 0.0
		for i := range stamped.Pix {
			sum += math.Abs(float64(stamped.Pix[i]) - float64(drawn.Pix[i]))
			ink += 255 - float64(drawn.Pix[i])
		}
		assert.Less(t, sum, 0.35*ink, "of the ink")
	})
}

// Nothing is painted outside of the bitmap or of a clip, wherever shapes lie and
// whatever is wrong with their figures.
func TestHostileShapes(t *testing.T) { rapid.Check(t, paintAnything) }

func FuzzPaint(f *testing.F) { f.Fuzz(rapid.MakeFuzz(paintAnything)) }

func paintAnything(t *rapid.T) {
	odd := []float64{0, 1, -1, 30, 1e3, -1e7, 1e18, -1e300, math.Inf(1), math.Inf(-1), math.NaN(), 1e-300}
	anything := rapid.OneOf(rapid.SampledFrom(odd), rapid.Float64(), rapid.Float64Range(-100, 100))
	num := func(name string) float64 { return anything.Draw(t, name) }
	at := func() drawing.Point { return drawing.Point{X: num("x"), Y: num("y")} }
	pen := drawing.Pen{Width: num("width"), Round: rapid.Bool().Draw(t, "round")}
	if rapid.Bool().Draw(t, "dashed") {
		pen.Dash = []float64{num("dash"), num("gap")}[:rapid.IntRange(1, 2).Draw(t, "dashes")]
	}
	pn := panelOf(
		drawing.Frame{Ground: at(), Paper: at(), Scale: num("scale")},
		drawing.Path{Points: []drawing.Point{at(), at(), at()}, Closed: true, Pen: pen, Fill: &drawing.Green},
		drawing.Path{Points: []drawing.Point{{}, {X: 1e9, Y: 1}}, Pen: pen},
		drawing.Mark{At: at(), Off: at(), Symbol: drawing.Cup, Size: num("size"), Turn: num("turn"), Pen: pen},
		drawing.Text{At: at(), S: "CO-1 \x00\xff\u202e猫", Turn: num("turn"), Style: drawing.Style{Pt: num("pt")}, Plate: &drawing.White},
		drawing.Picture{Image: image.NewGray(image.Rect(3, 4, 9, 9)), At: at(), W: num("w"), H: num("h"), Turn: num("turn"), Dim: num("dim")},
	)
	pn.Clip = &drawing.Box{X: num("left"), Y: num("top"), W: num("wide"), H: num("high")}
	all := sheetOf(60, 60)
	inner := all.SubImage(image.Rect(20, 20, 40, 40)).(*image.RGBA)
	paint(inner, rapid.SampledFrom([]float64{1, 4.2, 0}).Draw(t, "dots"), pn, panelOf(drawing.Frame{}, pn.Items[1].Shape))
	for y := range 60 {
		for x := range 60 {
			if !(image.Point{X: x, Y: y}).In(inner.Rect) {
				assert.Equal(t, color.RGBA{255, 255, 255, 255}, all.RGBAAt(x, y), "dot %d, %d lies outside", x, y)
			}
		}
	}
}

// A painter may be used again after it has been flushed, and one of nothing does
// nothing.
func TestFlush(t *testing.T) {
	img := sheetOf(20, 20)
	p := New(img, 1)
	p.Flush()
	p.Flush()
	p.Outline(drawing.Outline{{Op: drawing.Move, P: [3]drawing.Point{{X: 0, Y: 10}}}, {Op: drawing.Line, P: [3]drawing.Point{{X: 20, Y: 10}}}}, drawing.Pen{Width: 4}, nil)
	assert.Equal(t, uint8(255), img.RGBAAt(10, 10).R, "it waits")
	p.Flush()
	assert.Equal(t, uint8(0), img.RGBAAt(10, 10).R)
	paint(image.NewRGBA(image.Rectangle{}), 4, panelOf(drawing.Frame{}, drawing.Mark{Size: 3, Pen: drawing.Pen{Width: 1}}))
}
