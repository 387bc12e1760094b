package drawing

import (
	"bytes"
	"image"
	"image/draw"
	"image/png"
)

// PNG returns the image of a picture as a PNG file of eight bits, in shades of
// grey where it has no colour: the same bytes for the same image. It fails for
// an image without a dot.
func (s Picture) PNG() ([]byte, error) {
	img := image.NewNRGBA(image.Rectangle{Max: s.Image.Bounds().Size()})
	draw.Draw(img, img.Rect, s.Image, s.Image.Bounds().Min, draw.Src)
	var out bytes.Buffer
	if err := png.Encode(&out, plain(img)); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// plain returns an image that is opaque and without colour in shades of grey,
// which take a third of the room.
func plain(img *image.NRGBA) image.Image {
	grey := image.NewGray(img.Rect)
	for i := range grey.Pix {
		c := img.Pix[4*i:][:4]
		if c[0] != c[1] || c[1] != c[2] || c[3] != 255 {
			return img
		}
		grey.Pix[i] = c[0]
	}
	return grey
}

// Opacity is how much of the picture is left, from 0 for nothing to 1.
func (s Picture) Opacity() float64 { return max(0, min(1, 1-s.Dim)) }
