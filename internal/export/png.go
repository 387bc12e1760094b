package export

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"image"
	"image/draw"
	"image/png"
	"math"
	"runtime"
	"sync"
	"sync/atomic"

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

// mapPNG paints as many sheets at a time as there are processors: most of the
// time goes into packing the dots.
func mapPNG(c *chart.Chart) ([][]byte, error) {
	sheets, wrong := make([][]byte, len(c.Sheets)), make([]error, len(c.Sheets))
	var next atomic.Int64
	var w sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(sheets)) {
		w.Go(func() {
			for i := int(next.Add(1)) - 1; i < len(sheets); i = int(next.Add(1)) - 1 {
				if sheets[i], wrong[i] = sheetPNG(c.Sheets[i]); wrong[i] != nil {
					wrong[i] = fmt.Errorf("sheet %d: %w", i+1, wrong[i])
				}
			}
		})
	}
	w.Wait()
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

// sheetPNG paints a sheet on white.
func sheetPNG(sheet *drawing.Sheet) ([]byte, error) {
	size := image.Pt(int(math.Round(sheet.W*pngPerMM)), int(math.Round(sheet.H*pngPerMM)))
	img := image.NewRGBA(image.Rectangle{Max: size})
	draw.Draw(img, img.Rect, image.White, image.Point{}, draw.Src)
	painter := raster.New(img, pngPerMM)
	drawing.Paint(sheet, painter)
	painter.Flush()
	var out bytes.Buffer
	if err := png.Encode(&out, img); err != nil {
		return nil, err
	}
	return withDensity(out.Bytes()), nil
}

// withDensity tells in a PNG how large it is on paper, by a pHYs chunk after the
// header (ISO/IEC 15948, 11.3.5.3): dots per unit across and down, and 1 for
// the metre.
func withDensity(data []byte) []byte {
	const header = 8 + 12 + 13 // the signature, and the IHDR chunk
	chunk := binary.BigEndian.AppendUint32(nil, 9)
	chunk = append(chunk, "pHYs"...)
	chunk = binary.BigEndian.AppendUint32(chunk, pngPerM)
	chunk = binary.BigEndian.AppendUint32(chunk, pngPerM)
	chunk = append(chunk, 1)
	chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(chunk[4:]))
	out := make([]byte, 0, len(data)+len(chunk))
	return append(append(append(out, data[:header]...), chunk...), data[header:]...)
}
