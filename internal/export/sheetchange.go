package export

import (
	"linemap/internal/export/flow"
)

// changes is the last page: what the crew found to be other than drawn, with
// lines to write on and squares to sketch on, as high as the page lets them.
func (p *press) changes() {
	const head = "What changed on site"
	whole := p.Body().H
	if rest := p.pages.Rest(); rest > muchOfPage {
		whole *= rest
		whole -= 4
		p.pages.Add(flow.Group{Pieces: []flow.Piece{flow.Gap(4)}})
	}
	top := []flow.Piece{
		p.heading(head, head, 0),
		p.paragraph("Write down what the drawing does not show or shows wrongly: the estimator puts it into the sketch for the next visit.",
			bodyStyle, 0, p.width, 2),
		flow.Gap(2),
	}
	signed := p.signed()
	lines := p.changeLines((whole - flow.Height(top) - signed.Height) * 0.48)
	used := flow.Height(top) + lines.Height + signed.Height
	p.pages.Add(flow.Group{Pieces: append(top, lines, p.sketchGrid(whole-used-0.5), signed)})
}

// changeLines is a table of blank rows.
func (p *press) changeLines(room float64) flow.Piece {
	const line = 9.0
	t := p.table(p.width,
		column{head: "Run", share: 10},
		column{head: capital(footage(p.sys)), share: 20},
		column{head: "Pipe, fitting or opening", share: 46},
		column{head: "What is there in truth (size, material, turn, way in)", share: 88})
	head := t.head()
	rows := max(2, int((room-head.Height)/line))
	return flow.Piece{Height: head.Height + float64(rows)*line + 3, Draw: func(x, y float64) {
		head.Draw(x, y)
		y += head.Height
		for i := range rows {
			p.Line(x, y+float64(i+1)*line, x+p.width, y+float64(i+1)*line, thinRule)
		}
		at := x
		for _, w := range t.w[:len(t.w)-1] {
			at += w
			p.Line(at, y, at, y+float64(rows)*line, hairline)
		}
	}}
}

// sketchGrid is a sheet of pale 5 mm squares to sketch on.
func (p *press) sketchGrid(h float64) flow.Piece {
	const square = 5.0
	top := height(1, leadStyle) + 1
	down := int((h - top - 3) / square)
	across := int(p.width / square)
	return flow.Piece{Height: h, Draw: func(x, y float64) {
		p.text(x, y, []string{"Sketch"}, leadStyle)
		y += top
		for i := 0; i <= down; i++ {
			p.Line(x, y+float64(i)*square, x+float64(across)*square, y+float64(i)*square, hairline)
		}
		for i := 0; i <= across && down > 0; i++ {
			p.Line(x+float64(i)*square, y, x+float64(i)*square, y+float64(down)*square, hairline)
		}
	}}
}

// signed is the line of the crew's names.
func (p *press) signed() flow.Piece {
	return flow.Piece{Height: 9, Draw: func(x, y float64) {
		p.blank("Crew", x, x+0.5*p.width, y+7.5)
		p.blank("Date", x+0.53*p.width, x+0.75*p.width, y+7.5)
		p.blank("Initials", x+0.78*p.width, x+p.width, y+7.5)
	}}
}
