package export

import (
	"linemap/internal/export/drawing"
	"linemap/internal/export/flow"
	"linemap/internal/export/linestrip"
	"linemap/internal/export/paper"
)

// The columns beside a strip, in millimetres from its left edge: the reading
// ends at readingEnd, the turn sign's middle stands at signX, the fitting's words
// at wordsX with its turn at their right; the pipe takes the rest.
const (
	readingEnd = linestrip.LeaderEnd + 21
	signX      = readingEnd + 4
	wordsX     = signX + 4
	wordsWidth = 53.0
	pipeX      = wordsX + wordsWidth + 4
	wayPad     = 0.15
)

// leastStrip is the least height of a strip: enough to see how the run goes.
const leastStrip = 23.0

// stripKinds are the marks of the rows.
var stripKinds = map[wayKind]linestrip.Kind{
	wayOpening: linestrip.Opening, wayPipe: linestrip.Joint, wayFitting: linestrip.Fitting,
	wayEnd: linestrip.FarEnd, wayStop: linestrip.StopMark,
}

// stripRow is a row of words, set: its texts stand as they do with the row's top
// left corner at 0, 0.
type stripRow struct {
	wayRow
	height float64
	words  []drawing.Text
	box    *drawing.Point // the lower left corner of a box to tick
	near   *drawing.Point // the middle of the sign for fixtures
}

// strip draws a run to scale beside what the hose meets on it. It parts between
// rows where a page ends; each part is to scale in itself.
func (p *press) strip(rows []wayRow, line linestrip.Line) flow.Piece {
	set := make([]stripRow, len(rows))
	for i, row := range rows {
		set[i] = p.stripRow(row)
	}
	return p.stripPart(set, line, leastStrip)
}

func (p *press) stripPart(rows []stripRow, line linestrip.Line, least float64) flow.Piece {
	height := 0.0
	for i := range rows {
		height += rows[i].height
	}
	height = max(height, least)
	return flow.Piece{
		Height: height,
		Draw: func(x, y float64) {
			p.Paint(&drawing.Sheet{Panels: []drawing.Panel{{
				Frame: linestrip.Frame(x, y), List: stripList(rows, line, height),
			}}})
		},
		Split: func(room float64) (head, rest flow.Piece, ok bool) {
			n, high := 0, 0.0
			for n < len(rows) && high+rows[n].height <= room {
				high += rows[n].height
				n++
			}
			if n == 0 || n == len(rows) {
				return head, rest, false
			}
			above, below := line, line
			above.End, above.Far = rows[n-1].reading, false
			below.From = above.End
			return p.stripPart(rows[:n], above, 0), p.stripPart(rows[n:], below, 0), true
		},
	}
}

// stripList draws a strip with its rows, spread over a height.
func stripList(rows []stripRow, line linestrip.Line, height float64) drawing.List {
	const mid = wayPad + 1.2*bodyPt*paper.MMPerPoint/2
	scale := line.Scale(height)
	wanted, heights := make([]float64, len(rows)), make([]float64, len(rows))
	for i := range rows {
		wanted[i], heights[i] = scale.Y(rows[i].reading), rows[i].height
	}
	tops := linestrip.Spread(wanted, heights, mid, height)
	stops := make([]linestrip.Stop, len(rows))
	for i := range rows {
		kind := stripKinds[rows[i].Kind]
		if rows[i].Confirm {
			kind = linestrip.Confirm
		}
		stops[i] = linestrip.Stop{Kind: kind, At: rows[i].reading, Row: tops[i] + mid, X: rows[i].words[0].At.X - rows[i].words[0].Wide - 0.8}
	}
	out := line.Draw(height, stops)
	for i := range rows {
		row, top := &rows[i], linestrip.At(0, tops[i])
		out.Add(drawing.Base, linestrip.Sign(row.move, row.turn, signX, tops[i]+mid)...)
		for _, t := range row.words {
			t.At = t.At.Add(top)
			out.Add(drawing.Base, t)
		}
		if row.box != nil {
			at := row.box.Add(top)
			out.Add(drawing.Base, drawing.Mark{
				At: at, Off: drawing.Point{X: boxSide / 2, Y: -boxSide / 2}, Symbol: drawing.Square, Size: boxSide,
				Pen: drawing.Pen{Width: 0.3},
			})
		}
		if row.near != nil {
			out.Add(drawing.Base, linestrip.Near(row.near.Add(top)))
		}
	}
	return out
}

