package export

import (
	"linemap/internal/export/flow"
	"linemap/internal/export/paper"
)

// warnings lists a run's warnings, each behind a sign, as many on a line as
// fit.
func (p *press) warnings(warnings []string) []flow.Piece {
	const most, apart = 4, 4.0
	var pieces []flow.Piece
	for i := 0; i < len(warnings); {
		row := []string{warnings[i]}
		wide := boxRoom + p.Width(warnings[i], true, bodyPt)
		for i++; i < len(warnings); i++ {
			more := apart + boxRoom + p.Width(warnings[i], true, bodyPt)
			if wide+more > p.width {
				break
			}
			row, wide = append(row, warnings[i]), wide+more
		}
		lines := p.lines(row[0], boldStyle, p.width-boxRoom, most)
		for _, s := range row[1:] {
			p.look(s)
		}
		pieces = append(pieces, flow.Piece{Height: height(len(lines), boldStyle) + 1, Draw: func(x, y float64) {
			p.warningSign(x, y+0.3, 3.8)
			p.text(x+boxRoom, y, lines, boldStyle)
			for k := 1; k < len(row); k++ {
				x += boxRoom + p.Width(row[k-1], true, bodyPt) + apart
				p.warningSign(x, y+0.3, 3.8)
				p.text(x+boxRoom, y, row[k:k+1], boldStyle)
			}
		}})
	}
	return pieces
}

// blanks are the lines that the crew fills in, with room for a gloved hand.
func (p *press) blanks() flow.Piece {
	const line, pad, gap, rows = 6.8, 2.0, 4.0, 2
	h := rows*line + 1.8
	return flow.Piece{Height: h, Draw: func(x, y float64) {
		p.Rect(paper.Box{X: x, Y: y, W: p.width, H: h}, thinRule, nil)
		at, total := x+pad, 0.0
		names := []struct {
			name  string
			share float64
		}{{p.reached, 35}, {"Passes made", 23}, {"Time", 21}, {"Initials", 19}}
		for _, n := range names {
			total += n.share
		}
		for _, n := range names {
			w := (p.width - 2*pad + gap) * n.share / total
			p.blank(n.name, at, at+w-gap, y+line)
			at += w
		}
		p.blank("Found", x+pad, x+p.width-pad, y+2*line)
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
