package picture

import (
	"bytes"
	"context"
	"image"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"codeberg.org/go-pdf/fpdf"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/unit"
)

// pages writes a PDF with pages of these sizes in inches, the left half of each
// black.
func pages(t *testing.T, sizes ...image.Point) string {
	pdf := fpdf.New("P", "in", "Letter", "")
	for _, size := range sizes {
		w, h := float64(size.X), float64(size.Y)
		pdf.AddPageFormat("P", fpdf.SizeType{Wd: w, Ht: h})
		pdf.Rect(0, 0, w/2, h, "F")
	}
	var b bytes.Buffer
	require.NoError(t, pdf.Output(&b))
	return put(t, "two floors.pdf", b.Bytes())
}

func needConverter(t *testing.T) {
	for _, program := range []string{"pdfinfo", "pdftoppm"} {
		if _, err := exec.LookPath(program); err != nil {
			t.Skip(program + " is not installed")
		}
	}
}

func TestReadPage(t *testing.T) {
	needConverter(t)
	path := pages(t, image.Pt(4, 3), image.Pt(2, 5))
	ctx := context.Background()
	assert.True(t, IsPDF(path))
	n, err := PDFPages(ctx, path)
	require.NoError(t, err)
	assert.Equal(t, 2, n)

	p, err := ReadPage(ctx, path, 2, 100)
	require.NoError(t, err)
	assert.Equal(t, "two floors.pdf, page 2", p.Name)
	assert.Empty(t, p.Path)
	assert.Equal(t, image.Pt(200, 500), p.Size)
	assert.InDelta(t, unit.Inches(0.01).Metres(), p.Dot.Metres(), 1e-15)
	shown, err := show(p.Data)
	require.NoError(t, err)
	assert.Less(t, shown.Image.RGBAAt(20, 250).R, uint8(50), "the black half")
	assert.Greater(t, shown.Image.RGBAAt(180, 250).R, uint8(200), "the white half")
}

func TestReadPageRefuses(t *testing.T) {
	needConverter(t)
	path := pages(t, image.Pt(4, 3), image.Pt(180, 180))
	ctx := context.Background()
	stopped, stop := context.WithCancel(ctx)
	stop()
	for name, c := range map[string]struct {
		ctx       context.Context
		path      string
		page, dpi int
		want      string
	}{
		"page missing":   {ctx, path, 3, 100, "two floors.pdf, page 3: "},
		"page 0":         {ctx, path, 0, 100, "there is no such page, the PDF has pages 1 to 2"},
		"page below":     {ctx, path, -1, 100, "there is no such page"},
		"too fine":       {ctx, path, 1, 601, "601 dots per inch, must be from 36 to 600"},
		"too coarse":     {ctx, path, 1, 0, "0 dots per inch, must be from 36 to 600"},
		"too many dots":  {ctx, path, 2, 150, "the page would have 27000 x 27000 dots at 150 dots per inch, read it with 55 or fewer"},
		"stopped":        {stopped, path, 1, 100, "context canceled"},
		"no PDF":         {ctx, put(t, "text.pdf", []byte("%PDF-1.7\nNorth is up.")), 1, 100, "text.pdf, page 1: the converter cannot read it: "},
		"not there":      {ctx, filepath.Join(t.TempDir(), "gone.pdf"), 1, 100, "no such file or directory"},
		"a folder":       {ctx, t.TempDir(), 1, 100, "not a file that a PDF could be in"},
		"like an option": {ctx, "-v", 1, 100, "no such file or directory"},
	} {
		t.Run(name, func(t *testing.T) {
			p, err := ReadPage(c.ctx, c.path, c.page, c.dpi)
			require.ErrorContains(t, err, c.want)
			assert.NotContains(t, err.Error(), "\n")
			assert.Nil(t, p)
		})
	}
	_, err := PDFPages(ctx, put(t, "text.pdf", []byte("North is up.")))
	assert.ErrorContains(t, err, "text.pdf: the converter cannot read it: ")
}

func TestNoConverter(t *testing.T) {
	path := put(t, "plan.pdf", []byte("%PDF-1.7\n"))
	t.Setenv("PATH", "")
	_, err := PDFPages(context.Background(), path)
	require.ErrorIs(t, err, ErrNoConverter)
	_, err = ReadPage(context.Background(), path, 1, 100)
	require.ErrorIs(t, err, ErrNoConverter)
	assert.EqualError(t, err, "plan.pdf, page 1: the converter for PDF pages is missing: install poppler-utils, or save the page as PNG")
}

// TestConverterThatMisbehaves puts programs in the converter's place that fail,
// write nonsense, or never stop writing.
func TestConverterThatMisbehaves(t *testing.T) {
	path := put(t, "plan.pdf", []byte("%PDF-1.7\n"))
	for name, c := range map[string]struct{ info, page, want string }{
		"fails without a word": {"exit 3", "", "the converter failed: exit status 3"},
		"fails with many":      {"echo first >&2; echo second >&2; exit 1", "", "the converter cannot read it: first"},
		"no pages":             {"echo Title: x", "", "the PDF has no pages"},
		"pages in words":       {"echo Pages: many", "", `the converter said "Pages: many", which makes no sense`},
		"size in words":        {"echo Pages: 1; echo 'Page 1 size: large'", "", "which makes no sense"},
		"grumbles all along":   {"i=0; while [ $i -lt 999 ]; do echo a damaged object >&2; i=$((i+1)); done; echo Pages: 0", "", "the PDF has no pages"},
		"no picture":           {"echo Pages: 1", "echo hello", "neither a PNG nor a JPEG picture"},
		"never stops writing":  {"echo Pages: 1", "trap '' PIPE; while :; do /bin/cat /dev/zero; done", "the page takes more than 40 MB as a picture"},
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			for program, script := range map[string]string{"pdfinfo": c.info, "pdftoppm": c.page} {
				require.NoError(t, os.WriteFile(filepath.Join(dir, program), []byte("#!/bin/sh\n"+script+"\n"), 0o700))
			}
			t.Setenv("PATH", dir)
			_, err := ReadPage(context.Background(), path, 1, 100)
			require.ErrorContains(t, err, c.want)
		})
	}
}

func TestIsPDF(t *testing.T) {
	assert.False(t, IsPDF(put(t, "a.pdf", []byte("North is up."))))
	assert.True(t, IsPDF(put(t, "a.png", []byte("\n\n%PDF-1.4"))))
	assert.False(t, IsPDF(put(t, "a.pdf", []byte(strings.Repeat(" ", 2000)+"%PDF-1.4"))))
	assert.False(t, IsPDF(filepath.Join(t.TempDir(), "gone.pdf")))
}
