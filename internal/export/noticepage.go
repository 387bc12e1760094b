package export

import (
	"linemap/internal/export/flow"
	"linemap/internal/export/paper"
)

// bill is a notice being set: its sizes all go by that of its ordinary text.
type bill struct {
	*press
	pt float64
}

func (b *bill) style(times float64, bold bool) paper.Style {
	return paper.Style{Pt: times * b.pt, Bold: bold}
}

// notice lays a notice out in ordinary text of so many points.
func (p *press) notice(n *noticeSheet, pt float64) {
	b := &bill{p, pt}
	b.head(n)
	b.toDo(n.Do)
	b.call(n)
	b.list("Rooms", [3]string{"Room", "Must be open", "No water down its drains"}, n.Rooms)
	b.list("Other drains", [3]string{"Drain in no room of the list", "", "No water"}, n.Fixtures)
	b.list("Outdoors", [3]string{"Outdoors: open cover and hose", "Keep away", ""}, n.Outside)
	if p.lost {
		p.pages.Add(flow.Group{Pieces: []flow.Piece{p.paragraph(
			"A question mark stands for each character that this paper cannot print.", bodyStyle, 0, p.width, 2)}})
	}
}

// head is the subject, the day and the hours, in the largest type.
func (b *bill) head(n *noticeSheet) {
	white := b.style(2.1, true).In(paper.White)
	day, hours, where := b.style(1.9, true), b.style(1.4, true), b.style(1, false)
	band := height(1, white) + 3
	dayLines := b.lines(n.Day, day, b.width, 2)
	hourLines := b.lines(n.Hours, hours, b.width, 3)
	whereLines := b.lines(list(n.Title, n.Where), where, b.width, 3)
	pieces := []flow.Piece{
		{Height: band + 2, Draw: func(x, y float64) {
			b.Bookmark("Notice", 0, y)
			b.Rect(paper.Box{X: x, Y: y, W: b.width, H: band}, paper.Pen{}, &paper.Black)
			b.TextIn(paper.Box{X: x + 3, Y: y, W: b.width - 6, H: band}, "Drain cleaning", white)
		}},
	}
	if n.Day == "" {
		pieces = append(pieces, flow.Piece{Height: height(1, day) + 1, Draw: func(x, y float64) {
			b.text(x, y, []string{"On"}, day)
			y += height(1, day)
			b.Line(x+b.Width("On ", true, day.Pt), y, x+b.width, y, thinRule)
		}})
	} else {
		pieces = append(pieces, b.set(dayLines, day, 0))
	}
	pieces = append(pieces, b.set(hourLines, hours, 0.5), b.set(whereLines, where, 0.5))
	if n.Counted != "" {
		pieces = append(pieces, b.set(b.lines(n.Counted, where, b.width, 2), where, 0.5))
	}
	b.pages.Add(flow.Group{Pieces: append(pieces, flow.Gap(1))})
}

// set makes a piece of lines with a gap under them.
func (b *bill) set(lines []string, st paper.Style, gap float64) flow.Piece {
	return flow.Piece{Height: height(len(lines), st) + gap, Draw: func(x, y float64) { b.text(x, y, lines, st) }}
}

// toDo sets what to do: in bold what, beside it how.
func (b *bill) toDo(do []fact) {
	const share, most = 0.27, 60
	name, say := b.style(1.05, true), b.style(1, false)
	left := share * b.width
	g := flow.Group{Loose: true}
	for _, f := range do {
		names, says := b.lines(f.Name, name, left-3, 3), b.lines(f.Say, say, b.width-left, most)
		h := max(height(len(names), name), height(len(says), say)) + 1.8
		g.Pieces = append(g.Pieces, flow.Piece{Height: h, Draw: func(x, y float64) {
			b.Line(x, y, x+b.width, y, thinRule)
			b.text(x, y+1.3, names, name)
			b.text(x+left, y+1.3+(name.Pt-say.Pt)*paper.Ascent*paper.MMPerPoint, says, say)
		}})
	}
	b.pages.Add(g)
}

