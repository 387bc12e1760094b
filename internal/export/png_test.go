package export

import (
	"bytes"
	"encoding/binary"
	"image/color"
	"image/png"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/site"
)

// TestMapPNG reads the picture back: the size of the paper at 200 dots per inch
// (ANSI/ASME Y14.1 size A is 11 x 8.5 in, ISO 216 A4 is 297 x 210 mm), the
// density said, ink on it, and the same bytes again.
func TestMapPNG(t *testing.T) {
	for p, size := range map[site.Paper][2]int{site.Letter: {2200, 1700}, site.A4: {2339, 1654}} {
		t.Run(string(p), func(t *testing.T) {
			sheets, err := MapPNG(fixtureSite(), fixturePlan(), Options{Paper: p})
			require.NoError(t, err)
			require.Len(t, sheets, 1)
			img, err := png.Decode(bytes.NewReader(sheets[0]))
			require.NoError(t, err)
			assert.Equal(t, size, [2]int{img.Bounds().Dx(), img.Bounds().Dy()})
			dark := 0
			for y := range size[1] {
				for x := range size[0] {
					if color.GrayModel.Convert(img.At(x, y)).(color.Gray).Y < 64 {
						dark++
					}
				}
			}
			share := float64(dark) / float64(size[0]*size[1])
			assert.True(t, share > 0.005 && share < 0.2, "%.4f of it is dark", share)

			at := bytes.Index(sheets[0], []byte("pHYs"))
			require.Positive(t, at)
			const metresPerInch = 0.0254
			assert.InDelta(t, 200, float64(binary.BigEndian.Uint32(sheets[0][at+4:]))*metresPerInch, 0.01)
			assert.Less(t, at, bytes.Index(sheets[0], []byte("IDAT")))

			again, err := MapPNG(fixtureSite(), fixturePlan(), Options{Paper: p})
			require.NoError(t, err)
			assert.True(t, bytes.Equal(sheets[0], again[0]), "the same bytes")
		})
	}
}
