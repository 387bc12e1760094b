package strip

import (
	"linemap/internal/export/drawing"
	"linemap/internal/rig"
	"linemap/internal/unit"
)

// depth says how the tank stands: enough to start the engine, below that, or so
// low that the engine must stop.
type depth int

const (
	enough depth = iota
	short
	low
)

// hair is less than anyone can see in a tank.
const hair = unit.Volume(1e-6)

func depthOf(t *rig.Tank, v unit.Volume) depth {
	switch {
	case v < t.Stop-hair:
		return low
	case v < t.Start-hair:
		return short
	}
	return enough
}

// depths are how each is shown: by colour and hatch.
var depths = map[depth]struct {
	ink   drawing.Colour
	hatch hatch
}{
	enough: {drawing.SkyBlue, plain},
	short:  {drawing.Orange, rising},
	low:    {drawing.Vermillion, upright},
}

// tank draws the level of the tank over the day, and its marks.
func (p *pen) tank() {
	var line []drawing.Point
	now := enough
	end := func() {
		if len(line) > 1 {
			p.surface(line, now)
		}
		if n := len(line); n > 0 {
			line = []drawing.Point{line[n-1]}
		}
	}
	from, to := p.day.seen(p.span)
	for i := from; i < to; i++ {
		e := &p.day.plan.Day[i]
		x0, x1 := max(p.span.x(e.Start), p.span.left-1), min(p.span.x(e.Start+e.Takes), p.span.left+p.span.width+1)
		parts := max(1, int((x1-x0)/3))
		for k := range parts + 1 {
			x := x0 + (x1-x0)*float64(k)/float64(parts)
			v := p.day.water(i, max(e.Start, min(p.span.time(x), e.Start+e.Takes)))
			line = append(line, drawing.Point{X: x, Y: p.levelY(v)})
			if d := depthOf(&p.day.site.Rig.Tank, v); d != now {
				end()
				now = d
			}
		}
	}
	end()
	for _, m := range p.marks() {
		y := p.levelY(m.at)
		p.line(p.span.left, y, p.span.left+p.span.width, y, m.pen)
	}
}

// surface fills a stretch of water under its surface.
func (p *pen) surface(line []drawing.Point, d depth) {
	bottom, n := p.rows.tank.bottom(), len(line)
	area := append(append([]drawing.Point{{X: line[0].X, Y: bottom}}, line...), drawing.Point{X: line[n-1].X, Y: bottom})
	ink := depths[d].ink
	p.list.Add(drawing.Base, drawing.Path{Points: area, Closed: true, Fill: &ink})
	over := drawing.Pen{Width: 0.7, Ink: p.over(ink)}
	for i := 1; i < n; i++ {
		a, b := line[i-1], line[i]
		y := max(a.Y, b.Y)
		for _, l := range depths[d].hatch.lines(drawing.Box{X: a.X, Y: y, W: b.X - a.X, H: bottom - y}, 5) {
			p.line(l[0].X, l[0].Y, l[1].X, l[1].Y, over)
		}
	}
	p.list.Add(drawing.Base, drawing.Path{Points: append([]drawing.Point{}, line...), Pen: drawing.Pen{Width: 1.4, Ink: drawing.Blue}})
}
