package export

import (
	"linemap/internal/export/flow"
	"linemap/internal/export/paper"
)

// The columns of the way, in millimetres from its left edge: the counter
// reading ends at readingEnd, the rail stands at railX, the fitting's words at
// wordsX with its turn after them; the pipe takes the rest.
const (
	readingEnd = 24.0
	railX      = 28.5
	wordsX     = 33.0
	wordsWidth = 50.0
	turnWidth  = 21.0
	pipeX      = wordsX + wordsWidth + turnWidth + 4
	wayPad     = 0.4
)

// The rail's pens: pipe to clean is heavy, pipe that is only passed is light,
// hose on the ground and in the riser is dashed.
var (
	cleanRail = paper.Pen{Width: 1.3}
	passRail  = paper.Pen{Width: 0.35}
	layRail   = paper.Pen{Width: 0.35, Dash: []float64{0.9, 0.9}}
)

// way lists what the hose meets, each at its counter reading, along a rail.
func (p *press) way(rows []wayRow) []flow.Piece {
	pieces := make([]flow.Piece, len(rows))
	above := layRail
	for i, row := range rows {
		below := above
		switch {
		case row.Cleaned:
			below = cleanRail
		case row.Pipe != "":
			below = passRail
		}
		pieces[i] = p.wayRow(row, above, below, i == 0, i == len(rows)-1)
		above = below
	}
	return pieces
}

// wayRow sets one row: the reading, a mark on the rail, the fitting and its
// turn, the pipe that begins there.
func (p *press) wayRow(row wayRow, above, below paper.Pen, first, last bool) flow.Piece {
	const most = 3
	words, pipe := bodyStyle, bodyStyle
	if row.Kind == wayEnd {
		words = boldStyle
	}
	if row.Cleaned {
		pipe = boldStyle
	}
	room := wordsWidth
	if row.Turn == "" {
		room += turnWidth
	}
	what := p.lines(row.What, words, room, most)
	pipes := p.lines(row.Pipe, pipe, p.width-pipeX, most)
	if row.Pipe == "" {
		pipes = nil
	}
	var note []string
	if row.Note != "" {
		note = p.lines(row.Note, bodyStyle, p.width-pipeX, 2*most)
	}
	left := height(len(what), words)
	if row.Confirm {
		left += height(1, boldStyle)
	}
	h := max(left, height(len(pipes)+len(note), pipe)) + 2*wayPad
	mid := wayPad + paper.LineHeight(bodyPt)/2
	return flow.Piece{Height: h, Draw: func(x, y float64) {
		if !first {
			p.Line(x+railX, y, x+railX, y+mid, above)
		}
		if !last {
			p.Line(x+railX, y+mid, x+railX, y+h, below)
		}
		p.railMark(x+railX, y+mid, row)
		y += wayPad
		p.text(x+readingEnd, y, []string{row.At}, boldStyle.Set(paper.Right))
		p.text(x+wordsX, y, what, words)
		p.text(x+wordsX+wordsWidth+turnWidth, y, []string{p.Fit(row.Turn, true, bodyPt, turnWidth)}, boldStyle.Set(paper.Right))
		p.text(x+pipeX, y, pipes, pipe)
		p.text(x+pipeX, y+height(len(pipes), pipe), note, bodyStyle)
		if row.Confirm {
			at := y + height(len(what), words)
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
