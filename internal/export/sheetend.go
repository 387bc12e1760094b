package export

import (
	"linemap/internal/export/flow"
	"linemap/internal/export/paper"
)

// gaps sets the pipes that stay as they are, each with its reason and cure.
func (p *press) gaps(gaps []gap) {
	if len(gaps) == 0 {
		return
	}
	p.pages.Hold(flow.Gap(4), p.heading("Pipe that this plan does not clean", "Not cleaned", 0))
	for _, g := range gaps {
		name := p.lines(g.Pipe, leadStyle, p.width-60, 2)
		p.pages.Add(flow.Group{Pieces: []flow.Piece{
			{Height: height(len(name), leadStyle) + 0.6, Draw: func(x, y float64) {
				p.text(x, y, name, leadStyle)
				p.text(x+p.width, y, []string{p.Fit(g.Length, true, leadPt, 58)}, leadStyle.Set(paper.Right))
			}},
			p.paragraph(g.What, bodyStyle, 0, p.width, 2), flow.Gap(0.6),
			p.named(fact{"Why", g.Why}, 14, p.width, 4),
			p.named(fact{"Cure", g.Cure}, 14, p.width, 4),
			p.rule(),
		}})
	}
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
	if len(notes) == 0 {
		return
	}
	p.pages.Hold(flow.Gap(4), p.heading("Notes", "Notes", 0))
	const indent = 36.0
	for _, n := range notes {
		name := p.lines(n.Name, boldStyle, indent-3, 2)
		g := flow.Group{Lead: 1}
		for i, line := range p.Wrap(n.Say, false, bodyPt, p.width-indent) {
			g.Pieces = append(g.Pieces, flow.Piece{Height: height(1, bodyStyle), Draw: func(x, y float64) {
				if i == 0 {
					p.text(x, y, name, boldStyle)
				}
				p.text(x+indent, y, []string{line}, bodyStyle)
			}})
		}
		if len(g.Pieces) < len(name) {
			g.Pieces = append(g.Pieces, flow.Gap(height(len(name)-len(g.Pieces), boldStyle)))
		}
		g.Pieces = append(g.Pieces, flow.Gap(1.6))
		p.pages.Add(g)
	}
}
