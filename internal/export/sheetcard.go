package export

import (
	"strconv"
	"strings"

	"linemap/internal/export/flow"
	"linemap/internal/export/paper"
)

// block sets one stretch of the day: its heading, what comes before the runs,
// the runs, what comes after.
func (p *press) block(b *sheetBlock) {
	mark := "Set-up " + strconv.Itoa(b.SetUp) + ": " + b.Spot
	p.pages.Hold(flow.Gap(4), p.blockHead(mark, b.Hose))
	for _, f := range b.Facts {
		p.pages.Hold(p.named(f, 18, p.width, 3))
	}
	p.pages.Hold(p.steps(b.Before)...)
	p.pages.Hold(flow.Gap(2))
	for i := range b.Runs {
		p.run(&b.Runs[i])
	}
	if len(b.After) > 0 {
		p.pages.Add(flow.Group{Pieces: append(p.steps(b.After), flow.Gap(4))})
	}
}

// blockHead is the heading of a block: the spot, and the hose at the right.
func (p *press) blockHead(spot, hose string) flow.Piece {
	hose = p.Fit(hose, true, leadPt, p.width/2)
	lines := p.lines(spot, spotStyle, p.width-p.Width(hose, true, leadPt)-4, 3)
	h := height(len(lines), spotStyle)
	return flow.Piece{Height: h + 3, Draw: func(x, y float64) {
		p.Bookmark(spot, 0, y)
		p.text(x, y, lines, spotStyle)
		base := paper.Ascent * (spotStyle.Pt - leadPt) * paper.MMPerPoint
		p.text(x+p.width, y+base, []string{hose}, leadStyle.Set(paper.Right))
		p.Line(x, y+h+0.6, x+p.width, y+h+0.6, boldRule)
	}}
}

// steps lists what the crew does besides running hose, each with a box.
func (p *press) steps(steps []step) []flow.Piece {
	pieces := make([]flow.Piece, len(steps))
	clockWidth := 20.0
	for _, s := range steps {
		clockWidth = max(clockWidth, p.Width(s.Clock, true, bodyPt)+3)
	}
	for i, s := range steps {
		lines := p.lines(s.Say+" ("+s.Takes+")", bodyStyle, p.width-boxRoom-clockWidth, 2)
		pieces[i] = flow.Piece{Height: height(len(lines), bodyStyle) + 1, Draw: func(x, y float64) {
			p.CheckBox(x, y+paper.Ascent*bodyPt*paper.MMPerPoint, boxSide)
			p.text(x+boxRoom, y, []string{s.Clock}, boldStyle)
			p.text(x+boxRoom+clockWidth, y, lines, bodyStyle)
		}}
	}
	return pieces
}

// run sets one run. It stays on one page unless it is longer than that.
func (p *press) run(r *sheetRun) {
	again := p.banner(r, true)
	g := flow.Group{Again: &again, Pieces: []flow.Piece{p.banner(r, false)}}
	g.Pieces = append(g.Pieces, p.warnings(r.Warnings)...)
	g.Pieces = append(g.Pieces, flow.Gap(0.6))
	g.Pieces = append(g.Pieces, p.steps(r.Before)...)
	g.Pieces = append(g.Pieces, flow.Gap(0.5), p.runFacts(r.Facts), flow.Gap(0.5))
	g.Pieces = append(g.Pieces, p.passes(r.Passes)...)
	g.Pieces = append(g.Pieces, flow.Gap(0.5))
	g.Lead = len(g.Pieces)

	g.Pieces = append(g.Pieces, p.strip(r.Way, r.line), flow.Gap(0.6), p.blanks(), flow.Gap(3.2))
	p.pages.Add(g)
}

// banner is the head of a run: its number, where the hose goes in, which way
// it runs and what the counter reads at the far end.
func (p *press) banner(r *sheetRun, again bool) flow.Piece {
	const numberSide, wayWidth, endWidth = 14.0, 44.0, 45.0
	textX := numberSide + 3
	textWidth := p.width - textX - wayWidth - endWidth - 2
	number := strconv.Itoa(r.Number)
	name := r.Access
	if again {
		name += " (continued)"
	}
	under := p.under(r, textWidth)
	nameLines := p.lines(name, keyStyle, textWidth, 2)
	h := max(numberSide+0.8, height(len(nameLines), keyStyle)+height(len(under), bodyStyle))
	return flow.Piece{Height: h + 1.6, Draw: func(x, y float64) {
		if !again {
			p.Bookmark("Run "+number+", "+r.Access, 1, y)
		}
		p.Line(x, y, x+p.width, y, boldRule)
		y += 1.4
		p.numberBox(paper.Box{X: x, Y: y, W: numberSide, H: numberSide}, number)
		p.text(x+textX, y, nameLines, keyStyle)
		p.text(x+textX, y+height(len(nameLines), keyStyle), under, bodyStyle)
		p.direction(x+p.width-endWidth-wayWidth, y, r.Downstream)
		p.end(x+p.width, y, endWidth, r.End)
	}}
}

