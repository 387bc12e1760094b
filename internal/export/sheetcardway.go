package export

import (
	"linemap/internal/export/flow"
	"linemap/internal/export/paper"
)

// The columns of the way, in millimetres from its left edge: the counter
// reading ends at readingEnd, the rail stands at railX, words start at wordsX.
const (
	readingEnd = 25.0
	railX      = 29.5
	wordsX     = 34.0
	turnWidth  = 21.0
	wayPad     = 0.8
)

// rail pens: pipe to clean is heavy, pipe that is only passed is light.
var (
	cleanRail = paper.Pen{Width: 1.3}
	passRail  = paper.Pen{Width: 0.35}
	layRail   = paper.Pen{Width: 0.35, Dash: []float64{0.9, 0.9}}
)

// way lists what the hose meets, each at its counter reading, along a rail.
func (p *press) way(rows []wayRow, width float64) []flow.Piece {
	pieces := []flow.Piece{p.wayHead(width)}
	above := layRail
	for i, row := range rows {
		below := above
		switch {
		case row.Kind == wayPipe && row.Cleaned:
			below = cleanRail
		case row.Kind == wayPipe:
			below = passRail
		}
		pieces = append(pieces, p.wayRow(row, width, above, below, i == 0, i == len(rows)-1))
		above = below
	}
	return pieces
}

// wayHead names the columns of the way.
func (p *press) wayHead(width float64) flow.Piece {
	h := height(1, labelStyle)
	return flow.Piece{Height: h + 1.2, Draw: func(x, y float64) {
		p.text(x+readingEnd, y, []string{"Counter"}, labelStyle.Set(paper.Right))
		p.text(x+wordsX, y, []string{"What the hose meets"}, labelStyle)
		p.text(x+width, y, []string{"Turn"}, labelStyle.Set(paper.Right))
		p.Line(x, y+h+0.2, x+width, y+h+0.2, thinRule)
	}}
}

// wayRow sets one row: reading, mark on the rail, words, turn.
func (p *press) wayRow(row wayRow, width float64, above, below paper.Pen, first, last bool) flow.Piece {
	st := bodyStyle
	if row.Kind == wayEnd || row.Cleaned {
		st = boldStyle
	}
	const most = 3
	room := width - wordsX
	if row.Turn != "" {
		room -= turnWidth
	}
	lines := p.lines(row.What, st, room, most)
	words := height(len(lines), st)
	h := words + 2*wayPad
	if row.Confirm {
		h += height(1, boldStyle) + 0.4
	}
	mid := wayPad + paper.LineHeight(st.Pt)/2
	return flow.Piece{Height: h, Draw: func(x, y float64) {
		if !first {
			p.Line(x+railX, y, x+railX, y+mid, above)
		}
		if !last {
			p.Line(x+railX, y+mid, x+railX, y+h, below)
		}
		p.railMark(x+railX, y+mid, row)
		p.text(x+readingEnd, y+wayPad, []string{row.At}, boldStyle.Set(paper.Right))
		p.text(x+wordsX, y+wayPad, lines, st)
		p.text(x+width, y+wayPad, []string{p.Fit(row.Turn, true, bodyPt, turnWidth)}, boldStyle.Set(paper.Right))
		if row.Confirm {
			at := y + wayPad + words + 0.4
			p.CheckBox(x+wordsX, at+paper.Ascent*bodyPt*paper.MMPerPoint, boxSide)
			p.text(x+wordsX+boxRoom, at, []string{"Confirm with a locator"}, boldStyle)
		}
	}}
}

// railMark draws what a row is on the rail: an open ring for the opening, a
// bar where a pipe begins, a dot for a fitting, a diamond for a branch to
// confirm, a stop bar at the far end.
func (p *press) railMark(x, y float64, row wayRow) {
	switch {
	case row.Kind == wayOpening:
		p.Circle(x, y, 1.6, paper.Pen{Width: 0.6}, &paper.White)
	case row.Kind == wayPipe:
		p.Line(x-1.6, y, x+1.6, y, paper.Pen{Width: 0.6})
	case row.Kind == wayEnd:
		p.Rect(paper.Box{X: x - 2.2, Y: y - 0.9, W: 4.4, H: 1.8}, paper.Pen{}, &paper.Black)
	case row.Confirm:
		const d = 2.0
		p.Polygon([]float64{x, y - d, x + d, y, x, y + d, x - d, y}, paper.Pen{Width: 0.6}, &paper.White)
	default:
		p.Circle(x, y, 1.1, paper.Pen{Width: 0.5}, &paper.White)
	}
}
