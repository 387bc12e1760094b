package strip

import (
	"math"
	"strconv"
	"strings"

	"linemap/internal/export/drawing"
	"linemap/internal/route"
	"linemap/internal/unit"
)

// narrow is the width under which a block shows no more than its colour and height.
const narrow = 3

// clock draws the times along the top, and a thin line down from each.
func (p *pen) clock() {
	wide := func(s string) float64 { return p.wide(s, false) }
	for _, t := range ticks(p.day.site, p.span, p.day.ends, wide) {
		x := math.Round(p.span.x(t.at)) + 0.5
		line := drawing.Pen{Width: 1, Ink: drawing.Faint}
		if t.first && t.at > 0 { // another day
			line = drawing.Pen{Width: 1.5, Ink: drawing.Grey}
		}
		p.line(x, 0, x, p.rows.tank.bottom(), line)
		if t.label != "" {
			p.text(x+4, p.rows.clock, p.span.width, t.label, drawing.Black, t.first)
		}
	}
}

// stays draws a bracket over each stay of the trailer, with its name where the
// stay is seen.
func (p *pen) stays() {
	r := p.rows.stays
	y := r.bottom() - 2.5
	for _, s := range p.day.stays {
		x0, x1 := p.span.x(s.from)+0.5, p.span.x(s.to)-1.5
		if x1 < p.span.left || x0 > p.span.left+p.span.width {
			continue
		}
		bracket := drawing.Pen{Width: 1.4, Ink: drawing.Black}
		p.line(x0, y, x1, y, bracket)
		p.line(x0, y-4, x0, y+2, bracket)
		p.line(x1, y-4, x1, y+2, bracket)
		left := max(x0, p.span.left) + 4
		if room := min(x1, p.span.left+p.span.width) - 4 - left; room > 3*p.size {
			p.text(left, band{r.y, r.h - 3}, room, s.name, drawing.Black, true)
		}
	}
}

// runs draws a tab over each run: its number, the mark of one kept by hand, and
// its minutes where there is room.
func (p *pen) runs() {
	r := p.rows.runs
	tabs := [2][]drawing.Box{} // every other one is darker
	for i := range p.day.runs {
		x0, x1 := p.span.x(p.day.runs[i].from), p.span.x(p.day.runs[i].to)
		tabs[i%2] = append(tabs[i%2], drawing.Box{X: x0, Y: r.y + 1, W: x1 - x0, H: r.h - 2})
	}
	for i, shade := range []float64{0.35, 0.6} {
		for _, b := range tabs[i] {
			p.fill(b, drawing.SkyBlue.Tint(shade))
		}
	}
	edge := drawing.Pen{Width: 1, Ink: drawing.Blue}
	for _, b := range append(tabs[0], tabs[1]...) {
		p.line(b.X, b.Bottom()+0.5, b.Right(), b.Bottom()+0.5, edge)
		if b.W > narrow {
			p.line(b.X+0.5, b.Y, b.X+0.5, b.Bottom(), edge)
		}
	}
	for i := range p.day.runs {
		p.runLabel(&p.day.runs[i], tabs[i%2][i/2])
	}
}

// runLabel writes into the tab of a run what has room there.
func (p *pen) runLabel(s *section, b drawing.Box) {
	if b.Right() < p.span.left || b.X > p.span.left+p.span.width {
		return
	}
	number, takes := strconv.Itoa(s.run.Number), unit.Minutes(s.to-s.from)
	if s.kept {
		b = p.pin(b, p.wide(number, true)+2)
	}
	for _, label := range []string{"run " + number + ", " + takes, number + ", " + takes, number} {
		if p.centred(b, label, drawing.Black, true) {
			return
		}
	}
}

