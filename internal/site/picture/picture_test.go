package picture

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestRead(t *testing.T) {
	m := plan(40, 30)
	for name, data := range map[string][]byte{
		"plan.png": pngOf(t, m), "plan.jpg": jpegOf(t, m), "PNG called jpg.jpg": pngOf(t, m),
	} {
		path := put(t, name, data)
		p, err := Read(path)
		require.NoError(t, err, name)
		assert.Equal(t, &Picture{Name: name, Path: path, Data: data, Size: image.Pt(40, 30)}, p)
	}
}

// TestReadRefuses gives what no plan is: each is refused by its name and with
// its reason, without being decoded where it is too large.
func TestReadRefuses(t *testing.T) {
	whole := pngOf(t, plan(400, 300))
	flipped := bytes.Clone(whole)
	flipped[len(flipped)/2] ^= 0x55
	photo := jpegOf(t, plan(400, 300))
	progressive := bytes.Clone(jpegOf(t, plan(64, 64)))
	at := bytes.Index(progressive, []byte{0xff, 0xc0})
	progressive[at+1] = 0xc2
	binary.BigEndian.PutUint16(progressive[at+5:], 9000)
	binary.BigEndian.PutUint16(progressive[at+7:], 9000)
	for name, c := range map[string]struct {
		data []byte
		want string
	}{
		"cut off.png":      {whole[:len(whole)/2], "the PNG picture is broken or cut off: "},
		"only a head.png":  {whole[:20], "the PNG picture is broken or cut off: "},
		"flipped.png":      {flipped, "the PNG picture is broken or cut off: "},
		"cut off.jpg":      {photo[:len(photo)/2], "the JPEG picture is broken or cut off: "},
		"only a mark.jpg":  {[]byte{0xff, 0xd8}, "the JPEG picture is broken or cut off: "},
		"text.png":         {[]byte("North is up."), "neither a PNG nor a JPEG picture"},
		"gif.png":          {[]byte("GIF89a\x01\x00\x01\x00"), "neither a PNG nor a JPEG picture"},
		"empty.png":        {nil, "the file is empty"},
		"page.png":         {[]byte("%PDF-1.7\n"), "a PDF: choose one of its pages"},
		"bomb.png":         {pngHeader(60000, 60000, 8, 6), "the picture has 60000 x 60000 dots, at most 20000 along a side can be shown"},
		"ribbon.png":       {pngHeader(20001, 1, 8, 0), "the picture has 20001 x 1 dots, at most 20000 along a side"},
		"wall.png":         {pngHeader(20000, 5001, 8, 0), "101 million in all, at most 100 million can be shown"},
		"deep.png":         {pngHeader(11000, 9900, 16, 6), "the picture has 11000 x 9900 dots, 109 million"},
		"nothing.png":      {pngHeader(0, 5, 8, 0), "the PNG picture is broken or cut off: "},
		"huge.png":         {pngHeader(1<<31-1, 1<<31-1, 8, 6), "dimension overflow"},
		"progressive.jpg":  {progressive, "would take 1235 MB of memory, at most 800 MB"},
		"called plan.jpeg": {append([]byte{0xff, 0xd8, 0xff}, make([]byte, 100)...), "the JPEG picture is broken or cut off: "},
	} {
		t.Run(name, func(t *testing.T) {
			p, err := Read(put(t, name, c.data))
			require.Error(t, err)
			assert.Nil(t, p)
			assert.Contains(t, err.Error(), name+": ")
			assert.Contains(t, err.Error(), c.want)
		})
	}
}

func TestReadFilesThatAreNone(t *testing.T) {
	_, err := Read(filepath.Join(t.TempDir(), "gone.png"))
	assert.EqualError(t, err, "gone.png: no such file or directory")
	dir := t.TempDir()
	_, err = Read(dir)
	assert.ErrorContains(t, err, "not a file that a picture could be in")
	_, err = Read(os.DevNull)
	assert.ErrorContains(t, err, "not a file that a picture could be in")

	large := put(t, "large.png", nil)
	require.NoError(t, os.Truncate(large, MaxFile+1))
	_, err = Read(large)
	assert.EqualError(t, err, "large.png: the file is larger than 40 MB, the most that is read; save the picture with fewer dots")
}

// TestUpright turns a picture as each of the eight ways of holding a camera
// would store it, and asks for the upright one. The table is that of CIPA
// DC-008: which corner of what is looked at the first stored dot is.
func TestUpright(t *testing.T) {
	// The stored picture is 64 x 32 with its top left quarter red.
	stored := jpegOf(t, plan(64, 32))
	for value, c := range map[uint16]struct {
		size image.Point
		red  image.Point // the quarter that is red: 0 left or top, 1 right or bottom
	}{
		0: {image.Pt(64, 32), image.Pt(0, 0)},
		1: {image.Pt(64, 32), image.Pt(0, 0)},
		2: {image.Pt(64, 32), image.Pt(1, 0)},
		3: {image.Pt(64, 32), image.Pt(1, 1)},
		4: {image.Pt(64, 32), image.Pt(0, 1)},
		5: {image.Pt(32, 64), image.Pt(0, 0)},
		6: {image.Pt(32, 64), image.Pt(1, 0)},
		7: {image.Pt(32, 64), image.Pt(1, 1)},
		8: {image.Pt(32, 64), image.Pt(0, 1)},
		9: {image.Pt(64, 32), image.Pt(0, 0)},
	} {
		for _, order := range []binary.AppendByteOrder{binary.BigEndian, binary.LittleEndian} {
			data := withOrientation(stored, order, value)
			p, err := Read(put(t, "photo.jpg", data))
			require.NoError(t, err)
			assert.Equal(t, c.size, p.Size, value)
			shown, err := show(data)
			require.NoError(t, err)
			require.Equal(t, c.size, shown.Image.Rect.Size(), value)
			for _, q := range []image.Point{{0, 0}, {1, 0}, {0, 1}, {1, 1}} {
				x, y := c.size.X/4+q.X*c.size.X/2, c.size.Y/4+q.Y*c.size.Y/2
				green := shown.Image.RGBAAt(x, y).G
				assert.Equal(t, q == c.red, green < 128, "%d: quarter %v", value, q)
			}
		}
	}
}

// TestMirrorsOfATurnedCamera tells 5 from 1 and 7 from 3 on a square, where
// only the other corners differ.
func TestMirrorsOfATurnedCamera(t *testing.T) {
	m := image.NewRGBA(image.Rect(0, 0, 2, 2)) // a b / c d
	for i, c := range "abcd" {
		m.SetRGBA(i%2, i/2, color.RGBA{R: uint8(c), A: 255})
	}
	for value, want := range map[turn]string{
		1: "abcd", 2: "badc", 3: "dcba", 4: "cdab", 5: "acbd", 6: "cadb", 7: "dbca", 8: "bdac",
	} {
		out := value.upright(m)
		var got []byte
		for i := range 4 {
			got = append(got, out.RGBAAt(i%2, i/2).R)
		}
		assert.Equal(t, want, string(got), int(value))
	}
}
