package export

import (
	"strings"

	"linemap/internal/export/flow"
	"linemap/internal/export/paper"
)

// quote lays a quote out.
func (p *press) quote(q *quoteSheet) {
	p.pages.Add(flow.Group{Pieces: []flow.Piece{
		p.quoteHead(q), flow.Gap(2), p.jobFacts(q.Job), flow.Gap(2.5), p.figureStrip(q.Figures), flow.Gap(5),
	}})
	p.quoteTable(q)
	p.quoteRanges(q)
	p.sayings("Included", q.Scope)
	p.sayings("Not included", q.Left)
	p.sayings("How it adds up", q.Remarks)
	p.terms(q.Terms)
	if p.lost {
		p.sayings("Question marks", []string{"Some words of this quote have characters that the paper cannot print. A question mark stands for each."})
	}
	p.signatures(q)
}

// quoteHead is the paper's name, the job's title and a line for the date.
func (p *press) quoteHead(q *quoteSheet) flow.Piece {
	const dateWidth = 62
	st, lines := p.title(q.Title, p.width-dateWidth)
	kind := "QUOTE"
	if q.Revision != "" {
		kind += "   revision " + q.Revision
	}
	top := height(1, boldStyle) + 0.8
	h := max(top+height(len(lines), st)+1.5, 18)
	return flow.Piece{Height: h + 1, Draw: func(x, y float64) {
		p.Bookmark("Quote", 0, y)
		p.text(x, y, []string{p.Fit(kind, true, bodyPt, p.width-dateWidth)}, boldStyle)
		p.text(x, y+top, lines, st)
		p.orBlank("Date of quote", q.Date, x+p.width-dateWidth+4, x+p.width, y+6.5)
		if q.Validity != "" {
			p.orBlank("Stands until", q.Until, x+p.width-dateWidth+4, x+p.width, y+15)
		}
		p.Line(x, y+h, x+p.width, y+h, boldRule)
	}}
}

// orBlank writes what is known after its name, else a line to write it on.
func (p *press) orBlank(name, say string, from, to, y float64) {
	if say == "" {
		p.blank(name, from, to, y)
		return
	}
	p.Text(from, y-0.8, name, bodyStyle)
	p.Text(to, y-0.8, say, boldStyle.Set(paper.Right))
}

// quoteTable sets the lines and their sum. Money is never cut: the columns of
// figures are as wide as their longest, and the words share what is left.
func (p *press) quoteTable(q *quoteSheet) {
	amountHead := "Amount " + q.Currency
	quantity, per, rate, amount := "Quantity", "Unit", "Rate", amountHead
	wide := [4]float64{}
	fit := func(i int, s string, bold bool) { wide[i] = max(wide[i], p.Width(s, bold, bodyPt)+2*cellPad+0.2) }
	for i, s := range []string{quantity, per, rate, amount} {
		fit(i, s, false)
	}
	for _, l := range q.Lines {
		fit(0, l.Quantity, false)
		fit(1, l.Unit, false)
		fit(2, l.Rate, false)
		fit(3, l.Amount, true)
	}
	words := p.width - sum(wide[:])
	t := p.table(p.width,
		column{head: "For", share: 0.44 * words, bold: true, lines: 4},
		column{head: "Where the quantity comes from", share: 0.56 * words, lines: 4},
		column{head: quantity, share: wide[0], align: paper.Right},
		column{head: per, share: wide[1]},
		column{head: rate, share: wide[2], align: paper.Right},
		column{head: amountHead, share: wide[3], align: paper.Right, bold: true})
	head := t.head()
	g := flow.Group{Lead: 2, Loose: true, Again: &head, Pieces: []flow.Piece{p.heading("Price", "Price", 0), head}}
	for _, l := range q.Lines {
		g.Pieces = append(g.Pieces, t.row(l.What, l.Source, l.Quantity, l.Unit, l.Rate, l.Amount))
	}
	g.Pieces = append(g.Pieces, p.quoteSums(q.Sums), flow.Gap(4))
	p.pages.Add(g)
}

// quoteSums is the sum, the tax and the total, at the right under the amounts.
func (p *press) quoteSums(sums []fact) flow.Piece {
	const gap = 6.0
	width := 0.0
	for i, f := range sums {
		st := sumStyle(i, sums)
		width = max(width, p.Width(f.Name, st.Bold, st.Pt)+gap+p.Width(f.Say, st.Bold, st.Pt))
	}
	width = min(max(width, 70), p.width)
	pieces := make([]flow.Piece, len(sums))
	for i, f := range sums {
		st := sumStyle(i, sums)
		last := i == len(sums)-1
		top := 0.8
		if last {
			top = 1.8
		}
		pieces[i] = flow.Piece{Height: height(1, st) + top, Draw: func(x, y float64) {
			if last {
				p.Line(x+p.width-width, y+0.8, x+p.width, y+0.8, thinRule)
			}
			p.text(x+p.width-width, y+top, []string{f.Name}, st)
			p.text(x+p.width, y+top, []string{f.Say}, st.Set(paper.Right))
		}}
	}
	return flow.Stack(pieces...)
}

