package picture

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"linemap/internal/unit"
)

// How finely a page can be read, in dots per inch.
const (
	MinDPI     = 36
	DefaultDPI = 150
	MaxDPI     = 600
)

// ErrNoConverter says that pages of a PDF cannot be read on this computer.
var ErrNoConverter = errors.New("the converter for PDF pages is missing: install poppler-utils, or save the page as PNG")

// patience is how long the converter may work on one page.
const patience = time.Minute

// pdfHead is what a PDF begins with, after at most so many other bytes (ISO
// 32000-1, annex H).
const (
	pdfHead  = "%PDF-"
	pdfStart = 1024
)

func isPDF(data []byte) bool {
	return bytes.Contains(data[:min(len(data), pdfStart)], []byte(pdfHead))
}

// IsPDF reports whether a file is a PDF, by its first bytes.
func IsPDF(path string) bool {
	f, err := os.Open(path)
	if err != nil {
		return false
	}
	defer f.Close() // it was only read
	head, err := io.ReadAll(io.LimitReader(f, pdfStart))
	return err == nil && isPDF(head)
}

// PDFPages returns how many pages a PDF has. The error is [ErrNoConverter]
// where nothing can read them.
func PDFPages(ctx context.Context, path string) (int, error) {
	info, err := pdfInfo(ctx, path, 1)
	if err != nil {
		return 0, fmt.Errorf("%s: %w", filepath.Base(path), err)
	}
	return info.pages, nil
}

// ReadPage reads a page of a PDF, counted from 1, as a picture with so many dots
// per inch.
func ReadPage(ctx context.Context, path string, page, dpi int) (*Picture, error) {
	name := fmt.Sprintf("%s, page %d", filepath.Base(path), page)
	p := &Picture{Name: name, Dot: unit.Inches(1 / float64(dpi))}
	if err := p.readPage(ctx, path, page, dpi); err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return p, nil
}

func (p *Picture) readPage(ctx context.Context, path string, page, dpi int) error {
	if dpi < MinDPI || dpi > MaxDPI {
		return fmt.Errorf("%d dots per inch, must be from %d to %d", dpi, MinDPI, MaxDPI)
	}
	info, err := pdfInfo(ctx, path, page)
	if err != nil {
		return err
	}
	if page < 1 || page > info.pages {
		return fmt.Errorf("there is no such page, the PDF has pages 1 to %d", info.pages)
	}
	if err := info.fits(dpi); err != nil {
		return err
	}
	at := strconv.Itoa(page)
	p.Data, err = convert(ctx, "pdftoppm", path, "-png", "-singlefile", "-r", strconv.Itoa(dpi), "-f", at, "-l", at)
	if err != nil {
		return err
	}
	return p.decode()
}

// pdfFacts are what a PDF says of itself and of one page.
type pdfFacts struct {
	pages         int
	width, height float64 // of the page, in points; 0 where it is not said
}

// fits refuses a page that would have too many dots.
func (f pdfFacts) fits(dpi int) error {
	const pointsPerInch = 72
	w, h := f.width*float64(dpi)/pointsPerInch, f.height*float64(dpi)/pointsPerInch
	if max(w, h) <= MaxSide && w*h <= MaxDots {
		return nil
	}
	most := min(MaxSide/max(w, h), math.Sqrt(MaxDots/(w*h))) * float64(dpi)
	if most < MinDPI {
		return fmt.Errorf("the page measures %.0f x %.0f in, too large to be shown", f.width/pointsPerInch, f.height/pointsPerInch)
	}
	return fmt.Errorf("the page would have %.0f x %.0f dots at %d dots per inch, read it with %d or fewer", w, h, dpi, int(most))
}

// pdfInfo asks what a PDF is, and how large a page of it.
func pdfInfo(ctx context.Context, path string, page int) (facts pdfFacts, err error) {
	at := strconv.Itoa(max(page, 1))
	out, err := convert(ctx, "pdfinfo", path, "-f", at, "-l", at)
	if err != nil {
		return facts, err
	}
	for line := range strings.Lines(string(out)) {
		name, value, _ := strings.Cut(line, ":")
		words := strings.Fields(name)
		switch {
		case len(words) == 1 && words[0] == "Pages":
			facts.pages, err = strconv.Atoi(strings.TrimSpace(value))
		case len(words) == 3 && words[0] == "Page" && words[1] == at && words[2] == "size":
			_, err = fmt.Sscanf(strings.TrimSpace(value), "%g x %g", &facts.width, &facts.height)
		}
		if err != nil {
			return facts, fmt.Errorf("the converter said %q, which makes no sense", strings.TrimSpace(line))
		}
	}
	if facts.pages < 1 {
		return facts, errors.New("the PDF has no pages")
	}
	return facts, nil
}

// convert runs a program of the converter on a file and returns what it writes.
func convert(ctx context.Context, program, path string, options ...string) ([]byte, error) {
	command, err := exec.LookPath(program)
	if err != nil {
		return nil, ErrNoConverter
	}
	if info, err := os.Stat(path); err != nil {
		return nil, reason(err)
	} else if !info.Mode().IsRegular() {
		return nil, errors.New("not a file that a PDF could be in")
	}
	path, err = filepath.Abs(path) // never to be taken for an option
	if err != nil {
		return nil, err
	}
	ctx, stop := context.WithTimeout(ctx, patience)
	defer stop()
	said, out := bounded{most: 4 << 10}, bounded{most: MaxFile, over: stop}
	run := exec.CommandContext(ctx, command, append(options, path)...)
	run.Env = append(os.Environ(), "LC_ALL=C")
	run.Stdout, run.Stderr = &out, &said
	run.WaitDelay = time.Second
	err = run.Run()
	switch {
	case out.more:
		return nil, fmt.Errorf("the page takes more than %d MB as a picture, read it with fewer dots per inch", MaxFile>>20)
	case errors.Is(ctx.Err(), context.DeadlineExceeded):
		return nil, fmt.Errorf("the converter was not done after %v and was stopped", patience)
	case ctx.Err() != nil:
		return nil, ctx.Err()
	case err != nil:
		return nil, complaint(said.kept, err)
	}
	return out.kept, nil
}

// complaint says why the converter failed, by the first line it wrote.
func complaint(said []byte, err error) error {
	line, _, _ := strings.Cut(strings.TrimSpace(strings.ToValidUTF8(string(said), "?")), "\n")
	if line == "" {
		return fmt.Errorf("the converter failed: %w", err)
	}
	return fmt.Errorf("the converter cannot read it: %s", line)
}

// bounded keeps what is written to it, up to so many bytes. Where there is more
// it calls over, if that is set, and drops the rest.
type bounded struct {
	kept []byte
	most int
	over func()
	more bool
}

func (b *bounded) Write(p []byte) (int, error) {
	n := min(len(p), b.most-len(b.kept))
	b.kept = append(b.kept, p[:n]...)
	if n < len(p) && !b.more {
		b.more = true
		if b.over != nil {
			b.over()
		}
	}
	return len(p), nil
}
