package export

import (
	"strconv"

	"linemap/internal/export/drawing"
	"linemap/internal/export/flow"
	"linemap/internal/export/paper"
)

// front sets the first page: the job, the day in figures, what to load, where
// to stand.
func (p *press) front(sh *sheet) {
	p.pages.Add(flow.Group{Pieces: []flow.Piece{
		p.masthead(sh), flow.Gap(2), p.jobFacts(sh.Job), flow.Gap(2.5),
		p.figures(sh.Figures), flow.Gap(1.5),
		p.paragraph(sentences(sh.Standing, sh.Left), bodyStyle, 0, p.width, 4), flow.Gap(4),
	}})
	p.rigAndTime(sh)
	p.loads("Hoses to load", sh.Hoses)
	p.loads("Nozzles to load", sh.Nozzles)
	p.stopsAndMap(sh.Stops)
}

// The height of the map of spots, in millimetres.
const (
	leastMap = 40.0
	mostMap  = 110.0
)

// stopsAndMap sets the table of spots and their map. The map fills what is left
// of the first page; where both do not fit on it, the table goes to the next.
func (p *press) stopsAndMap(stops []stop) {
	table := p.stops(stops)
	if p.spots == nil || len(stops) == 0 {
		p.pages.Add(table)
		return
	}
	const air = 4
	left := p.pages.Rest()*p.Body().H - 0.1 // a hair's breadth, for sums of many heights
	switch both := left - flow.Height(table.Pieces) - air; {
	case both >= leastMap:
		p.pages.Add(table)
		p.pages.Add(flow.Group{Pieces: []flow.Piece{flow.Gap(air), p.spotsMap(min(both, mostMap))}})
		p.pages.Break()
	case left >= leastMap:
		p.pages.Add(flow.Group{Pieces: []flow.Piece{p.spotsMap(min(left, mostMap))}})
		p.pages.Break()
		p.pages.Add(table)
	default:
		p.pages.Add(table)
		p.pages.Add(flow.Group{Pieces: []flow.Piece{flow.Gap(air), p.spotsMap(leastMap)}})
	}
}

// spotsMap is the map of the spots under its heading.
func (p *press) spotsMap(height float64) flow.Piece {
	head := p.subhead("Spots and hose on the ground", p.width)
	return flow.Piece{Height: height, Draw: func(x, y float64) {
		head.Draw(x, y)
		p.Paint(&drawing.Sheet{Panels: p.spots(drawing.Box{X: x, Y: y + head.Height, W: p.width, H: height - head.Height})})
	}}
}

// masthead is the paper's name, the job's title and the day.
func (p *press) masthead(sh *sheet) flow.Piece {
	const whenWidth = 52
	st, lines := p.title(sh.Title, p.width-whenWidth)
	kind := "RUN SHEET"
	if sh.Revision != "" {
		kind += "   revision " + sh.Revision
	}
	top := height(1, boldStyle) + 0.8
	h := top + height(len(lines), st) + 1.5
	return flow.Piece{Height: h + 1, Draw: func(x, y float64) {
		p.Bookmark("The day", 0, y)
		p.text(x, y, []string{p.Fit(kind, true, bodyPt, p.width-whenWidth)}, boldStyle)
		p.text(x, y+top, lines, st)
		at := y
		for _, f := range sh.When {
			if f.Say == "" {
				continue
			}
			when := []string{p.Fit(f.Say, true, headPt, whenWidth-4)}
			p.text(x+p.width, at, when, headStyle.Set(paper.Right))
			at += height(1, headStyle) + 0.8
		}
		p.Line(x, y+h, x+p.width, y+h, boldRule)
	}}
}

// title sets a title on one line if it can at a smaller size, else on up to
// four.
func (p *press) title(s string, width float64) (paper.Style, []string) {
	st := titleStyle
	for st.Pt > spotPt && p.Width(s, true, st.Pt) > width {
		st.Pt--
	}
	return st, p.lines(s, st, width, 4)
}

// jobFacts sets the facts of the job in two columns, leaving out what is not
// known.
func (p *press) jobFacts(facts []fact) flow.Piece {
	half := p.width / 2
	var left, right []flow.Piece
	for _, f := range facts {
		if f.Say == "" {
			continue
		}
		piece := p.named(f, 22, half-4, 3)
		if len(left) <= len(right) {
			left = append(left, piece)
		} else {
			right = append(right, piece)
		}
	}
	return flow.Columns(flow.Column{Pieces: left}, flow.Column{X: half, Pieces: right})
}

