package export

import (
	"strings"

	"linemap/internal/export/flow"
	"linemap/internal/export/paper"
)

// lists sets the check lists, the cautions and the key to the line strips. Lists
// and cautions stay together, most often on a page of their own, which can be torn
// off and hung in the truck; but where little stands on the page, they part rather
// than leave it blank.
func (p *press) lists(sh *sheet) {
	const gutter = 7
	half := (p.width - gutter) / 2
	var lists [][]flow.Piece
	for _, c := range sh.Checks {
		lists = append(lists, p.checkList(c, half))
	}
	var cautions [][]flow.Piece
	for _, c := range sh.Cautions {
		cautions = append(cautions, p.caution(c, half))
	}
	checks := func(mark string) []flow.Piece {
		return []flow.Piece{flow.Gap(4), p.heading("Check lists", mark, 0), balance(lists, half+gutter)}
	}
	rules := func(mark string) []flow.Piece {
		return []flow.Piece{p.heading("Cautions", mark, 0), balance(cautions, half+gutter), flow.Gap(1), p.lastWord(), flow.Gap(4)}
	}
	var key []flow.Piece
	if len(sh.Blocks) > 0 {
		key = []flow.Piece{p.stripKey(), flow.Gap(4)}
	}
	together := append(checks("Check lists and cautions"), rules("")...)
	rest := p.pages.Rest()
	room := rest * p.Body().H
	if rest < muchOfPage || room >= flow.Height(together) {
		p.pages.Add(flow.Group{Pieces: together})
		p.pages.Add(flow.Group{Pieces: key})
		return
	}
	p.pages.Add(flow.Group{Pieces: append([]flow.Piece{flow.Gap(4)}, rules("Cautions")...)})
	p.pages.Add(flow.Group{Pieces: key})
	p.pages.Add(flow.Group{Pieces: checks("Check lists")})
}

// muchOfPage is the share of a page that is too much to leave blank.
const muchOfPage = 0.4

// checkList is one list with its boxes.
func (p *press) checkList(c CheckList, width float64) []flow.Piece {
	pieces := []flow.Piece{p.subhead(c.Head, width)}
	for _, item := range c.Items {
		lines := p.lines(item, bodyStyle, width-boxRoom, 2)
		pieces = append(pieces, flow.Piece{Height: height(len(lines), bodyStyle) + 0.5, Draw: func(x, y float64) {
			p.CheckBox(x, y+paper.Ascent*bodyPt*paper.MMPerPoint, boxSide)
			p.text(x+boxRoom, y, lines, bodyStyle)
		}})
	}
	return append(pieces, flow.Gap(2))
}

// caution is one rule of safety, its subject in bold at its head.
func (p *press) caution(c Caution, width float64) []flow.Piece {
	const sign = 6.0
	head := c.Head + ". "
	indent := p.Width(head, true, bodyPt)
	lines := p.hang(c.Say, bodyStyle, indent, width-sign)
	return []flow.Piece{{Height: height(len(lines), bodyStyle) + 1.1, Draw: func(x, y float64) {
		p.warningSign(x, y+0.3, 3.8)
		p.text(x+sign, y, []string{head}, boldStyle)
		p.text(x+sign+indent, y, lines[:1], bodyStyle)
		p.text(x+sign, y+height(1, bodyStyle), lines[1:], bodyStyle)
	}}}
}

// hang wraps s to a width with the first line shorter by an indent.
func (p *press) hang(s string, st paper.Style, indent, width float64) []string {
	words := strings.Fields(s)
	first, n := "", 0
	for ; n < len(words); n++ {
		try := strings.TrimSpace(first + " " + words[n])
		if p.Width(try, st.Bold, st.Pt) > width-indent {
			break
		}
		first = try
	}
	if n == len(words) {
		return []string{first}
	}
	return append([]string{first}, p.Wrap(strings.Join(words[n:], " "), st.Bold, st.Pt, width)...)
}

// warningSign draws a triangle with a bang, side millimetres wide, its top
// left corner at x, y.
func (p *press) warningSign(x, y, side float64) {
	h := side * 0.9
	p.Polygon([]float64{x + side/2, y, x + side, y + h, x, y + h}, paper.Pen{}, &paper.Black)
	mid := x + side/2
	p.Line(mid, y+0.36*h, mid, y+0.7*h, paper.Pen{Width: 0.13 * side, Ink: paper.White})
	p.Circle(mid, y+0.85*h, 0.075*side, paper.Pen{}, &paper.White)
}

// lastWord is the sentence that ends every paper, in a frame.
func (p *press) lastWord() flow.Piece {
	const pad = 2.0
	lines := p.lines(LastWord, boldStyle, p.width-2*pad, 3)
	h := height(len(lines), boldStyle) + 2*pad
	return flow.Piece{Height: h, Draw: func(x, y float64) {
		p.Rect(paper.Box{X: x, Y: y, W: p.width, H: h}, thinRule, nil)
		p.text(x+pad, y+pad, lines, boldStyle)
	}}
}

// balance sets stacks of pieces in two columns of about the same height, in
// order, the first column first.
func balance(stacks [][]flow.Piece, second float64) flow.Piece {
	total := 0.0
	for _, s := range stacks {
		total += flow.Height(s)
	}
	best, cut, left := total, len(stacks), 0.0
	for i, s := range stacks {
		left += flow.Height(s)
		if high := max(left, total-left); high < best {
			best, cut = high, i+1
		}
	}
	join := func(stacks [][]flow.Piece) (all []flow.Piece) {
		for _, s := range stacks {
			all = append(all, s...)
		}
		return all
	}
	return flow.Columns(
		flow.Column{Pieces: join(stacks[:cut])},
		flow.Column{X: second, Pieces: join(stacks[cut:])},
	)
}