func sumStyle(i int, sums []fact) paper.Style {
	if i == len(sums)-1 {
		return headStyle
	}
	return bodyStyle
}

// quoteRanges sets the range of hours and total.
func (p *press) quoteRanges(q *quoteSheet) {
	t := p.table(p.width,
		column{head: "Deposits", share: 60, bold: true, lines: 2},
		column{head: "Crew time", share: 34, align: paper.Right, lines: 2},
		column{head: "Water", share: 34, align: paper.Right, lines: 2},
		column{head: "Total", share: 66, align: paper.Right, bold: true, lines: 2})
	g := flow.Group{Pieces: []flow.Piece{p.heading("Low, likely and high", "Low, likely and high", 0), t.head()}}
	for _, r := range q.Ranges {
		g.Pieces = append(g.Pieces, t.row(r.Case, r.Hours, r.Water, r.Total))
	}
	g.Pieces = append(g.Pieces, flow.Gap(1), p.paragraph(q.Range, bodyStyle, 0, p.width, 6), flow.Gap(4))
	p.pages.Add(g)
}

// sayings is a section of sentences, each behind a stroke.
func (p *press) sayings(head string, says []string) {
	if len(says) == 0 {
		return
	}
	const indent, most = 4.5, 8
	again := p.heading(head+" (continued)", "", 0)
	g := flow.Group{Lead: 1, Loose: len(says) > 6, Again: &again, Pieces: []flow.Piece{p.heading(head, head, 0)}}
	for _, s := range says {
		lines := p.lines(s, bodyStyle, p.width-indent, most)
		g.Pieces = append(g.Pieces, flow.Piece{Height: height(len(lines), bodyStyle) + 1, Draw: func(x, y float64) {
			mid := y + (paper.Ascent-paper.CapHeight/2)*bodyPt*paper.MMPerPoint
			p.Line(x, mid, x+2.4, mid, paper.Pen{Width: 0.5})
			p.text(x+indent, y, lines, bodyStyle)
		}})
	}
	g.Pieces = append(g.Pieces, flow.Gap(3))
	p.pages.Add(g)
}

// terms sets the contractor's own terms in full, line by line; they may run over
// pages.
func (p *press) terms(terms string) {
	if strings.TrimSpace(terms) == "" {
		return
	}
	p.look(terms)
	again := p.heading("Terms (continued)", "", 0)
	g := flow.Group{Lead: 2, Loose: true, Again: &again, Pieces: []flow.Piece{p.heading("Terms", "Terms", 0)}}
	for paragraph := range strings.Lines(terms) {
		if strings.TrimSpace(paragraph) == "" {
			continue
		}
		for _, line := range p.Wrap(paragraph, false, bodyPt, p.width) {
			g.Pieces = append(g.Pieces, flow.Piece{Height: height(1, bodyStyle), Draw: func(x, y float64) {
				p.text(x, y, []string{line}, bodyStyle)
			}})
		}
		g.Pieces = append(g.Pieces, flow.Gap(1))
	}
	g.Pieces = append(g.Pieces, flow.Gap(3))
	p.pages.Add(g)
}

// signatures are the lines to sign, for the contractor and for the customer.
func (p *press) signatures(q *quoteSheet) {
	const line, gutter = 11.0, 10.0
	half := (p.width - gutter) / 2
	side := func(head, name string) []flow.Piece {
		if name != "" {
			head += ": " + name
		}
		lines := p.lines(head, boldStyle, half, 2)
		pieces := []flow.Piece{{Height: 2 * height(1, boldStyle), Draw: func(x, y float64) { p.text(x, y, lines, boldStyle) }}}
		for _, what := range []string{"Signed", "Name", "Date"} {
			pieces = append(pieces, flow.Piece{Height: line, Draw: func(x, y float64) { p.blank(what, x, x+half, y+line-1.5) }})
		}
		return pieces
	}
	pieces := []flow.Piece{p.heading("Agreed", "Agreed", 0)}
	if q.Validity != "" {
		pieces = append(pieces, p.paragraph(q.Validity, bodyStyle, 0, p.width, 2), flow.Gap(2))
	}
	p.pages.Add(flow.Group{Pieces: append(pieces, flow.Columns(
		flow.Column{Pieces: side("For the contractor", q.Signer)},
		flow.Column{X: half + gutter, Pieces: side("For the customer", q.Customer)},
	))})
}
