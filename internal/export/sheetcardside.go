package export

import (
	"linemap/internal/export/flow"
	"linemap/internal/export/paper"
)

// warnings lists a run's warnings, each behind a sign.
func (p *press) warnings(warnings []string) []flow.Piece {
	const most = 4
	pieces := make([]flow.Piece, len(warnings))
	for i, s := range warnings {
		lines := p.lines(s, boldStyle, p.width-boxRoom, most)
		pieces[i] = flow.Piece{Height: height(len(lines), boldStyle) + 1, Draw: func(x, y float64) {
			p.warningSign(x, y+0.3, 3.8)
			p.text(x+boxRoom, y, lines, boldStyle)
		}}
	}
	return pieces
}

// blanks are the lines that the crew fills in, with room for a gloved hand.
func (p *press) blanks() flow.Piece {
	const line, pad, gap, rows = 7.8, 2.0, 4.0, 2
	left := 0.4 * p.width
	h := rows*line + 2.2
	return flow.Piece{Height: h, Draw: func(x, y float64) {
		p.Rect(paper.Box{X: x, Y: y, W: p.width, H: h}, thinRule, nil)
		p.blank(p.reached, x+pad, x+left, y+line)
		p.blank("Found", x+left+gap, x+p.width-pad, y+line)
		p.blank("Done at", x+pad, x+0.6*left, y+2*line)
		p.blank("Initials", x+0.6*left+gap, x+left, y+2*line)
		p.blank("", x+left+gap, x+p.width-pad, y+2*line)
	}}
}

// blank is a line to write on, after its name.
func (p *press) blank(name string, from, to, y float64) {
	p.Text(from, y-0.8, name, bodyStyle)
	if name != "" {
		from += p.Width(name, false, bodyPt) + 1.5
	}
	p.Line(from, y, to, y, thinRule)
}
