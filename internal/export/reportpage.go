package export

import (
	"linemap/internal/export/flow"
	"linemap/internal/export/paper"
)

// report lays out what comes before the map.
func (p *press) report(r *reportSheet) {
	p.pages.Add(flow.Group{Pieces: []flow.Piece{
		p.reportHead(r), flow.Gap(2), p.jobFacts(r.Job), flow.Gap(2.5), p.figureStrip(r.Figures), flow.Gap(4),
	}})
	p.sayings("In short", r.Short)
	p.found(r.Found)
	p.gaps("What is left", "What is left", r.Left)
	p.back(r.Back)
	p.notes(r.Notes)
}

// reportHead is the paper's name, the job's title and the day.
func (p *press) reportHead(r *reportSheet) flow.Piece {
	const mostDay = 80
	dayWidth := min(mostDay, p.Width(r.Day, true, headPt)+5)
	st, lines := p.title(r.Title, p.width-dayWidth)
	kind := "REPORT"
	if r.Revision != "" {
		kind += "   revision " + r.Revision
	}
	top := height(1, boldStyle) + 0.8
	h := top + height(len(lines), st) + 1.5
	days := p.lines(r.Day, headStyle, dayWidth-4, 2)
	h = max(h, height(len(days), headStyle)+1.5)
	return flow.Piece{Height: h + 1, Draw: func(x, y float64) {
		p.Bookmark("Report", 0, y)
		p.text(x, y, []string{p.Fit(kind, true, bodyPt, p.width-dayWidth)}, boldStyle)
		p.text(x, y+top, lines, st)
		p.text(x+p.width, y, days, headStyle.Set(paper.Right))
		p.Line(x, y+h, x+p.width, y+h, boldRule)
	}}
}

// rows sets a table under a heading; its head is repeated on every further
// page.
func (p *press) rows(head string, t *table, rows []flow.Piece) {
	if len(rows) == 0 {
		return
	}
	again := t.head()
	p.pages.Add(flow.Group{
		Lead: 3, Loose: true, Again: &again,
		Pieces: append([]flow.Piece{flow.Gap(3), p.heading(head, head, 0), t.head()}, rows...),
	})
}

// found sets what was found run by run.
func (p *press) found(all []foundRow) {
	t := p.table(p.width,
		column{head: "Run", share: 11, align: paper.Right, bold: true},
		column{head: "Opening", share: 25, bold: true, lines: 2},
		column{head: "Where", share: 38, lines: 3},
		column{head: "Cleaned", share: 30, lines: 2},
		column{head: "Found", share: 62, lines: 6},
		column{head: "State of the pipe", share: 30, bold: true, lines: 2})
	rows := make([]flow.Piece, len(all))
	for i, r := range all {
		rows[i] = t.row(r.Run, r.Label, r.Where, r.Cleaned, r.Found, r.Condition)
	}
	p.rows("What was found", t, rows)
}

// back sets the days to come back by.
func (p *press) back(all []backRow) {
	t := p.table(p.width,
		column{head: "By", share: 48, bold: true, lines: 2},
		column{head: "Pipe", share: 58, lines: 8},
		column{head: "Because", share: 90, lines: 3})
	rows := make([]flow.Piece, len(all))
	for i, r := range all {
		rows[i] = t.row(r.By, r.Pipes, r.Why)
	}
	if len(rows) > 0 {
		rows = append(rows, flow.Gap(1), p.paragraph("The time to the next cleaning is common practice for the deposit, "+
			"made shorter where it came back sooner and longer where it did not.", labelStyle, 0, p.width, 2))
	}
	p.rows("When to come back", t, rows)
}

// history sets all visits, the last one first.
func (p *press) history(all []visitRow) {
	t := p.table(p.width,
		column{head: "Day", share: 30, bold: true, lines: 2},
		column{head: "Crew", share: 28, lines: 2},
		column{head: "Runs", share: 18},
		column{head: "Cleaned", share: 22, align: paper.Right},
		column{head: "Found", share: 52, lines: 4},
		column{head: "State of the pipe", share: 46, lines: 3})
	rows := make([]flow.Piece, len(all))
	for i, v := range all {
		rows[i] = t.row(v.Day, v.Crew, v.Runs, v.Cleaned, v.Found, v.Condition)
	}
	p.rows("History of visits", t, rows)
}
