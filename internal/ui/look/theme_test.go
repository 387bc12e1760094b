package look

import (
	"image/color"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"github.com/stretchr/testify/assert"
)

// What cannot be done now must still be readable. WCAG 2.2, 1.4.11, asks 3 to 1
// of what is active; what is not is held to it all the same.
func TestWhatCannotBeDoneIsReadable(t *testing.T) {
	test.NewTempApp(t)
	for _, variant := range []fyne.ThemeVariant{theme.VariantDark, theme.VariantLight} {
		look := &Theme{}
		text := look.Color(theme.ColorNameDisabled, variant)
		for _, ground := range []fyne.ThemeColorName{theme.ColorNameBackground, theme.ColorNameMenuBackground, theme.ColorNameOverlayBackground} {
			assert.GreaterOrEqual(t, contrast(text, look.Color(ground, variant)), 3.0, "%v on %v", variant, ground)
		}
	}
}

// contrast is the ratio of WCAG 2.2 of two opaque colours.
func contrast(a, b color.Color) float64 {
	la, lb := luminance(a), luminance(b)
	return (math.Max(la, lb) + 0.05) / (math.Min(la, lb) + 0.05)
}

func luminance(c color.Color) float64 {
	r, g, b, _ := c.RGBA()
	part := func(v uint32) float64 {
		f := float64(v) / 0xffff
		if f <= 0.04045 {
			return f / 12.92
		}
		return math.Pow((f+0.055)/1.055, 2.4)
	}
	return 0.2126*part(r) + 0.7152*part(g) + 0.0722*part(b)
}
