package raster

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"linemap/internal/export/drawing"
)

// WCAG 2.2 gives 21:1 for black on white, and W3C's note on technique G18 names
// #767676 as the lightest grey with 4.5:1 on white.
func TestContrast(t *testing.T) {
	assert.InDelta(t, 21, Contrast(drawing.Black, drawing.White), 1e-9)
	assert.InDelta(t, 1, Contrast(drawing.Blue, drawing.Blue), 1e-9)
	assert.GreaterOrEqual(t, Contrast(drawing.Colour{R: 0x76, G: 0x76, B: 0x76}, drawing.White), 4.5)
	assert.Less(t, Contrast(drawing.Colour{R: 0x77, G: 0x77, B: 0x77}, drawing.White), 4.5)
}

// WCAG 2.2 asks for 4.5:1 of text (1.4.3) and 3:1 of what has to be seen to
// understand a drawing (1.4.11).
func TestInksStandOut(t *testing.T) {
	night := Night(drawing.White)
	assert.Equal(t, NightPaper, night, "the paper itself")
	for name, c := range map[string]drawing.Colour{"black": drawing.Black, "grey": drawing.Grey} {
		assert.GreaterOrEqual(t, Contrast(c, drawing.White), 4.5, "%s by day", name)
		assert.GreaterOrEqual(t, Contrast(Night(c), night), 4.5, "%s at night", name)
	}
	for name, c := range map[string]drawing.Colour{
		"blue": drawing.Blue, "green": drawing.Green, "vermillion": drawing.Vermillion,
	} { // the accents that lines are drawn in
		assert.GreaterOrEqual(t, Contrast(c, drawing.White), 3.0, "%s by day", name)
	}
	for name, c := range accents() {
		assert.GreaterOrEqual(t, Contrast(Night(c), night), 4.5, "%s at night", name)
		tint := Night(c.Tint(0.42))
		assert.GreaterOrEqual(t, Contrast(Night(drawing.Black), tint), 3.0, "a pipe on a ribbon of %s", name)
		assert.Less(t, Contrast(tint, night), 4.5, "a ribbon of %s stays behind", name)
	}
}

func accents() map[string]drawing.Colour {
	return map[string]drawing.Colour{
		"orange": drawing.Orange, "sky blue": drawing.SkyBlue, "green": drawing.Green, "yellow": drawing.Yellow,
		"blue": drawing.Blue, "vermillion": drawing.Vermillion, "purple": drawing.Purple,
	}
}

// An accent keeps its hue: the order of its channels.
func TestAccentsKeepTheirHue(t *testing.T) {
	order := func(c drawing.Colour) [3]bool { return [3]bool{c.R >= c.G, c.G >= c.B, c.B >= c.R} }
	for name, c := range accents() {
		assert.Equal(t, order(c), order(Night(c)), name)
		assert.Equal(t, order(c), order(Night(c.Tint(0.42))), "a tint of %s", name)
	}
}