// call says whom to call, in a frame.
func (b *bill) call(n *noticeSheet) {
	st := b.style(1.3, true)
	small := b.style(1, false)
	says := b.lines(n.Call, st, b.width-8-b.Width("Call ", true, st.Pt), 2)
	forWhom := b.lines(n.For, small, b.width-8, 2)
	h := height(max(1, len(says)), st) + 3
	if n.For != "" {
		h += height(len(forWhom), small)
	}
	b.pages.Add(flow.Group{Pieces: []flow.Piece{flow.Gap(0.5), {Height: h + 2, Draw: func(x, y float64) {
		b.Rect(paper.Box{X: x, Y: y, W: b.width, H: h}, boldRule, nil)
		at := x + 4 + b.Width("Call ", true, st.Pt)
		b.text(x+4, y+1.5, []string{"Call"}, st)
		if n.Call == "" {
			line := y + 1.5 + height(1, st)
			b.Line(at, line, x+b.width-4, line, thinRule)
		}
		b.text(at, y+1.5, says, st)
		if n.For != "" {
			b.text(x+4, y+1.5+height(max(1, len(says)), st), forWhom, small)
		}
	}}}})
}

// list sets places with their times, under a head that is repeated on every
// further page.
func (b *bill) list(mark string, heads [3]string, rows []noticeRow) {
	if len(rows) == 0 {
		return
	}
	const gap, above, below = 4.0, 1.1, 0.3
	label, name := b.style(0.85, true), b.style(1, false)
	styles := [3]paper.Style{name, b.style(1, true), name}
	wide := b.columns(heads, rows, styles, gap)
	at := [3]float64{0, wide[0], wide[0] + wide[1]}
	head := func(mark string) flow.Piece {
		foot := height(1, label) + 0.6
		return flow.Piece{Height: foot + 0.4, Draw: func(x, y float64) {
			if mark != "" {
				b.Bookmark(mark, 0, y)
			}
			for i := range heads {
				b.text(x+at[i], y, []string{heads[i]}, label)
			}
			b.Line(x, y+foot, x+b.width, y+foot, boldRule)
		}}
	}
	again := head("")
	g := flow.Group{Lead: 2, Loose: true, Again: &again, Pieces: []flow.Piece{flow.Gap(2.5), head(mark)}}
	for _, r := range rows {
		cells := [3][]string{b.lines(r.Place, name, wide[0]-gap, 40), b.pack(r.Open, styles[1], wide[1]-gap), b.pack(r.Dry, styles[2], wide[2])}
		h := 0.0
		for i := range cells {
			h = max(h, height(len(cells[i]), styles[i]))
		}
		h += above + below
		g.Pieces = append(g.Pieces, flow.Piece{Height: h, Draw: func(x, y float64) {
			for i := range cells {
				b.text(x+at[i], y+above, cells[i], styles[i])
			}
			b.Line(x, y+h, x+b.width, y+h, hairline)
		}})
	}
	b.pages.Add(g)
}

// columns shares the width between places, times to be open and times without
// water. Where they need more than there is, the places give way down to a share
// of it, then the times without water: both can take several lines.
func (b *bill) columns(heads [3]string, rows []noticeRow, styles [3]paper.Style, gap float64) [3]float64 {
	const mostOpen = 0.34
	leastName := 0.26
	if heads[1] == "" || heads[2] == "" {
		leastName = 0.45
	}
	label := b.style(0.85, true)
	var wide [3]float64
	fit := func(i int, s string, st paper.Style) {
		if s != "" {
			wide[i] = max(wide[i], b.Width(s, st.Bold, st.Pt)+gap)
		}
	}
	for i, s := range heads {
		fit(i, s, label)
	}
	for _, r := range rows {
		fit(0, r.Place, styles[0])
		for _, d := range r.Open {
			fit(1, d.String(), styles[1])
		}
		for _, d := range r.Dry {
			fit(2, list(d.Day, list(d.Times...)), styles[2])
		}
	}
	wide[1] = min(wide[1], mostOpen*b.width)
	wide[0] = min(wide[0], max(leastName*b.width, b.width-wide[1]-wide[2]))
	wide[2] = b.width - wide[0] - wide[1]
	return wide
}

// pack writes days below each other, each with as many of its times on a line as
// fit: a time is never parted.
func (b *bill) pack(days []dayTimes, st paper.Style, width float64) []string {
	var out []string
	for _, d := range days {
		line := d.Day
		for _, t := range d.Times {
			if try := list(line, t); line == "" || line == d.Day || b.Width(try, st.Bold, st.Pt) <= width {
				line = try
				continue
			}
			out = append(out, line)
			line = t
		}
		out = append(out, line)
	}
	return out
}
