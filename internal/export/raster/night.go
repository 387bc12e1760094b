package raster

import (
	"math"

	"linemap/internal/export/drawing"
)

// NightPaper is the ground of a drawing at night.
var NightPaper = drawing.Colour{R: 24, G: 27, B: 31}

// Night turns an ink made for white paper into one for [NightPaper]: neutral
// inks change places from dark to light, and accents are mixed with white until
// they stand out as clearly as on paper.
func Night(c drawing.Colour) drawing.Colour {
	most, least := max(c.R, c.G, c.B), min(c.R, c.G, c.B)
	if most-least < 16 { // a neutral
		t := float64(c.R) / 255
		mix := func(paper uint8) uint8 {
			const ink = 236
			return uint8(float64(paper)*t + ink*(1-t) + 0.5)
		}
		return drawing.Colour{R: mix(NightPaper.R), G: mix(NightPaper.G), B: mix(NightPaper.B)}
	}
	if least > 150 { // a tint of an accent: a ribbon, which must stay in the background
		dim := func(v uint8) uint8 { return uint8(40 + 0.75*(float64(v)-float64(least))) }
		return drawing.Colour{R: dim(c.R), G: dim(c.G), B: dim(c.B)}
	}
	for share := 1.0; share > 0.1; share -= 0.05 {
		if light := c.Tint(share); Contrast(light, NightPaper) >= 5 {
			return light
		}
	}
	return drawing.White
}

// Contrast is the contrast of two colours, from 1 for none to 21 (WCAG 2.2,
// definition of contrast ratio).
func Contrast(a, b drawing.Colour) float64 {
	la, lb := luminance(a), luminance(b)
	return (math.Max(la, lb) + 0.05) / (math.Min(la, lb) + 0.05)
}

// luminance is the relative luminance of a colour (WCAG 2.2).
func luminance(c drawing.Colour) float64 {
	linear := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
}
