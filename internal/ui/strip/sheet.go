package strip

import (
	"math"

	"linemap/internal/export/drawing"
	"linemap/internal/export/paper"
	"linemap/internal/export/raster"
	"linemap/internal/ui/look"
	"linemap/internal/unit"
)

// picture is what the strip's bitmap shows. One millimetre of its drawing is one
// pixel of the window.
type picture struct {
	day   *day
	span  span
	rows  rows
	size  float64 // of the text, in pixels
	look  look.Look
	ruler *paper.Ruler
}

// sheet draws the strip.
func (p *picture) sheet(width, height float64) *drawing.Sheet {
	frame, day := drawing.Panel{}, drawing.Panel{}
	day.Clip = &drawing.Box{X: p.span.left, W: p.span.width, H: p.rows.tank.bottom() + 1}
	f, d := &pen{p, &frame.List}, &pen{p, &day.List}
	f.gutter()
	d.clock()
	d.stays()
	d.runs()
	d.crew()
	d.tank()
	return &drawing.Sheet{W: width, H: height, Panels: []drawing.Panel{frame, day}}
}

// pen draws on a list of the picture.
type pen struct {
	*picture
	list *drawing.List
}

func (p *pen) wide(s string, bold bool) float64 {
	return p.ruler.Width(s, bold, p.size/paper.MMPerPoint)
}

// text writes a line into a band, cut to a width, and returns how wide it is.
func (p *pen) text(x float64, b band, most float64, s string, ink drawing.Colour, bold bool) float64 {
	pt := p.size / paper.MMPerPoint
	s = p.ruler.Fit(s, bold, pt, most)
	wide := p.ruler.Width(s, bold, pt)
	p.list.Add(drawing.Base, drawing.Text{
		At: drawing.Point{X: x, Y: b.y + b.h/2 + paper.CapHeight/2*p.size}, S: s, Wide: wide,
		Style: drawing.Style{Pt: pt, Bold: bold, Ink: ink},
	})
	return wide
}

// centred writes a line in the middle of a box, if it has room there.
func (p *pen) centred(b drawing.Box, s string, ink drawing.Colour, bold bool) bool {
	wide := p.wide(s, bold)
	if s == "" || wide+2 > b.W || p.size*paper.CapHeight > b.H {
		return false
	}
	p.text(b.X+(b.W-wide)/2, band{b.Y, b.H}, b.W, s, ink, bold)
	return true
}

func (p *pen) line(x0, y0, x1, y1 float64, pen drawing.Pen) {
	p.list.Add(drawing.Base, drawing.Path{Points: []drawing.Point{{X: x0, Y: y0}, {X: x1, Y: y1}}, Pen: pen})
}

// fill fills a box. A line as broad as the box is high costs less to paint than an
// area, for lines that follow each other are painted as one.
func (p *pen) fill(b drawing.Box, ink drawing.Colour) {
	y := b.Y + b.H/2
	p.line(b.X, y, b.Right(), y, drawing.Pen{Width: b.H, Ink: ink})
}

// over is black or white, whichever stands out on an ink in the look in force.
func (p *picture) over(ink drawing.Colour) drawing.Colour {
	ground := p.look.Ink(ink)
	if raster.Contrast(p.look.Ink(drawing.White), ground) >= raster.Contrast(p.look.Ink(drawing.Black), ground) {
		return drawing.White
	}
	return drawing.Black
}

// gutter writes what the rows are, left of the day.
func (p *pen) gutter() {
	r := p.rows
	for _, row := range []struct {
		band
		name string
	}{{r.stays, "Trailer"}, {r.runs, "Run"}, {r.crew, "Crew"}} {
		p.right(row.band, row.name)
	}
	p.line(0, r.crew.bottom()+gap/2, p.span.left+p.span.width, r.crew.bottom()+gap/2, drawing.Pen{Width: 1, Ink: drawing.Faint})
	// Of the tank's levels, those that would lie over each other are left out.
	line := p.size * 0.98
	var taken []float64
	for _, m := range p.marks() {
		y := max(r.tank.y+line/2, min(p.levelY(m.at), r.tank.bottom()-line/2))
		free := true
		for _, t := range taken {
			free = free && math.Abs(t-y) >= line
		}
		if free {
			taken = append(taken, y)
			p.right(band{y - line/2, line}, m.name)
		}
	}
}

// right writes a word at the right edge of the gutter.
func (p *pen) right(b band, s string) {
	most := p.span.left - 8
	wide := min(p.wide(s, false), most)
	p.text(p.span.left-6-wide, b, most, s, drawing.Grey, false)
}

// mark is a level of the tank that has a name.
type mark struct {
	at   unit.Volume
	name string
	pen  drawing.Pen
}

// marks are the tank's levels, the one that matters most first.
func (p *picture) marks() []mark {
	tank, sys := &p.day.site.Rig.Tank, p.day.site.Units
	return []mark{
		{tank.Start, "start " + sys.Volume(tank.Start), drawing.Pen{Width: 1, Ink: drawing.Green, Dash: []float64{6, 3}}},
		{tank.Stop, "stop " + sys.Volume(tank.Stop), drawing.Pen{Width: 1.2, Ink: drawing.Vermillion}},
		{tank.Volume, "tank " + sys.Volume(tank.Volume), drawing.Pen{Width: 1, Ink: drawing.Faint}},
	}
}

// levelY is how high a level stands in the tank's row.
func (p *picture) levelY(v unit.Volume) float64 {
	share := 0.0
	if full := p.day.site.Rig.Tank.Volume; full > 0 {
		share = max(0, min(float64(v/full), 1))
	}
	return p.rows.tank.bottom() - share*p.rows.tank.h
}
