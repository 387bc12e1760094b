package ui

import (
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"codeberg.org/go-pdf/fpdf"
	"github.com/stretchr/testify/require"
)

// floor is a picture of a room: walls around a floor.
func floor() image.Image {
	m := image.NewGray(image.Rect(0, 0, 400, 300))
	for y := range 300 {
		for x := range 400 {
			v := uint8(0xff)
			if x < 8 || y < 8 || x >= 392 || y >= 292 {
				v = 0x20
			}
			m.SetGray(x, y, color.Gray{v})
		}
	}
	return m
}

func picturePNG(t *testing.T, dir, name string) string {
	t.Helper()
	f, err := os.Create(filepath.Join(dir, name))
	require.NoError(t, err)
	require.NoError(t, png.Encode(f, floor()))
	require.NoError(t, f.Close())
	return f.Name()
}

func pictureJPEG(t *testing.T, dir, name string) string {
	t.Helper()
	f, err := os.Create(filepath.Join(dir, name))
	require.NoError(t, err)
	require.NoError(t, jpeg.Encode(f, floor(), nil))
	require.NoError(t, f.Close())
	return f.Name()
}

// picturePDF is a PDF of so many pages, each with a room.
func picturePDF(t *testing.T, dir, name string, pages int) string {
	t.Helper()
	pdf := fpdf.New("P", "in", "Letter", "")
	for range pages {
		pdf.AddPage()
		pdf.Rect(1, 1, 6, 8, "D")
	}
	path := filepath.Join(dir, name)
	require.NoError(t, pdf.OutputFileAndClose(path))
	return path
}
