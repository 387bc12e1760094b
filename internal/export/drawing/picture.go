package drawing

import (
	"bytes"
	"image"
	"image/draw"
	"image/png"
)

// PNG returns the image of a picture as a PNG file of eight bits, the same bytes
// for the same image. It fails for an image without a dot.
func (s Picture) PNG() ([]byte, error) {
	img := image.NewNRGBA(image.Rectangle{Max: s.Image.Bounds().Size()})
	draw.Draw(img, img.Rect, s.Image, s.Image.Bounds().Min, draw.Src)
	var out bytes.Buffer
	if err := png.Encode(&out, img); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// Opacity is how much of the picture is left, from 0 for nothing to 1.
func (s Picture) Opacity() float64 { return max(0, min(1, 1-s.Dim)) }
