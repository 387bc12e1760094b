package raster

import (
	"math"

	"linemap/internal/export/drawing"
)

// NightPaper is the ground of a drawing at night.
var NightPaper = drawing.Colour{R: 24, G: 27, B: 31}

// nightInk is what black becomes at night.
const nightInk = 236

// Night turns an ink made for white paper into one for [NightPaper]: neutral
// inks change places from dark to light, and accents are mixed with white until
// they stand out as clearly as on paper.
func Night(c drawing.Colour) drawing.Colour {
	most, least := max(c.R, c.G, c.B), min(c.R, c.G, c.B)
	if most-least < 16 { // a neutral
		t := float64(c.R) / 255
		mix := func(paper uint8) uint8 {
			return uint8(float64(paper)*t + nightInk*(1-t) + 0.5)
		}
		return drawing.Colour{R: mix(NightPaper.R), G: mix(NightPaper.G), B: mix(NightPaper.B)}
	}
	if least > 127 { // more white than colour: a tint, a ribbon under a pipe
		return swapped(c, least, most)
	}
	for share := 1.0; share > 0.1; share -= 0.05 {
		if light := c.Tint(share); Contrast(light, NightPaper) >= 5 {
			return light
		}
	}
	return drawing.White
}

// swapped turns a tint of white paper into one of [NightPaper]: of the white,
// black and pure hue that it is mixed of, white and black change places.
func swapped(c drawing.Colour, least, most uint8) drawing.Colour {
	white, black := float64(least)/255, 1-float64(most)/255
	mix := func(v, paper uint8) uint8 {
		return uint8(float64(v-least) + white*float64(paper) + black*nightInk + 0.5)
	}
	return drawing.Colour{R: mix(c.R, NightPaper.R), G: mix(c.G, NightPaper.G), B: mix(c.B, NightPaper.B)}
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
