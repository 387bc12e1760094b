package raster_test

import (
	"fmt"
	"image"

	"linemap/internal/export/drawing"
	"linemap/internal/export/raster"
)

// A cleanout in the middle of a bitmap with four dots to the millimetre.
func ExampleNew() {
	var l drawing.List
	l.Add(drawing.Drains, drawing.Mark{At: drawing.Point{X: 5, Y: 5}, Symbol: drawing.Disc, Size: 4, Fill: &drawing.Black})
	img := image.NewRGBA(image.Rect(0, 0, 40, 40))
	p := raster.New(img, 4)
	drawing.Paint(&drawing.Sheet{Panels: []drawing.Panel{{List: l}}}, p)
	p.Flush()
	fmt.Println(img.RGBAAt(20, 20), img.RGBAAt(2, 2))
	// Output: {0 0 0 255} {0 0 0 0}
}
