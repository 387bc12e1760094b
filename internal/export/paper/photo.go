package paper

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"image"
	"image/jpeg"

	"codeberg.org/go-pdf/fpdf"
)

// photoQuality is the quality of a photo's JPEG, in per cent.
const photoQuality = 80

// Photo sets a photo as large as a box lets it, at the box's top left corner. It
// is kept as a JPEG; one that is set twice is kept once.
func (d *Doc) Photo(b Box, img image.Image) {
	size := img.Bounds().Size()
	if size.X == 0 || size.Y == 0 {
		return
	}
	var file bytes.Buffer
	if err := jpeg.Encode(&file, img, &jpeg.Options{Quality: photoQuality}); err != nil {
		d.pdf.SetError(err)
		return
	}
	name := fmt.Sprintf("%x", sha256.Sum256(file.Bytes()))
	options := fpdf.ImageOptions{ImageType: "jpg"}
	d.pdf.RegisterImageOptionsReader(name, options, &file)
	scale := min(b.W/float64(size.X), b.H/float64(size.Y))
	d.pdf.ImageOptions(name, b.X, b.Y, scale*float64(size.X), scale*float64(size.Y), false, options, 0, "")
}