// named sets a fact on one line: its name, then what it says.
func (p *press) named(f fact, nameWidth, width float64, n int) flow.Piece {
	lines := p.lines(f.Say, bodyStyle, width-nameWidth, n)
	return flow.Piece{Height: height(len(lines), bodyStyle) + 0.8, Draw: func(x, y float64) {
		p.text(x, y+0.45, []string{p.Fit(f.Name, false, labelPt, nameWidth-1)}, labelStyle)
		p.text(x+nameWidth, y, lines, bodyStyle)
	}}
}

// figures is the strip of large numbers.
func (p *press) figures(facts []fact) flow.Piece {
	fs := make([]field, len(facts))
	for i, f := range facts {
		share := 1.0
		if i == 0 {
			share = 1.45
		}
		fs[i] = field{fact: f, share: share, style: keyStyle, lines: 1}
	}
	in := p.fields(fs, p.width-4)
	return flow.Piece{Height: in.Height + 2, Draw: func(x, y float64) {
		p.Rect(paper.Box{X: x, Y: y, W: p.width, H: in.Height + 2}, thinRule, nil)
		in.Draw(x+2, y+1.5)
	}}
}

// rigAndTime sets the rig beside the minutes by kind.
func (p *press) rigAndTime(sh *sheet) {
	const timeWidth = 78
	gutter := 6.0
	rigWidth := p.width - timeWidth - gutter
	left := []flow.Piece{p.subhead("Rig", rigWidth)}
	for _, f := range sh.Rig {
		if f.Say != "" {
			left = append(left, p.named(f, 24, rigWidth, 3))
		}
	}
	var right []flow.Piece
	if len(sh.Minutes) > 0 {
		right = append(right, p.subhead("Crew time", timeWidth))
	}
	for i, f := range sh.Minutes {
		right = append(right, p.sumLine(f, timeWidth, i == len(sh.Minutes)-1))
	}
	p.pages.Add(flow.Group{Pieces: []flow.Piece{
		flow.Columns(flow.Column{Pieces: left}, flow.Column{X: rigWidth + gutter, Pieces: right}), flow.Gap(4),
	}})
}

// subhead is a small heading over a thin rule.
func (p *press) subhead(s string, width float64) flow.Piece {
	h := height(1, leadStyle)
	return flow.Piece{Height: h + 2.3, Draw: func(x, y float64) {
		p.text(x, y, []string{p.Fit(s, true, leadPt, width)}, leadStyle)
		p.Line(x, y+h+0.4, x+width, y+h+0.4, thinRule)
	}}
}

// sumLine is a line of an addition: words at the left, the figure at the
// right; the sum stands under a rule.
func (p *press) sumLine(f fact, width float64, sum bool) flow.Piece {
	st, top := bodyStyle, 0.0
	if sum {
		st, top = boldStyle, 0.8
	}
	return flow.Piece{Height: height(1, st) + top + 0.4, Draw: func(x, y float64) {
		if sum {
			p.Line(x, y+0.3, x+width, y+0.3, thinRule)
		}
		p.text(x, y+top, []string{f.Name}, st)
		p.text(x+width, y+top, []string{f.Say}, st.Set(paper.Right))
	}}
}

// loads is a table of things to bring, each with a box to tick.
func (p *press) loads(name string, loads []load) {
	if len(loads) == 0 {
		return
	}
	t := p.table(p.width,
		column{head: name, share: 34, bold: true, lines: 2, box: true},
		column{head: "What it is", share: 42, lines: 2},
		column{head: "For runs", share: 24, lines: 3})
	head := t.head()
	g := flow.Group{Lead: 1, Again: &head, Pieces: []flow.Piece{head}}
	for _, l := range loads {
		g.Pieces = append(g.Pieces, t.row(l.Name, l.What, l.Runs))
	}
	g.Pieces = append(g.Pieces, flow.Gap(4))
	p.pages.Add(g)
}

// stops is the table of spots in the order of the day.
func (p *press) stops(stops []stop) flow.Group {
	if len(stops) == 0 {
		return flow.Group{}
	}
	t := p.table(p.width,
		column{head: "Set-up", share: 9, bold: true},
		column{head: "From", share: 22, lines: 2},
		column{head: "Spot", share: 25.5, bold: true, lines: 6},
		column{head: "Hose", share: 22, lines: 3},
		column{head: "Runs", share: 13, lines: 3},
		column{head: "Water and place", share: 47, lines: 8})
	head := t.head()
	g := flow.Group{Lead: 2, Loose: true, Again: &head, Pieces: []flow.Piece{p.subhead("Spots in order", p.width), head}}
	for _, s := range stops {
		g.Pieces = append(g.Pieces, t.row(strconv.Itoa(s.SetUp), s.Clock, s.Spot, s.Hose, s.Runs,
			s.Place))
	}
	return g
}
