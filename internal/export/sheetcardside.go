package export

import (
	"linemap/internal/export/flow"
	"linemap/internal/export/paper"
)

// warnings lists a run's warnings, each behind a sign.
func (p *press) warnings(warnings []string) []flow.Piece {
	return p.signed(warnings, boldStyle, func(x, y float64) { p.warningSign(x, y+0.3, 3.8) })
}

// remarks lists the document's notes, each behind a dot.
func (p *press) remarks(notes []string) []flow.Piece {
	return p.signed(notes, bodyStyle, func(x, y float64) {
		p.Circle(x+1.9, y+paper.LineHeight(bodyPt)/2, 0.8, paper.Pen{}, &paper.Black)
	})
}

// signed lists texts, each behind a sign.
func (p *press) signed(texts []string, st paper.Style, sign func(x, y float64)) []flow.Piece {
	const most = 4
	pieces := make([]flow.Piece, len(texts))
	for i, s := range texts {
		lines := p.lines(s, st, p.width-boxRoom, most)
		pieces[i] = flow.Piece{Height: height(len(lines), st) + 1, Draw: func(x, y float64) {
			sign(x, y)
			p.text(x+boxRoom, y, lines, st)
		}}
	}
	return pieces
}

// blanks are the lines that the crew fills in, with room for a gloved hand.
func (p *press) blanks(width float64) []flow.Piece {
	const line = 8.5
	box := func(rows []flow.Piece) flow.Piece {
		h := flow.Height(rows) + 3
		return flow.Piece{Height: h, Draw: func(x, y float64) {
			p.Rect(paper.Box{X: x, Y: y, W: width, H: h}, thinRule, nil)
			for _, r := range rows {
				r.Draw(x, y)
				y += r.Height
			}
		}}
	}
	const pad = 2.0
	blank := func(name string, from, to float64) flow.Piece {
		return flow.Piece{Height: line, Draw: func(x, y float64) {
			p.text(x+from, y+line-height(1, bodyStyle)+0.6, []string{name}, bodyStyle)
			start := x + from
			if name != "" {
				start += p.Width(name, false, bodyPt) + 1.5
			}
			p.Line(start, y+line, x+to, y+line, thinRule)
		}}
	}
	pair := func(a, b flow.Piece) flow.Piece {
		return flow.Piece{Height: line, Draw: func(x, y float64) { a.Draw(x, y); b.Draw(x, y) }}
	}
	cut := width*0.58 - pad
	return []flow.Piece{box([]flow.Piece{
		blank(p.reached, pad, width-pad),
		blank("Found", pad, width-pad),
		blank("", pad, width-pad),
		pair(blank("Done at", pad, cut), blank("Initials", cut+pad, width-pad)),
	})}
}
