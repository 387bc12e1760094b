package paper

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"codeberg.org/go-fonts/dejavu/dejavusanscondensed"
	"codeberg.org/go-fonts/dejavu/dejavusanscondensedbold"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// MMPerPoint is the length of a typographic point in millimetres: 1/72 in.
const MMPerPoint = 25.4 / 72

// Vertical metrics of the document font as shares of the text size: the
// height of a capital, and how far ascenders and descenders go (DejaVu's OS/2
// table: 1493, 1556 and 483 of 2048 units).
const (
	CapHeight = 0.729
	Ascent    = 0.76
	Descent   = 0.236
)

// FamilyName is the document font's name as other programs list it.
const FamilyName = "DejaVu Sans Condensed"

// MinPoint is the smallest text that a paper may carry.
const MinPoint = 6.5

// missing stands for a character that the document font cannot draw.
const missing = '?'

// Ruler measures text in the document font. It is not safe for use by several
// goroutines at once.
type Ruler struct {
	faces  [2]*sfnt.Font
	buf    sfnt.Buffer
	widths [2]map[rune]float64
}

// NewRuler reads the document font. It fails only if the font built into the
// program is broken.
func NewRuler() (*Ruler, error) {
	r := &Ruler{widths: [2]map[rune]float64{{}, {}}}
	for i, ttf := range [][]byte{dejavusanscondensed.TTF, dejavusanscondensedbold.TTF} {
		face, err := sfnt.Parse(ttf)
		if err != nil {
			return nil, fmt.Errorf("document font: %w", err)
		}
		r.faces[i] = face
	}
	return r, nil
}

// Width returns the width of s in millimetres when set at pt points. It
// measures s as [Ruler.Clean] leaves it.
func (r *Ruler) Width(s string, bold bool, pt float64) float64 {
	em := 0.0
	for _, c := range r.Clean(s) {
		em += r.advance(c, bold)
	}
	return em * pt * MMPerPoint
}

// Clean returns s without anything that the document font cannot draw: line
// breaks and tabs become spaces, other control characters and malformed bytes
// go, and a character without a glyph becomes a question mark.
func (r *Ruler) Clean(s string) string {
	plain := true
	for _, c := range s {
		if c < ' ' || c > '~' {
			plain = false
			break
		}
	}
	if plain {
		return s
	}
	return strings.Map(func(c rune) rune {
		switch {
		case c == '\n' || c == '\t' || c == '\r' || c == '\u00a0':
			return ' '
		case c < ' ' || c == 0x7f || c == utf8.RuneError || (c >= 0x80 && c < 0xa0):
			return -1
		case !r.Has(c):
			return missing
		}
		return c
	}, s)
}

// Has reports whether both weights of the document font have a glyph for c.
// The PDF writer takes no character beyond the basic plane.
func (r *Ruler) Has(c rune) bool {
	if c > 0xfffe {
		return false
	}
	for _, face := range r.faces {
		if i, err := face.GlyphIndex(&r.buf, c); err != nil || i == 0 {
			return false
		}
	}
	return true
}

// advance returns the width of c as a share of the text size.
func (r *Ruler) advance(c rune, bold bool) float64 {
	i := 0
	if bold {
		i = 1
	}
	if w, ok := r.widths[i][c]; ok {
		return w
	}
	const ppem = 1000
	w := 0.0
	if g, err := r.faces[i].GlyphIndex(&r.buf, c); err == nil {
		if a, err := r.faces[i].GlyphAdvance(&r.buf, g, fixed.I(ppem), font.HintingNone); err == nil {
			w = float64(a) / 64 / ppem
		}
	}
	r.widths[i][c] = w
	return w
}

// Wrap breaks s into lines no wider than w millimetres, between words where
// it can and inside a word where it must. It returns at least one line.
func (r *Ruler) Wrap(s string, bold bool, pt, w float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(r.Clean(s)) {
		for {
			try := word
			if line != "" {
				try = line + " " + word
			}
			if r.Width(try, bold, pt) <= w {
				line = try
				break
			}
			if line != "" {
				lines, line = append(lines, line), ""
				continue
			}
			head := r.prefix(word, bold, pt, w, 1)
			if head == word {
				line = word
				break
			}
			lines, word = append(lines, head), word[len(head):]
		}
	}
	if line != "" || len(lines) == 0 {
		lines = append(lines, line)
	}
	return lines
}

// Fit returns s cut to w millimetres, with an ellipsis where it was cut.
func (r *Ruler) Fit(s string, bold bool, pt, w float64) string {
	s = r.Clean(s)
	if r.Width(s, bold, pt) <= w {
		return s
	}
	const dots = "…"
	rest := w - r.Width(dots, bold, pt)
	return strings.TrimRight(r.prefix(s, bold, pt, rest, 0), " ") + dots
}

// prefix returns the longest start of s within w, but not less than its first
// least characters.
func (r *Ruler) prefix(s string, bold bool, pt, w float64, least int) string {
	em, limit, n := 0.0, w/(pt*MMPerPoint), 0
	for i, c := range s {
		em += r.advance(c, bold)
		if em > limit && n >= least {
			return s[:i]
		}
		n++
	}
	return s
}
