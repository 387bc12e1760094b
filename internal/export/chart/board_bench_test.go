package chart

import (
	"fmt"
	"image"
	"image/draw"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/image/vector"

	"linemap/internal/export/drawing"
	"linemap/internal/export/raster"
	"linemap/internal/network"
)

// The bitmap of the benchmarks: a screen with a border around it.
const (
	benchW, benchH = 1900, 1400
	benchDots      = 4.2
)

// benchViews looks at the whole of a site, at a street of it and at a house.
func benchViews(e extent) map[string]drawing.Frame {
	w, h := e.size()
	at := func(scale float64) drawing.Frame {
		return drawing.Frame{Ground: e.middle(), Paper: drawing.Point{X: benchW / 2 / benchDots, Y: benchH / 2 / benchDots}, Scale: scale}
	}
	return map[string]drawing.Frame{"whole": at(0.9 * min(benchW/w, benchH/h) / benchDots), "street": at(2.2), "house": at(12)}
}

func BenchmarkNewBoard(b *testing.B) {
	for _, pipes := range []int{500, 2000, 10_000} {
		s, p := campus(pipes)
		g, _ := network.Trace(&s.Network)
		b.Run(fmt.Sprint(pipes), func(b *testing.B) {
			for b.Loop() {
				_, err := NewBoard(s, g, p, everything(""))
				require.NoError(b, err)
			}
		})
	}
}

// A settled repaint: shapes and bitmap anew. Goal: 100 ms at 10,000 pipes.
func BenchmarkRepaint(b *testing.B) {
	for _, pipes := range []int{500, 2000, 10_000} {
		s, p := campus(pipes)
		bd := board(b, s, p, everything(""))
		for name, f := range benchViews(extentOfSite(s, "")) {
			b.Run(fmt.Sprintf("%d/%s", pipes, name), func(b *testing.B) {
				img := image.NewRGBA(image.Rect(0, 0, benchW, benchH))
				for b.Loop() {
					bd.last = view{}
					paintBench(img, bd.Panel(f, benchW/benchDots, benchH/benchDots))
				}
			})
		}
	}
}

// The bitmap alone, as after a short pan.
func BenchmarkPaint(b *testing.B) {
	for _, pipes := range []int{500, 2000, 10_000} {
		s, p := campus(pipes)
		bd := board(b, s, p, everything(""))
		for name, f := range benchViews(extentOfSite(s, "")) {
			pn := bd.Panel(f, benchW/benchDots, benchH/benchDots)
			b.Run(fmt.Sprintf("%d/%s", pipes, name), func(b *testing.B) {
				img := image.NewRGBA(image.Rect(0, 0, benchW, benchH))
				for b.Loop() {
					paintBench(img, pn)
				}
			})
		}
	}
}

func paintBench(img *image.RGBA, pn drawing.Panel) {
	draw.Draw(img, img.Rect, image.White, image.Point{}, draw.Src)
	p := raster.New(img, benchDots)
	drawing.Paint(&drawing.Sheet{Panels: []drawing.Panel{pn}}, p)
	p.Flush()
}

// To compare with: the pipes alone, as solid lines, by the rasterizer of
// golang.org/x/image with a path for each, and with one path for all.
func BenchmarkPlainLines(b *testing.B) {
	s, _ := campus(10_000)
	bd := board(b, s, nil, everything(""))
	f := benchViews(extentOfSite(s, ""))["whole"]
	for name, each := range map[string]bool{"path for each": true, "one path": false} {
		b.Run(name, func(b *testing.B) {
			img := image.NewRGBA(image.Rect(0, 0, benchW, benchH))
			v := vector.NewRasterizer(benchW, benchH)
			for b.Loop() {
				draw.Draw(img, img.Rect, image.White, image.Point{}, draw.Src)
				v.Reset(benchW, benchH)
				for _, p := range bd.st.pipes {
					line := bd.trace(p)
					a, c := f.To(line[0]).Scale(benchDots), f.To(line[len(line)-1]).Scale(benchDots)
					d := c.Sub(a)
					box := image.Rect(int(min(a.X, c.X))-2, int(min(a.Y, c.Y))-2, int(max(a.X, c.X))+3, int(max(a.Y, c.Y))+3)
					o := drawing.Point{}
					if each {
						o = drawing.Point{X: float64(box.Min.X), Y: float64(box.Min.Y)}
						v.Reset(box.Dx(), box.Dy())
					}
					n := drawing.Point{X: -d.Y, Y: d.X}.Scale(1 / max(1e-9, lengthOf([]drawing.Point{a, c})))
					for i, q := range []drawing.Point{a.Add(n), c.Add(n), c.Sub(n), a.Sub(n)} {
						if x, y := float32(q.X-o.X), float32(q.Y-o.Y); i == 0 {
							v.MoveTo(x, y)
						} else {
							v.LineTo(x, y)
						}
					}
					v.ClosePath()
					if each && box.In(img.Rect) {
						v.Draw(img, box, image.Black, image.Point{})
					}
				}
				if !each {
					v.Draw(img, img.Rect, image.Black, image.Point{})
				}
			}
		})
	}
}
