package export

import (
	"linemap/internal/export/drawing"
	"linemap/internal/export/flow"
	"linemap/internal/export/paper"
)

// column is one column of a table: its head, its width as a share of the
// table's, how its cells stand.
type column struct {
	head  string
	share float64
	align drawing.Align
	bold  bool
	lines int  // the most a cell takes, 0 for one
	box   bool // a box to tick stands before the text
}

// table is a table's grid; its rows are pieces.
type table struct {
	p    *press
	cols []column
	w    []float64
}

const (
	cellPad = 1.2  // on either side of a cell
	rowPad  = 0.75 // above and below a row
	boxSide = 3.4
	boxRoom = boxSide + 1.6
)

// table lays out columns over a width.
func (p *press) table(width float64, cols ...column) *table {
	t := &table{p: p, cols: cols, w: make([]float64, len(cols))}
	total := 0.0
	for _, c := range cols {
		total += c.share
	}
	for i, c := range cols {
		t.w[i] = width * c.share / total
	}
	return t
}

// head is the row of column heads, over a rule.
func (t *table) head() flow.Piece {
	h := height(1, labelStyle) + rowPad
	return flow.Piece{Height: h + 0.4, Draw: func(x, y float64) {
		for i, c := range t.cols {
			head := []string{t.p.Fit(c.head, false, labelPt, t.room(i, false))}
			t.p.text(t.edge(x, i, false), y, head, labelStyle.Set(c.align))
			x += t.w[i]
		}
		t.p.Line(x-sum(t.w), y+h, x, y+h, thinRule)
	}}
}

// row is one row of cells, over a hairline.
func (t *table) row(cells ...string) flow.Piece {
	set, high := make([][]string, len(t.cols)), 0.0
	for i, c := range t.cols {
		set[i] = t.p.lines(cells[i], c.style(), t.room(i, c.box), max(1, c.lines))
		high = max(high, height(len(set[i]), c.style()))
	}
	return flow.Piece{Height: high + 2*rowPad, Draw: func(x, y float64) {
		left := x
		for i, c := range t.cols {
			if c.box {
				pad, _ := t.pads(i)
				t.p.CheckBox(x+pad, y+rowPad+paper.Ascent*bodyPt*paper.MMPerPoint, boxSide)
			}
			t.p.text(t.edge(x, i, c.box), y+rowPad, set[i], c.style().Set(c.align))
			x += t.w[i]
		}
		t.p.Line(left, y+high+2*rowPad, x, y+high+2*rowPad, hairline)
	}}
}

// pads are the blanks at the two sides of column i. The first column and the
// last are flush with the table.
func (t *table) pads(i int) (left, right float64) {
	left, right = cellPad, cellPad
	if i == 0 {
		left = 0
	}
	if i == len(t.cols)-1 {
		right = 0
	}
	return left, right
}

// edge is where the text of column i stands, the column's left edge at x.
func (t *table) edge(x float64, i int, box bool) float64 {
	left, right := t.pads(i)
	if t.cols[i].align == paper.Right {
		return x + t.w[i] - right
	}
	if box {
		left += boxRoom
	}
	return x + left
}

// room is the width for the text of column i.
func (t *table) room(i int, box bool) float64 {
	left, right := t.pads(i)
	if box {
		left += boxRoom
	}
	return t.w[i] - left - right
}

func (c column) style() paper.Style { return paper.Style{Pt: bodyPt, Bold: c.bold} }

func sum(ws []float64) float64 {
	total := 0.0
	for _, w := range ws {
		total += w
	}
	return total
}
