package picture

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

var (
	red   = color.RGBA{R: 255, A: 255}
	white = color.RGBA{R: 255, G: 255, B: 255, A: 255}
)

// plan is a white picture whose top left quarter is red.
func plan(w, h int) *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			m.SetRGBA(x, y, white)
			if x < w/2 && y < h/2 {
				m.SetRGBA(x, y, red)
			}
		}
	}
	return m
}

func pngOf(t testing.TB, m image.Image) []byte {
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, m))
	return b.Bytes()
}

func jpegOf(t testing.TB, m image.Image) []byte {
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, m, nil))
	return b.Bytes()
}

// withOrientation puts an Exif segment into a JPEG, as a phone does.
func withOrientation(data []byte, order binary.AppendByteOrder, value uint16) []byte {
	tiff := []byte("MM\x00*")
	if order == binary.AppendByteOrder(binary.LittleEndian) {
		tiff = []byte("II*\x00")
	}
	tiff = order.AppendUint32(tiff, 8)
	tiff = order.AppendUint16(tiff, 2) // entries
	tiff = order.AppendUint16(tiff, 0x010f)
	tiff = order.AppendUint16(tiff, 2)
	tiff = order.AppendUint32(tiff, 4)
	tiff = append(tiff, "cam\x00"...)
	tiff = order.AppendUint16(tiff, 0x0112)
	tiff = order.AppendUint16(tiff, 3)
	tiff = order.AppendUint32(tiff, 1)
	tiff = order.AppendUint16(tiff, value)
	tiff = append(tiff, 0, 0, 0, 0, 0, 0)
	body := append([]byte("Exif\x00\x00"), tiff...)
	segment := binary.BigEndian.AppendUint16([]byte{0xff, 0xe1}, uint16(len(body)+2))
	return append(append(append([]byte{}, data[:2]...), append(segment, body...)...), data[2:]...)
}

// pngHeader is the beginning of a PNG that claims a size, and then its end.
func pngHeader(w, h uint32, depth, colour byte) []byte {
	out := []byte("\x89PNG\r\n\x1a\n")
	chunk := func(name string, body []byte) {
		out = binary.BigEndian.AppendUint32(out, uint32(len(body)))
		named := append([]byte(name), body...)
		out = append(out, named...)
		out = binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(named))
	}
	head := binary.BigEndian.AppendUint32(nil, w)
	head = binary.BigEndian.AppendUint32(head, h)
	chunk("IHDR", append(head, depth, colour, 0, 0, 0))
	chunk("IDAT", []byte{0x78, 0x9c, 3, 0, 0, 0, 0, 1})
	chunk("IEND", nil)
	return out
}

// put writes a file into a new folder and returns its path.
func put(t testing.TB, name string, data []byte) string {
	path := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(path, data, 0o600))
	return path
}