// stripRow sets the words of a row.
func (p *press) stripRow(row wayRow) stripRow {
	const most = 3
	set := stripRow{wayRow: row}
	what := bodyStyle
	switch row.Kind {
	case wayEnd:
		what = boldStyle
	case wayStop:
		set.Note = "Stop the reel, pressure off."
	}
	y := wayPad
	p.write(&set, readingEnd, y, p.lines(row.At, boldStyle, 3*readingEnd, 1), boldStyle.Set(paper.Right))

	turn := p.Fit(row.Turn, true, bodyPt, wordsWidth/2)
	room := wordsWidth
	if turn != "" {
		room -= p.Width(turn, true, bodyPt) + 2
		p.write(&set, wordsX+wordsWidth, y, []string{turn}, boldStyle.Set(paper.Right))
	}
	words := p.lines(row.What, what, room, most)
	p.write(&set, wordsX, y, words, what)
	left := y + height(len(words), what)
	if row.Confirm {
		base := left + paper.Ascent*bodyPt*paper.MMPerPoint
		at := linestrip.At(wordsX, base)
		set.box = &at
		p.write(&set, wordsX+boxRoom, left, []string{"Confirm with a locator"}, boldStyle)
		left += height(1, boldStyle)
	}

	right := p.besideFitting(&set, y)
	set.height = max(left, right, y+linestrip.SignSize-wayPad) + wayPad
	return set
}

// besideFitting sets what stands at the right of a row: the pipe that begins
// there, fixtures near it behind the strip's own sign for them, the note. Parts
// share a line where they fit on one. It returns how far down they go.
func (p *press) besideFitting(set *stripRow, y float64) float64 {
	const most, apart, signRoom = 3, 3.0, 3.2
	pipe := bodyStyle
	if set.Cleaned {
		pipe = boldStyle
	}
	room := p.width - pipeX
	x := 0.0 // where the line goes on
	line := height(1, bodyStyle)
	for _, part := range []struct {
		say   string
		style paper.Style
		lines int
		sign  float64
	}{{set.Pipe, pipe, most, 0}, {set.Near, bodyStyle, most, signRoom}, {set.Note, bodyStyle, 2 * most, 0}} {
		if part.say == "" {
			continue
		}
		wide := part.sign + p.Width(part.say, part.style.Bold, part.style.Pt)
		if x > 0 && x+wide > room {
			x, y = 0, y+line
		}
		lines := p.lines(part.say, part.style, room-x-part.sign, part.lines)
		p.write(set, pipeX+x+part.sign, y, lines, part.style)
		if part.sign > 0 {
			at := linestrip.At(pipeX+x+1, y+line/2)
			set.near = &at
		}
		y += float64(len(lines)-1) * line
		if x += wide + apart; len(lines) > 1 {
			x = room
		}
	}
	if x > 0 {
		y += line
	}
	return y
}

// write adds lines to a row, the first with its top at y.
func (p *press) write(row *stripRow, x, y float64, lines []string, st paper.Style) {
	for i, line := range lines {
		base := y + float64(i)*paper.LineHeight(st.Pt) + paper.Ascent*st.Pt*paper.MMPerPoint
		row.words = append(row.words, drawing.Text{
			At: linestrip.At(x, base), S: line, Wide: p.Width(line, st.Bold, st.Pt), Style: st,
		})
	}
}
