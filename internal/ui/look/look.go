// Package look holds the colours and the sizes of the window, by day and by
// night.
package look

import (
	"image/color"

	"linemap/internal/export/drawing"
	"linemap/internal/export/raster"
)

// Look is how the board is coloured.
type Look struct {
	Dark bool
	// Paper is the board itself.
	Paper drawing.Colour
	// Ink turns an ink made for white paper into one for this board.
	Ink func(drawing.Colour) drawing.Colour
}

// Day and Night are the two looks of the board.
var (
	Day   = Look{Paper: drawing.White, Ink: func(c drawing.Colour) drawing.Colour { return c }}
	Night = Look{Dark: true, Paper: raster.NightPaper, Ink: raster.Night}
)

// For returns the look by day or by night.
func For(dark bool) Look {
	if dark {
		return Night
	}
	return Day
}

// Colour returns an ink as Fyne has it, at an opacity from 0 to 1.
func (l Look) Colour(c drawing.Colour, opacity float64) color.NRGBA {
	c = l.Ink(c)
	return color.NRGBA{c.R, c.G, c.B, uint8(opacity*255 + 0.5)}
}