// under describes a run's opening on one line, else what it is above where it
// is, else as it comes.
func (p *press) under(r *sheetRun, width float64) []string {
	lines := p.lines(list(r.Opening, r.Where), bodyStyle, width, 2)
	fits := func(s string) bool { return s != "" && p.Width(s, false, bodyPt) <= width }
	if len(lines) > 1 && fits(r.Opening) && fits(r.Where) {
		return []string{p.Clean(r.Opening), p.Clean(r.Where)}
	}
	return lines
}

// numberBox is a run's number in white on black, as large as the box lets it.
func (p *press) numberBox(b paper.Box, number string) {
	p.Rect(b, paper.Pen{}, &paper.Black)
	st := paper.Style{Pt: 28, Bold: true, Ink: paper.White, Align: paper.Centre}
	for st.Pt > bodyPt && p.Width(number, true, st.Pt) > b.W-2 {
		st.Pt--
	}
	p.TextIn(b, number, st)
}

// direction says which way the nozzle goes: an arrow up against the flow, or a
// black plate with an arrow down for the run that is out of the ordinary.
func (p *press) direction(x, y float64, downstream bool) {
	const plate, arrow = 41.5, 10.0
	if downstream {
		p.Rect(paper.Box{X: x, Y: y, W: plate, H: 13}, paper.Pen{}, &paper.Black)
		white := paper.Pen{Width: 1, Ink: paper.White}
		p.Arrow(x+5, y+1.8, x+5, y+1.8+arrow, 4, white)
		p.text(x+10, y+1.8, []string{"DOWNSTREAM"}, leadStyle.In(paper.White))
		p.text(x+10, y+1.8+height(1, leadStyle), []string{"with the flow"}, bodyStyle.In(paper.White))
		return
	}
	p.Arrow(x+5, y+1.8+arrow, x+5, y+1.8, 4, paper.Pen{Width: 1})
	p.text(x+10, y+1.8, []string{"UPSTREAM"}, leadStyle)
	p.text(x+10, y+1.8+height(1, leadStyle), []string{"against the flow"}, bodyStyle)
}

// end is the reading at which the run turns back, its right edge at x.
func (p *press) end(x, y, width float64, reading string) {
	p.text(x, y+0.6, []string{"Counter at the far end"}, labelStyle.Set(paper.Right))
	p.text(x, y+0.6+height(1, labelStyle)+0.6, []string{p.Fit(reading, true, keyPt, width)}, keyStyle.Set(paper.Right))
}

// factShare is the room of a run's facts, as shares of the line; a reading of
// the hose counter takes readingShare.
var factShare = map[string]float64{
	factStart: 19.5, factHose: 33, factBends: 17, factWater: 19, factTime: 22.5, factTank: 31,
}

const readingShare = 23.5

// runFacts is the line of figures of a run.
func (p *press) runFacts(facts []fact) flow.Piece {
	fs := make([]field, len(facts))
	for i, f := range facts {
		name, _, _ := strings.Cut(f.Name, ", day ")
		share, ok := factShare[name]
		if !ok {
			share = readingShare
		}
		fs[i] = field{fact: f, share: share, style: boldStyle, lines: 3}
	}
	return p.fields(fs, p.width)
}

// passes is the table of a run's passes.
func (p *press) passes(passes []sheetPass) []flow.Piece {
	t := p.table(p.width,
		column{head: "Pass", share: 26, bold: true, lines: 2, box: true},
		column{head: "Nozzle", share: 57, lines: 2},
		column{head: "Unloader", share: 21, align: paper.Right, bold: true},
		column{head: "At nozzle", share: 20, align: paper.Right},
		column{head: "Thrust", share: 15, align: paper.Right},
		column{head: "Turn back at", share: 26, align: paper.Right, bold: true},
		column{head: "Strokes", share: 14, align: paper.Right},
		column{head: "Pulls", share: 11, align: paper.Right},
		column{head: "Time", share: 19, align: paper.Right})
	pieces := []flow.Piece{t.head()}
	for _, s := range passes {
		pieces = append(pieces, t.row(s.Kind, s.Nozzle, s.Setting, s.AtNozzle, s.Thrust,
			s.TurnAt, s.Strokes, s.Pulls, s.Minutes))
	}
	return pieces
}
