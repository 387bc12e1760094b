package paper

import (
	"bytes"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/export/drawing"
	"linemap/internal/site"
)

// write sets a small document that uses the whole vocabulary.
func write(t testing.TB, p site.Paper) []byte {
	t.Helper()
	d := New(p, false, Meta{Title: "Café drains", Author: "Ada Invented", Date: "2026-03-17"})
	for range 2 {
		d.AddPage()
		d.Bookmark("Page ½", 0, 0)
		d.Text(20, 30, "Floor drain ⌀ 4 in – 90° ½", Style{Pt: 9})
		d.Text(80, 40, "push and pull", Style{Pt: 8, Bold: true, Align: Right})
		d.Paint(&drawing.Sheet{Panels: []drawing.Panel{{Clip: &Box{X: 5, Y: 5, W: 90, H: 90}, List: painted()}}})
		d.TextIn(Box{X: 20, Y: 90, W: 30, H: 6}, "a text much too long for its box", Style{Pt: 8})
		d.CheckBox(20, 110, 3)
		d.Arrow(30, 110, 45, 110, 2, Pen{Width: 0.3})
		d.Circle(60, 110, 3, Pen{Width: 0.3}, &Faint)
	}
	d.Footers("Café drains, revision B")
	out, err := d.Bytes()
	require.NoError(t, err)
	return out
}

// painted is a list with everything that a painter meets.
func painted() drawing.List {
	var l drawing.List
	l.Add(drawing.Runs,
		drawing.Path{Points: []drawing.Point{{X: 10, Y: 50}, {X: 30, Y: 60}}, Pen: Pen{Width: 1, Dash: []float64{2, 1}, Round: true}},
		drawing.Mark{At: drawing.Point{X: 30, Y: 60}, Size: 4, Pen: Pen{Width: 0.2}, Fill: &Pale})
	l.Add(drawing.Notes, drawing.Text{At: drawing.Point{X: 50, Y: 60}, S: "turned", Turn: math.Pi / 2, Style: Style{Pt: 8}})
	l.Add(drawing.Base, drawing.Leader{At: drawing.Point{X: 50, Y: 70}, To: drawing.Point{X: 5}, Pen: Pen{Width: 0.2}})
	return l
}

func TestSameBytes(t *testing.T) {
	assert.True(t, bytes.Equal(write(t, site.Letter), write(t, site.Letter)))
}

func TestSizes(t *testing.T) {
	// ANSI/ASME Y14.1 size A: 8.5 x 11 in. ISO 216 A4: 210 x 297 mm.
	assert.InDelta(t, 279.4, SizeOf(site.Letter, true).W, 1e-9)
	assert.InDelta(t, 215.9, SizeOf(site.Letter, true).H, 1e-9)
	assert.Equal(t, Size{210, 297}, SizeOf(site.A4, false))
	assert.Equal(t, SizeOf(site.Letter, false), SizeOf("napkin", false))
}

func TestHostileText(t *testing.T) {
	d := New(site.A4, false, Meta{Title: "bad \xff\xfe title \U0001f6bf", Author: "\xe2\x82", Date: "soon"})
	d.AddPage()
	for _, s := range []string{"", "\xff", "\xe2\x82", "a\x00b\n\tc", "\U0001f6bf\uffff\U0010ffff", "(((\\", "\u202e\u0301"} {
		d.Text(10, 10, s, Style{Pt: 8})
		d.Wrap(s, false, 8, 0.1)
		d.Bookmark(s, 0, 1)
	}
	_, err := d.Bytes()
	assert.NoError(t, err)
	assert.Equal(t, "a b?", d.Clean("a\nb\U0001f6bf"))
}

func TestGlyphs(t *testing.T) {
	r, err := NewRuler()
	require.NoError(t, err)
	for _, c := range "°′″⌀→←↑↓½¼⅛×–—…éüñç✓²³µ≤≥" {
		assert.True(t, r.Has(c), "no glyph for %q", c)
	}
	assert.False(t, r.Has('\U0001f6bf'))
}

