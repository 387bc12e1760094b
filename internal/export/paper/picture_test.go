package paper

import (
	"image"
	"image/color"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/export/drawing"
	"linemap/internal/site"
)

// pictured writes a page that shows one image twice, once turned and faded.
func pictured(t *testing.T, img image.Image) ([]byte, error) {
	d := New(site.A4, false, Meta{Title: "Pictures"})
	d.AddPage()
	var l drawing.List
	l.Add(drawing.Base,
		drawing.Picture{Image: img, At: drawing.Point{X: 60, Y: 60}, W: 40, H: 30},
		drawing.Picture{Image: img, At: drawing.Point{X: 120, Y: 120}, W: 40, H: 30, Turn: math.Pi / 6, Dim: 0.6})
	l.Add(drawing.Notes, drawing.Text{At: drawing.Point{X: 50, Y: 200}, S: "after", Style: Style{Pt: 9}})
	d.Paint(&drawing.Sheet{Panels: []drawing.Panel{{Clip: &Box{X: 10, Y: 10, W: 190, H: 270}, List: l}}})
	return d.Bytes()
}

func TestPictures(t *testing.T) {
	for name, c := range map[string]struct{ last color.RGBA64 }{
		"opaque":      {color.RGBA64{9, 9, 9, 0xffff}},
		"transparent": {color.RGBA64{}},
	} {
		img := image.NewRGBA64(image.Rect(0, 0, 40, 30)) // sixteen bits
		for i := range 40 * 30 {
			img.Set(i%40, i/40, color.RGBA64{uint16(i * 40), 0, 0x8000, 0xffff})
		}
		img.Set(39, 29, c.last)
		pdf, err := pictured(t, img)
		require.NoError(t, err, name)
		again, err := pictured(t, img)
		require.NoError(t, err, name)
		assert.Equal(t, pdf, again, "%s: the same bytes twice", name)
		tools := map[string][]string{"qpdf": {"--check"}, "pdfimages": {"-list"}}
		file := filepath.Join(t.TempDir(), "p.pdf")
		require.NoError(t, os.WriteFile(file, pdf, 0o600))
		for tool, arg := range tools {
			if _, err := exec.LookPath(tool); err != nil {
				continue // a machine without it checks the bytes only
			}
			out, err := exec.Command(tool, append(arg, file)...).CombinedOutput()
			require.NoError(t, err, "%s: %s: %s", name, tool, out)
			if tool == "qpdf" {
				assert.Contains(t, string(out), "No syntax or stream encoding errors", name)
			} else {
				shown := regexp.MustCompile(`(?m) image +40 +30 +rgb .* (\d+)  0 `).FindAllStringSubmatch(string(out), -1)
				require.Len(t, shown, 2, "%s: shown twice\n%s", name, out)
				assert.Equal(t, shown[0][1], shown[1][1], "%s: kept once", name)
			}
		}
	}
	_, err := pictured(t, image.NewRGBA(image.Rectangle{}))
	assert.Error(t, err, "an image without a dot")
}
