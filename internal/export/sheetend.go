package export

import (
	"linemap/internal/export/flow"
	"linemap/internal/export/paper"
)

// gaps sets the pipes that stay as they are, each with its reason and cure.
func (p *press) gaps(head, mark string, gaps []gap) {
	rows := make([]flow.Piece, len(gaps))
	for i, g := range gaps {
		name := p.lines(g.Pipe, leadStyle, p.width-60, 2)
		rows[i] = flow.Stack(
			flow.Piece{Height: height(len(name), leadStyle) + 0.6, Draw: func(x, y float64) {
				p.text(x, y, name, leadStyle)
				p.text(x+p.width, y, []string{p.Fit(g.Length, true, leadPt, 58)}, leadStyle.Set(paper.Right))
			}},
			p.paragraph(g.What, bodyStyle, 0, p.width, 2), flow.Gap(0.6),
			p.named(fact{"Why", g.Why}, 14, p.width, 4),
			p.named(fact{"Cure", g.Cure}, 14, p.width, 4),
			p.rule(),
		)
	}
	p.chapter(head, mark, rows)
}

// chapter sets rows under a heading that is repeated on every further page.
func (p *press) chapter(head, mark string, rows []flow.Piece) {
	if len(rows) == 0 {
		return
	}
	again := p.heading(head+" (continued)", "", 0)
	p.pages.Add(flow.Group{
		Pieces: append([]flow.Piece{flow.Gap(4), p.heading(head, mark, 0)}, rows...),
		Lead:   2, Loose: true, Again: &again,
	})
}

// rule is a hairline across the page with space about it.
func (p *press) rule() flow.Piece {
	return flow.Piece{Height: 3, Draw: func(x, y float64) { p.Line(x, y+1, x+p.width, y+1, hairline) }}
}

// notes sets the free words of the document in full; they may run over pages.
func (p *press) notes(notes []fact) {
	for _, n := range notes {
		p.look(n.Say)
	}
	if p.lost {
		notes = append(notes, fact{"Question marks", "Some names or notes of this job have characters that this paper " +
			"cannot print. A question mark stands for each. The site file has them in full."})
	}
	const indent = 36.0
	var rows []flow.Piece
	for _, n := range notes {
		name := p.lines(n.Name, boldStyle, indent-3, 3)
		lines := p.Wrap(n.Say, false, bodyPt, p.width-indent)
		for i := range max(len(lines), len(name)) {
			rows = append(rows, flow.Piece{Height: height(1, bodyStyle), Draw: func(x, y float64) {
				if i < len(name) {
					p.text(x, y, name[i:i+1], boldStyle)
				}
				if i < len(lines) {
					p.text(x+indent, y, lines[i:i+1], bodyStyle)
				}
			}})
		}
		rows = append(rows, flow.Gap(1.6))
	}
	p.chapter("Notes", "Notes", rows)
}
