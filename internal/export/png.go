package export

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"image"
	"image/draw"
	"math"
	"sync"

	"linemap/internal/export/chart"
	"linemap/internal/export/drawing"
	"linemap/internal/export/raster"
	"linemap/internal/route"
	"linemap/internal/site"
)

// pngDPI is how fine the pictures of the map are, in dots per inch.
const pngDPI = 200

const (
	pngPerMM = pngDPI / 25.4
	pngPerM  = 7874 // dots per metre, whole as a PNG has them
)

// MapPNG is what [Map] draws as pictures with 200 dots per inch, one for each
// sheet.
func MapPNG(s *site.Site, p *route.Plan, opt Options) ([][]byte, error) {
	c, err := drawMap(s, p, opt.For(s))
	if err != nil {
		return nil, err
	}
	return mapPNG(c)
}

// mapPNG paints as many sheets at a time as there are processors.
func mapPNG(c *chart.Chart) ([][]byte, error) {
	sheets, wrong := make([][]byte, len(c.Sheets)), make([]error, len(c.Sheets))
	var easels sync.Pool
	atOnce(len(sheets), func(i int) {
		e, ok := easels.Get().(*easel)
		if !ok {
			e = newEasel()
		}
		if sheets[i], wrong[i] = e.picture(c.Sheets[i]); wrong[i] != nil {
			wrong[i] = fmt.Errorf("sheet %d: %w", i+1, wrong[i])
		}
		easels.Put(e)
	})
	return sheets, errors.Join(wrong...)
}

// pictureFiles are the pictures as files: map.png, map-2.png and so on.
func pictureFiles(c *chart.Chart) ([]file, error) {
	sheets, err := mapPNG(c)
	if err != nil {
		return nil, err
	}
	files := make([]file, len(sheets))
	for i, data := range sheets {
		name := "map.png"
		if i > 0 {
			name = fmt.Sprintf("map-%d.png", i+1)
		}
		files[i] = file{name, data}
	}
	return files, nil
}

// easel is what a sheet is painted and packed with, kept for the next one.
type easel struct {
	canvas *image.RGBA
	packed bytes.Buffer
	packer *zlib.Writer
}

func newEasel() *easel {
	e := &easel{canvas: &image.RGBA{}}
	e.packer, _ = zlib.NewWriterLevel(&e.packed, zlib.BestSpeed) // fails for an unknown level only
	return e
}

// picture paints a sheet on white and returns it as a PNG.
func (e *easel) picture(sheet *drawing.Sheet) ([]byte, error) {
	size := image.Pt(int(math.Round(sheet.W*pngPerMM)), int(math.Round(sheet.H*pngPerMM)))
	if e.canvas.Rect.Max != size {
		e.canvas = image.NewRGBA(image.Rectangle{Max: size})
	}
	draw.Draw(e.canvas, e.canvas.Rect, image.White, image.Point{}, draw.Src)
	painter := raster.New(e.canvas, pngPerMM)
	drawing.Paint(sheet, painter)
	painter.Flush()
	return e.encode()
}

// encode writes the canvas as an opaque PNG (ISO/IEC 15948) that tells how large
// it is on paper. The dots are packed as they are: of line work the usual filters
// make more bytes, in several times the time.
func (e *easel) encode() ([]byte, error) {
	img := e.canvas
	w, h := img.Rect.Dx(), img.Rect.Dy()
	e.packed.Reset()
	e.packer.Reset(&e.packed)
	row := make([]byte, 1+3*w) // the filter, none, and red, green and blue
	for y := range h {
		src, dst := img.Pix[y*img.Stride:][:4*w], row[1:]
		for len(src) > 0 {
			copy(dst[:3], src[:3])
			src, dst = src[4:], dst[3:]
		}
		if _, err := e.packer.Write(row); err != nil {
			return nil, err
		}
	}
	if err := e.packer.Close(); err != nil {
		return nil, err
	}
	header := binary.BigEndian.AppendUint32(nil, uint32(w))
	header = binary.BigEndian.AppendUint32(header, uint32(h))
	header = append(header, 8, 2, 0, 0, 0) // eight bits each of red, green and blue
	density := binary.BigEndian.AppendUint32(nil, pngPerM)
	density = binary.BigEndian.AppendUint32(density, pngPerM)
	density = append(density, 1) // for the metre
	out := append(make([]byte, 0, e.packed.Len()+128), "\x89PNG\r\n\x1a\n"...)
	out = appendChunk(out, "IHDR", header)
	out = appendChunk(out, "pHYs", density)
	out = appendChunk(out, "IDAT", e.packed.Bytes())
	return appendChunk(out, "IEND", nil), nil
}

// appendChunk appends a chunk of a PNG: its length, name, content and checksum.
func appendChunk(out []byte, name string, data []byte) []byte {
	out = binary.BigEndian.AppendUint32(out, uint32(len(data)))
	from := len(out)
	out = append(append(out, name...), data...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(out[from:]))
}