// pin marks a run that is kept by hand: with a K where its number, room wide, has
// its place beside it, else with a small square. It returns what is left of the
// tab.
func (p *pen) pin(b drawing.Box, room float64) drawing.Box {
	side := b.H - 3
	if b.W < side+4+room {
		side = min(5, max(3, b.W-1))
	}
	mark := drawing.Box{X: b.X + 2, Y: b.Y + 1.5, W: side, H: side}
	p.fill(mark, drawing.Black)
	p.centred(mark, "K", drawing.White, true)
	if b.W < side+4+room { // the square may lie over the number's corner
		return b
	}
	return drawing.Box{X: mark.Right(), Y: b.Y, W: b.Right() - mark.Right(), H: b.H}
}

// crew draws a block for each event: all of one kind before the next, for so they
// are painted fastest.
func (p *pen) crew() {
	from, to := p.day.seen(p.span)
	of := make([][]drawing.Box, len(manners))
	events := make([][]int, len(manners))
	for i := from; i < to; i++ {
		e := &p.day.plan.Day[i]
		if e.Takes <= 0 {
			continue
		}
		m := mannerOf(e.Kind)
		of[m] = append(of[m], p.block(e, manners[m].height))
		events[m] = append(events[m], i)
	}
	for m := range manners {
		for _, b := range of[m] {
			p.fill(b, manners[m].ink)
		}
		over := p.over(manners[m].ink)
		for _, b := range of[m] {
			if b.W < narrow {
				continue // a hatch would be all that is seen
			}
			for _, l := range manners[m].hatch.lines(b, 5) {
				p.line(l[0].X, l[0].Y, l[1].X, l[1].Y, drawing.Pen{Width: 0.7, Ink: over})
			}
		}
		for i, b := range of[m] {
			p.letter(b, &manners[m], &p.day.plan.Day[events[m][i]])
		}
	}
}

// block is where an event lies: on whole pixels, one at least, with a pixel
// between it and the one before where both have room.
func (p *pen) block(e *route.Event, height float64) drawing.Box {
	x0, x1 := math.Round(p.span.x(e.Start)), math.Round(p.span.x(e.Start+e.Takes))
	if x1-x0 > 3 {
		x0++
	}
	x1 = max(x1, x0+1)
	r := p.rows.crew
	if e.Kind == route.EventMove { // the trailer is away from its spots
		return drawing.Box{X: x0, Y: p.rows.stays.y + 1, W: x1 - x0, H: r.bottom() - p.rows.stays.y - 1}
	}
	h := math.Round(height * (r.h - 2))
	return drawing.Box{X: x0, Y: r.bottom() - h, W: x1 - x0, H: h}
}

// letter says in a block what it is: a letter on a ground of its own where a hatch
// would run through it, for jetting the pass.
func (p *pen) letter(b drawing.Box, m *manner, e *route.Event) {
	if m.kind == route.EventJet {
		if s := p.day.section(e.Run); s != nil && e.Pass >= 0 && e.Pass < len(s.run.Passes) {
			p.centred(b, strings.ReplaceAll(string(s.run.Passes[e.Pass].Kind), "_", " "), p.over(m.ink), false)
		}
		return
	}
	if m.kind == route.EventMove && b.W >= 6 {
		p.list.Add(drawing.Base, drawing.Mark{
			At: drawing.Point{X: b.X + b.W/2, Y: p.rows.stays.y + p.rows.stays.h/2}, Symbol: drawing.Pointer,
			Size: min(b.W-1, p.rows.stays.h-4), Fill: &drawing.White,
		})
	}
	wide := p.wide(m.letter, true)
	if wide+4 > b.W || p.size > b.H {
		return
	}
	low := drawing.Box{X: b.X, Y: b.Bottom() - p.size - 4, W: b.W, H: p.size + 2}
	if m.hatch != plain {
		p.fill(drawing.Box{X: b.X + (b.W-wide)/2 - 1.5, Y: low.Y, W: wide + 3, H: low.H}, m.ink)
	}
	p.centred(low, m.letter, p.over(m.ink), true)
}
