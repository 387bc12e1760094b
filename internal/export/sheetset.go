package export

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"linemap/internal/export/drawing"
	"linemap/internal/export/flow"
	"linemap/internal/export/paper"
	"linemap/internal/unit"
)

// The sizes of text on a run sheet, in points. Nothing a crew must read is
// smaller than bodyPt; labelPt names figures.
const (
	labelPt = 8.5
	bodyPt  = 10
	leadPt  = 11
	headPt  = 13
	spotPt  = 16
	keyPt   = 19
	titlePt = 22
)

// The styles of a run sheet. There is no colour: it must read in grey.
var (
	labelStyle = paper.Style{Pt: labelPt, Ink: paper.Grey}
	bodyStyle  = paper.Style{Pt: bodyPt}
	boldStyle  = paper.Style{Pt: bodyPt, Bold: true}
	leadStyle  = paper.Style{Pt: leadPt, Bold: true}
	headStyle  = paper.Style{Pt: headPt, Bold: true}
	spotStyle  = paper.Style{Pt: spotPt, Bold: true}
	keyStyle   = paper.Style{Pt: keyPt, Bold: true}
	titleStyle = paper.Style{Pt: titlePt, Bold: true}
)

// The rules of a run sheet.
var (
	hairline = paper.Pen{Width: 0.15, Ink: paper.Pale}
	thinRule = paper.Pen{Width: 0.3}
	boldRule = paper.Pen{Width: 0.8}
)

// press sets the content of a sheet on pages.
type press struct {
	*paper.Doc
	width float64 // of the body
	pages *flow.Setter
	sys   unit.System
	// spots draws the map of the spots into a box of the paper; nil for none.
	spots   func(drawing.Box) []drawing.Panel
	reached string // what a crew calls the reading at which a run ended
	lost    bool   // a text had a character that the font cannot draw
}

// lines wraps s to a width and at most n lines, the last cut with an ellipsis.
func (p *press) lines(s string, st paper.Style, width float64, n int) []string {
	p.look(s)
	s = strings.Join(strings.Fields(s), " ")
	if most := int(float64(n+1)*width/(narrowest*st.Pt*paper.MMPerPoint)) * utf8.UTFMax; len(s) > most {
		s = s[:most]
	}
	lines := p.Wrap(s, st.Bold, st.Pt, width)
	if len(lines) <= n {
		return lines
	}
	rest := lines[n-1] + " " + lines[n]
	return append(lines[:n-1:n-1], p.Fit(rest, st.Bold, st.Pt, width))
}

// look notes whether s has a character that prints as a question mark.
func (p *press) look(s string) {
	p.lost = p.lost || strings.ContainsFunc(s, func(r rune) bool {
		return r != utf8.RuneError && !unicode.IsControl(r) && !p.Has(r)
	})
}

// narrowest is less than the width of any letter, as a share of the text size.
// It tells how much of a long text need be looked at to fill a few lines.
const narrowest = 0.2

// text writes lines one below the other, the first with its top at y.
func (p *press) text(x, y float64, lines []string, st paper.Style) {
	for i, line := range lines {
		p.Text(x, y+float64(i)*paper.LineHeight(st.Pt)+paper.Ascent*st.Pt*paper.MMPerPoint, line, st)
	}
}

// height is the height of n lines of a style.
func height(n int, st paper.Style) float64 { return float64(n) * paper.LineHeight(st.Pt) }

// paragraph is a piece of running text, cut after n lines.
func (p *press) paragraph(s string, st paper.Style, indent, width float64, n int) flow.Piece {
	lines := p.lines(s, st, width, n)
	return flow.Piece{Height: height(len(lines), st), Draw: func(x, y float64) {
		p.text(x+indent, y, lines, st)
	}}
}

// heading is a section's heading with a rule under it, entered in the outline
// at a level.
func (p *press) heading(s, mark string, level int) flow.Piece {
	h := height(1, headStyle)
	return flow.Piece{Height: h + 3, Draw: func(x, y float64) {
		if mark != "" {
			p.Bookmark(mark, level, y)
		}
		p.text(x, y, []string{p.Fit(s, true, headPt, p.width)}, headStyle)
		p.Line(x, y+h+0.6, x+p.width, y+h+0.6, boldRule)
	}}
}

// field is a fact on the page: its name small above, its figure below.
type field struct {
	fact
	share float64 // of the width, by ratio
	style paper.Style
	lines int
}

// fields sets facts side by side, parted by thin rules.
func (p *press) fields(fs []field, width float64) flow.Piece {
	const pad = 1.6
	total := 0.0
	for _, f := range fs {
		total += f.share
	}
	type set struct {
		x, w  float64
		lines []string
	}
	sets, x, high := make([]set, len(fs)), 0.0, 0.0
	for i, f := range fs {
		w := width * f.share / total
		room := w - 2*pad
		if i == 0 {
			room += pad
		}
		sets[i] = set{x, w, p.lines(f.Say, f.style, room, f.lines)}
		x += w
		high = max(high, height(len(sets[i].lines), f.style))
	}
	nameHeight := height(1, labelStyle)
	return flow.Piece{Height: nameHeight + high + 1, Draw: func(x0, y float64) {
		for i, f := range fs {
			x := x0 + sets[i].x
			if i > 0 {
				p.Line(x, y+0.6, x, y+nameHeight+high, hairline)
				x += pad
			}
			p.text(x, y, []string{p.Fit(f.Name, false, labelPt, sets[i].w-pad)}, labelStyle)
			p.text(x, y+nameHeight, sets[i].lines, f.style)
		}
	}}
}

// figureStrip is a framed strip of large numbers. The first, a date or a total,
// has twice the room of each other, and is set smaller where it is long.
func (p *press) figureStrip(facts []fact) flow.Piece {
	fs := make([]field, len(facts))
	for i, f := range facts {
		share, st := 1.0, keyStyle
		if i == 0 {
			share = 2
		}
		for st.Pt > bodyPt && p.Width(f.Say, true, st.Pt) > (p.width-4)*share/float64(len(facts)+1)-4 {
			st.Pt--
		}
		fs[i] = field{fact: f, share: share, style: st, lines: 2}
	}
	in := p.fields(fs, p.width-4)
	return flow.Piece{Height: in.Height + 2, Draw: func(x, y float64) {
		p.Rect(paper.Box{X: x, Y: y, W: p.width, H: in.Height + 2}, thinRule, nil)
		in.Draw(x+2, y+1.5)
	}}
}
