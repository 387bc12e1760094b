package drawing

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestPicture(t *testing.T) {
	deep := image.NewRGBA64(image.Rect(5, 5, 8, 7)) // more than eight bits, and not from the corner
	deep.Set(6, 6, color.RGBA64{0xffff, 0x8080, 0, 0xffff})
	file, err := Picture{Image: deep}.PNG()
	require.NoError(t, err)
	again, err := Picture{Image: deep}.PNG()
	require.NoError(t, err)
	assert.Equal(t, file, again)
	back, err := png.Decode(bytes.NewReader(file))
	require.NoError(t, err)
	assert.Equal(t, image.Rect(0, 0, 3, 2), back.Bounds())
	assert.Equal(t, color.NRGBA{255, 128, 0, 255}, back.At(1, 1))
	_, err = Picture{Image: image.NewRGBA(image.Rectangle{})}.PNG()
	assert.Error(t, err)
	assert.Equal(t, []float64{1, 0.75, 0, 0, 1}, []float64{
		Picture{}.Opacity(), Picture{Dim: 0.25}.Opacity(), Picture{Dim: 1}.Opacity(), Picture{Dim: 7}.Opacity(), Picture{Dim: -1}.Opacity(),
	})
}

// A picture is painted where its frame says; one of no size, not at all.
func TestPaintPicture(t *testing.T) {
	img := image.NewGray(image.Rect(0, 0, 2, 2))
	f := Frame{Ground: Point{10, 10}, Paper: Point{50, 50}, Scale: 2}
	for name, c := range map[string]struct {
		f    Frame
		s    Picture
		want string
	}{
		"on the ground": {f, Picture{Image: img, At: Point{12, 9}, W: 8, H: 4}, "picture 54.0 52.0 16.0x8.0;"},
		"on the paper":  {Frame{}, Picture{Image: img, At: Point{12, 9}, W: 8, H: 4}, "picture 12.0 9.0 8.0x4.0;"},
		"no image":      {f, Picture{W: 8, H: 4}, ""},
		"no size":       {f, Picture{Image: img, W: 8}, ""},
	} {
		var got tape
		c.s.paint(c.f, &got)
		assert.Equal(t, c.want, got.String(), name)
	}
}

// stamps is a tape that paints marks itself.
type stamps struct{ tape }

func (s *stamps) Stamp(m Mark, c Point) { s.WriteString("stamp;") }

func TestAStamperPaintsMarksItself(t *testing.T) {
	var l List
	l.Add(Base, Mark{Symbol: Flap, Size: 2, Pen: Pen{Width: 0.2}}, Path{Points: []Point{{0, 0}, {1, 0}}, Pen: Pen{Width: 0.5}})
	var got stamps
	Paint(&Sheet{Panels: []Panel{{List: l}}}, &got)
	assert.Equal(t, "clip false;stamp;outline 2 0.5 false;clip false;", got.String())
}
