package strip

import (
	"context"
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"github.com/stretchr/testify/require"

	"linemap/internal/route"
	"linemap/internal/route/sample"
	"linemap/internal/site"
)

// variant is Fyne's theme by day or by night, whatever the system says.
type variant struct {
	fyne.Theme
	is   fyne.ThemeVariant
	size float32 // of the text, as a share of Fyne's
}

func (v variant) Color(n fyne.ThemeColorName, _ fyne.ThemeVariant) color.Color {
	return theme.DefaultTheme().Color(n, v.is)
}

func (v variant) Size(n fyne.ThemeSizeName) float32 {
	return theme.DefaultTheme().Size(n) * v.size
}

// themeOf is that theme with a size of text.
func themeOf(is fyne.ThemeVariant, size float32) variant {
	return variant{theme.DefaultTheme(), is, size}
}

// plans remembers the plans of the demo sites, for several tests show them.
var plans = map[string]*route.Plan{}

// demo is a demo site and its plan.
func demo(t testing.TB, name string) (*site.Site, *route.Plan) {
	s, err := site.Open("../../../assets/demo/" + name + ".linemap")
	require.NoError(t, err)
	if plans[name] == nil {
		plans[name], err = route.Solve(context.Background(), s, sample.Tables(), route.Options{})
		require.NoError(t, err)
	}
	return s, plans[name]
}

// window shows a strip in a window of the test driver.
func window(t testing.TB, s *Strip, th fyne.Theme, w, h float32) fyne.Window {
	app := test.NewTempApp(t)
	app.Settings().SetTheme(th)
	win := test.NewTempWindow(t, s)
	win.SetPadded(false)
	win.Resize(fyne.NewSize(w, h))
	return win
}
