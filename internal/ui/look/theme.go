package look

import (
	"fmt"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"linemap/internal/export/drawing"
)

// Choice is what the user wants of the light.
type Choice string

// The choices; the empty one goes by the system.
const (
	BySystem Choice = ""
	ByDay    Choice = "day"
	ByNight  Choice = "night"
)

// Theme is the look of everything around the board: Fyne's own with our
// colours, by day or by night, at a text size of the user's.
type Theme struct {
	Choice Choice
	// Scale is the size of the text, 1 for Fyne's own.
	Scale float32
}

// Scales are the sizes of text that can be chosen.
var Scales = []float32{0.85, 1, 1.2, 1.5, 2}

// ScaleName is what a size of text is called.
func ScaleName(s float32) string {
	switch {
	case s < 1:
		return "Small"
	case s == 1:
		return "Ordinary"
	}
	return fmt.Sprintf("%.0f %%", 100*s)
}

// Dark reports whether an app's window is dark now.
func Dark(app fyne.App) bool {
	if t, ok := app.Settings().Theme().(*Theme); ok {
		return t.variant(app.Settings().ThemeVariant()) == theme.VariantDark
	}
	return app.Settings().ThemeVariant() == theme.VariantDark
}

func (t *Theme) variant(system fyne.ThemeVariant) fyne.ThemeVariant {
	switch t.Choice {
	case ByDay:
		return theme.VariantLight
	case ByNight:
		return theme.VariantDark
	}
	return system
}

// Color is for Fyne.
func (t *Theme) Color(name fyne.ThemeColorName, system fyne.ThemeVariant) color.Color {
	v := t.variant(system)
	l := For(v == theme.VariantDark)
	switch name {
	case theme.ColorNamePrimary, theme.ColorNameHyperlink:
		return l.Colour(drawing.Blue, 1)
	case theme.ColorNameFocus:
		return l.Colour(drawing.Blue, 0.35)
	case theme.ColorNameSelection:
		return l.Colour(drawing.SkyBlue, 0.35)
	case theme.ColorNameError:
		return l.Colour(drawing.Vermillion, 1)
	case theme.ColorNameWarning:
		return l.Colour(drawing.Orange, 1)
	case theme.ColorNameDisabled: // Fyne's own is hard to see at all
		if v == theme.VariantDark {
			return color.NRGBA{0x83, 0x83, 0x8a, 0xff}
		}
		return color.NRGBA{0x85, 0x85, 0x8b, 0xff}
	case theme.ColorNameSuccess:
		return l.Colour(drawing.Green, 1)
	}
	return theme.DefaultTheme().Color(name, v)
}

// Font is for Fyne.
func (t *Theme) Font(s fyne.TextStyle) fyne.Resource { return theme.DefaultTheme().Font(s) }

// Icon is for Fyne.
func (t *Theme) Icon(name fyne.ThemeIconName) fyne.Resource { return theme.DefaultTheme().Icon(name) }

// Size is for Fyne.
func (t *Theme) Size(name fyne.ThemeSizeName) float32 {
	size := theme.DefaultTheme().Size(name)
	switch name {
	case theme.SizeNameText, theme.SizeNameHeadingText, theme.SizeNameSubHeadingText, theme.SizeNameCaptionText, theme.SizeNameInlineIcon:
		scale := t.Scale
		if scale <= 0 {
			scale = 1
		}
		const denser = 13.0 / 14 // a drawing program has much to say around the board
		return size * scale * denser
	case theme.SizeNameInnerPadding:
		return 6
	}
	return size
}