func TestRulerAgreesWithThePDFWriter(t *testing.T) {
	d := New(site.A4, false, Meta{})
	d.AddPage()
	for _, bold := range []bool{false, true} {
		st := Style{Pt: 10, Bold: bold}
		d.use(st)
		s := "Building sewer 6 in VCP, 48 ft – manhole MH-2"
		assert.InEpsilon(t, d.pdf.GetStringWidth(s), d.Width(s, bold, 10), 0.005)
	}
}

func TestWrapKeepsEveryWord(t *testing.T) {
	r, err := NewRuler()
	require.NoError(t, err)
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.StringMatching(`[a-z ]{0,80}`).Draw(t, "s")
		w := rapid.Float64Range(0.5, 60).Draw(t, "w")
		lines := r.Wrap(s, false, 8, w)
		assert.NotEmpty(t, lines)
		strip := func(s string) string { return strings.ReplaceAll(s, " ", "") }
		assert.Equal(t, strip(s), strip(strings.Join(lines, "")))
		for _, l := range lines {
			if len(l) > 1 {
				assert.LessOrEqual(t, r.Width(l, false, 8), w+1e-9)
			}
			assert.LessOrEqual(t, r.Width(r.Fit(s, true, 8, 5), true, 8), 5.0)
		}
	})
}

func TestReadBack(t *testing.T) {
	for _, tool := range []string{"qpdf", "pdftotext", "pdfinfo", "pdffonts"} {
		if _, err := exec.LookPath(tool); err != nil {
			t.Skipf("%s is not installed", tool)
		}
	}
	name := filepath.Join(t.TempDir(), "p.pdf")
	require.NoError(t, os.WriteFile(name, write(t, site.A4), 0o600))
	run := func(arg ...string) string {
		out, err := exec.Command(arg[0], arg[1:]...).CombinedOutput()
		require.NoError(t, err, "%v: %s", arg, out)
		return string(out)
	}
	assert.Contains(t, run("qpdf", "--check", name), "No syntax or stream encoding errors")
	text := run("pdftotext", "-raw", name, "-")
	for _, want := range []string{"Floor drain ⌀ 4 in – 90° ½", "Page 1 of 2", "Page 2 of 2", "revision B", "turned"} {
		assert.Contains(t, text, want)
	}
	info := run("pdfinfo", name)
	for _, want := range []string{"Café drains", "Ada Invented", "595.28 x 841.89"} {
		assert.Contains(t, info, want)
	}
	fonts := strings.Split(strings.TrimSpace(run("pdffonts", name)), "\n")[2:]
	assert.Len(t, fonts, 2)
	for _, line := range fonts {
		assert.Regexp(t, `Identity-H\s+yes\s`, line, "embedded")
	}
}

// A document may end with a sheet of another size: it keeps the sheet, and its
// footers stand where they stand without one.
func TestSheetLast(t *testing.T) {
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext is not installed")
	}
	d := New(site.Letter, false, Meta{})
	d.AddPage()
	d.AddSheet(&drawing.Sheet{W: 400, H: 120, Panels: []drawing.Panel{{List: painted()}}})
	d.Footers("footing")
	out, err := d.Bytes()
	require.NoError(t, err)
	file := filepath.Join(t.TempDir(), "last.pdf")
	require.NoError(t, os.WriteFile(file, out, 0o600))
	boxes, err := exec.CommandContext(t.Context(), tool, "-bbox", file, "-").Output()
	require.NoError(t, err)
	word := regexp.MustCompile(`yMax="([0-9.]+)">footing<`).FindSubmatch(boxes)
	require.NotNil(t, word, "the footer")
	bottom, err := strconv.ParseFloat(string(word[1]), 64)
	require.NoError(t, err)
	assert.InDelta(t, SizeOf(site.Letter, false).H-Margin, bottom*25.4/72, 2)
	assert.Contains(t, string(boxes), "turned", "the sheet")
}
