package ui

import (
	"flag"
	"image"
	"image/draw"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/ui/look"
)

var update = flag.Bool("update", false, "write the goldens anew")

// looksAs holds the window against a golden of its dots. A golden has 16 shades of
// each colour, which keeps it small.
func (b *bench) looksAs(t *testing.T, name string) {
	t.Helper()
	b.rest()
	b.layOut()
	b.rest()
	got := coarse(b.win.Canvas().Capture())
	path := filepath.Join("testdata", name+".png")
	if *update {
		savePNG(t, path, got)
	}
	info, err := os.Stat(path)
	require.NoError(t, err)
	assert.Less(t, info.Size(), int64(150_000), "a golden is to stay small")
	f, err := os.Open(path)
	require.NoError(t, err)
	defer f.Close()
	want, err := png.Decode(f)
	require.NoError(t, err)
	require.Equal(t, want.Bounds(), got.Bounds())
	if n := differing(want, got); n > 100 {
		failed := filepath.Join("testdata", "failed", name+".png")
		savePNG(t, failed, got)
		assert.Fail(t, "the window looks different", "%d dots differ: compare %s with %s", n, failed, path)
	}
}

func savePNG(t *testing.T, path string, img image.Image) {
	t.Helper()
	require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
	f, err := os.Create(path)
	require.NoError(t, err)
	encoder := png.Encoder{CompressionLevel: png.BestCompression}
	require.NoError(t, encoder.Encode(f, img))
	require.NoError(t, f.Close())
}

// shade is the step between two shades of a golden.
const shade = 17

func coarse(img image.Image) *image.RGBA {
	b := img.Bounds()
	to := image.NewRGBA(b)
	draw.Draw(to, b, img, b.Min, draw.Src)
	for i := range to.Pix {
		to.Pix[i] = uint8((int(to.Pix[i]) + shade/2) / shade * shade)
	}
	return to
}

// differing counts the dots in which two pictures differ by more than one shade:
// arithmetic may differ in its last digit from machine to machine.
func differing(a, b image.Image) (n int) {
	far := func(x, y uint32) bool { return max(x, y)-min(x, y) > (shade+1)*0x101 }
	for y := a.Bounds().Min.Y; y < a.Bounds().Max.Y; y++ {
		for x := a.Bounds().Min.X; x < a.Bounds().Max.X; x++ {
			r1, g1, b1, _ := a.At(x, y).RGBA()
			r2, g2, b2, _ := b.At(x, y).RGBA()
			if far(r1, r2) || far(g1, g2) || far(b1, b2) {
				n++
			}
		}
	}
	return n
}

func TestWindowLooksRight(t *testing.T) {
	if raced {
		t.Skip("dots do not race")
	}
	for _, c := range []struct {
		name  string
		light look.Choice
	}{{"day", look.ByDay}, {"night", look.ByNight}} {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t)
			b.setTheme(c.light)
			b.showWelcome() // its pictures are of the light that it was opened in
			b.until("the demo sites", func() bool { return demosShown(b) })
			b.looksAs(t, "welcome_"+c.name)

			b.openDemo("restaurant")
			b.looksAs(t, "planned_"+c.name)
			b.runMenu(2, fyne.NewPos(500, 560))
			b.looksAs(t, "runs_"+c.name)

			b = newBench(t)
			b.setTheme(c.light)
			b.press("New sketch in feet")
			b.typed("p")
			b.click(ft(-40, 0))
			b.click(ft(30, 0))
			b.key(fyne.KeyReturn)
			b.selectOnly()
			b.click(ft(-20, 20))
			b.move(ft(-10, 10))
			b.typed("10")
			b.looksAs(t, "drawing_"+c.name)
		})
	}
}
