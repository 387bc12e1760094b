package picture

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"io"
	"os"
	"path/filepath"

	"linemap/internal/unit"
)

// What is read at most: bytes of a file, dots of a picture in all and along a
// side, and bytes of memory to decode it.
const (
	MaxFile   = 40 << 20
	MaxDots   = 100_000_000
	MaxSide   = 20_000
	maxMemory = 800 << 20
)

// Picture is a picture that can be shown: it was decoded once.
type Picture struct {
	// Name is what it is called: its file's name, with the page of a PDF.
	Name string
	// Path is the file it was read from, "" for a page of a PDF.
	Path string
	// Data are its bytes, PNG or JPEG.
	Data []byte
	// Size is in dots.
	Size image.Point
	// Dot is the length of one dot on the sheet it was drawn on, 0 where that is
	// not known: a plan drawn at 1:100 has a scale of 100 times Dot.
	Dot unit.Length
}

// Read reads a picture from a PNG or JPEG file. The error says what is the
// matter with the file, and the limit where there is one; for a PDF, whose
// pages [ReadPage] reads, it is [ErrPDF].
func Read(path string) (*Picture, error) {
	name := filepath.Base(path)
	data, err := readFile(path)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	p := &Picture{Name: name, Path: path, Data: data}
	if err := p.decode(); err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return p, nil
}

// decode decodes the picture once, for its size and to see that it is whole.
func (p *Picture) decode() error {
	f, err := inspect(p.Data)
	if err != nil {
		return err
	}
	if _, err := f.decode(p.Data); err != nil {
		return err
	}
	p.Size = f.size()
	return nil
}

// readFile reads an ordinary file that is not too large.
func readFile(path string) ([]byte, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, reason(err)
	}
	if !info.Mode().IsRegular() {
		return nil, errors.New("not a file that a picture could be in")
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, reason(err)
	}
	defer f.Close() // it was only read
	return readAll(f)
}

func readAll(f io.Reader) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(f, MaxFile+1))
	switch {
	case err != nil:
		return nil, reason(err)
	case len(data) > MaxFile:
		return nil, fmt.Errorf("the file is larger than %d MB, the most that is read; save the picture with fewer dots", MaxFile>>20)
	case len(data) == 0:
		return nil, errors.New("the file is empty")
	}
	return data, nil
}

// reason takes the path from what the system says, for it is named already.
func reason(err error) error {
	var at *os.PathError
	if errors.As(err, &at) {
		return at.Err
	}
	return err
}

// ErrPDF says that a file is a PDF, of which a page has to be chosen.
var ErrPDF = errors.New("a PDF: choose one of its pages")

// format is what the first bytes of a picture tell.
type format struct {
	name    string
	config  image.Config
	decoder func(io.Reader) (image.Image, error)
	jpeg    jpegFacts
}

// inspect looks at the beginning of a picture and refuses what is none and what
// would be too much to decode.
func inspect(data []byte) (*format, error) {
	f := new(format)
	var err error
	switch {
	case bytes.HasPrefix(data, []byte("\x89PNG\r\n\x1a\n")):
		f.name, f.decoder = "PNG", png.Decode
		f.config, err = png.DecodeConfig(bytes.NewReader(data))
	case bytes.HasPrefix(data, []byte("\xff\xd8")):
		f.name, f.decoder = "JPEG", jpeg.Decode
		f.config, err = jpeg.DecodeConfig(bytes.NewReader(data))
		f.jpeg = readJPEG(data)
	case isPDF(data):
		return nil, ErrPDF
	default:
		return nil, errors.New("neither a PNG nor a JPEG picture")
	}
	if err != nil {
		return nil, f.broken(err)
	}
	const million = 1_000_000
	w, h := f.config.Width, f.config.Height
	switch {
	case w < 1 || h < 1:
		return nil, fmt.Errorf("the picture has %d x %d dots, must have one at least", w, h)
	case w > MaxSide || h > MaxSide:
		return nil, fmt.Errorf("the picture has %d x %d dots, at most %d along a side can be shown; save it smaller", w, h, MaxSide)
	case w*h > MaxDots:
		return nil, fmt.Errorf("the picture has %d x %d dots, %d million in all, at most %d million can be shown; save it smaller",
			w, h, (w*h+million-1)/million, MaxDots/million)
	case w*h*f.bytesPerDot() > maxMemory:
		return nil, fmt.Errorf("the picture would take %d MB of memory, at most %d MB are given to one; save it smaller, or as a PNG of 8 bits",
			w*h*f.bytesPerDot()>>20, maxMemory>>20)
	}
	return f, nil
}

// bytesPerDot is the memory that decoding takes.
func (f *format) bytesPerDot() int {
	if f.jpeg.progressive {
		return 16 // coefficients of three colours wait for the last pass
	}
	switch f.config.ColorModel {
	case color.RGBA64Model, color.NRGBA64Model:
		return 8
	}
	return 4
}

// decode decodes the picture as it is stored, before it is turned upright.
func (f *format) decode(data []byte) (image.Image, error) {
	m, err := f.decoder(bytes.NewReader(data))
	if err != nil {
		return nil, f.broken(err)
	}
	return m, nil
}

// size is the size in dots once the picture is upright.
func (f *format) size() image.Point {
	if f.jpeg.turn.swaps() {
		return image.Pt(f.config.Height, f.config.Width)
	}
	return image.Pt(f.config.Width, f.config.Height)
}

func (f *format) broken(err error) error {
	return fmt.Errorf("the %s picture is broken or cut off: %w", f.name, err)
}
