package strip

import (
	"flag"
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the goldens anew")

// sameImage holds a canvas against a golden of its dots.
func sameImage(t *testing.T, name string, c fyne.Canvas) {
	t.Helper()
	if *update {
		path := filepath.Join("testdata", name)
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		f, err := os.Create(path)
		require.NoError(t, err)
		require.NoError(t, png.Encode(f, c.Capture()))
		require.NoError(t, f.Close())
	}
	test.AssertRendersToImage(t, name, c)
}

// The demo days as they look, by day and by night.
func TestPictures(t *testing.T) {
	for _, c := range []struct {
		name, site string
		is         fyne.ThemeVariant
		set        func(s *Strip)
	}{
		{"day", "school", theme.VariantLight, func(*Strip) {}},
		{"night", "school", theme.VariantDark, func(*Strip) {}},
		{"zoomed", "school", theme.VariantLight, func(s *Strip) {
			s.zoom(300, 60)
			s.choose(27)
			s.SetTime(8 * time.Hour)
		}},
		{"stale", "restaurant", theme.VariantDark, func(s *Strip) { s.SetPlan(s.day.site, s.day.plan, true) }},
		{"none", "restaurant", theme.VariantLight, func(s *Strip) {
			s.SetPlan(nil, nil, false)
			s.SetMessage("Nothing to clean yet: draw a pipe with a deposit.")
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := New(Acts{})
			win := window(t, s, themeOf(c.is, 1), 1000, 150)
			on, plan := demo(t, c.site)
			on.ByHand.Keep = plan.Keys()[3:5]
			s.SetPlan(on, plan, false)
			s.SetTime(97 * time.Minute)
			c.set(s)
			sameImage(t, c.name+".png", win.Canvas())
		})
	}
}

// Nothing is cut off: every line of words ends within the strip, and what is
// painted ends before its edges.
func TestNothingClips(t *testing.T) {
	for _, name := range []string{"restaurant", "flats", "school"} {
		on, plan := demo(t, name)
		for _, width := range []float32{1000, 1900} {
			for _, size := range []float32{1, 1.5} {
				t.Run(fmt.Sprintf("%s %.0f %.1f", name, width, size), func(t *testing.T) {
					s := New(Acts{})
					win := window(t, s, themeOf(theme.VariantLight, size), width, 150)
					s.SetPlan(on, plan, true)
					if size == 1 {
						require.LessOrEqual(t, s.MinSize().Height, float32(150))
					}
					win.Resize(fyne.NewSize(width, max(150, s.MinSize().Height)))
					img := win.Canvas().Capture()
					for i := 0; i < len(plan.Day); i += 7 {
						s.SetTime(plan.Day[i].Start)
						for _, o := range []fyne.CanvasObject{s.shown.words, s.shown.stale, s.shown.time, s.shown.flag} {
							edge := o.Position().Add(o.Size())
							require.LessOrEqual(t, edge.X, width)
							require.LessOrEqual(t, edge.Y, s.Size().Height)
						}
						require.LessOrEqual(t, s.shown.words.Position().X+s.shown.words.Size().Width, s.shown.stale.Position().X)
					}
					blank(t, img, image.Rect(int(width)-margin+2, 0, int(width), int(s.stack().tank.bottom())))
					blank(t, img, image.Rect(0, 0, 3, int(s.stack().crew.bottom())))
				})
			}
		}
	}
}

// blank requires that nothing is painted in a box.
func blank(t *testing.T, img image.Image, b image.Rectangle) {
	ground := img.At(b.Min.X, b.Min.Y)
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			require.Equal(t, ground, img.At(x, y), "%d,%d", x, y)
		}
	}
}

// Every kind of event looks unlike every other without its colour.
func TestMannersDiffer(t *testing.T) {
	letters := map[string]bool{}
	for _, m := range manners {
		assert.False(t, letters[m.letter], "letter %q", m.letter)
		letters[m.letter] = true
	}
	type shape struct {
		hatch  hatch
		height float64
		luma   int
	}
	shapes := map[shape]bool{}
	for _, m := range manners {
		s := shape{m.hatch, m.height, int(10 * m.ink.Luma())}
		assert.False(t, shapes[s], "%s looks like another in grey", m.kind)
		shapes[s] = true
	}
}
