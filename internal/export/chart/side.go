package chart

import (
	"math"

	"linemap/internal/export/drawing"
	"linemap/internal/export/paper"
)

// side is the column beside the plan, in millimetres on the paper.
type side struct {
	*draft
	list drawing.List
	box  drawing.Box
	y    float64 // what is written so far ends here
	// marks are the column's sections; sheet is the index of the page.
	marks []Mark
	sheet int
}

// Styles of the side column.
var (
	styleHead  = drawing.Style{Pt: ptName, Bold: true}
	styleSmall = drawing.Style{Pt: ptSmall}
	styleBold  = drawing.Style{Pt: ptSmall, Bold: true}
)

// text writes one line.
func (c *side) text(x, y float64, s string, st drawing.Style) {
	s = c.rule.Clean(s)
	if s == "" {
		return
	}
	c.list.Add(drawing.Base, drawing.Text{
		At: drawing.Point{X: x, Y: y}, S: s, Wide: c.rule.Width(s, st.Bold, st.Pt), Style: st,
	})
}

// paragraph writes lines no wider than w, the first with its top at y, and
// returns the y below the last.
func (c *side) paragraph(x, y, w float64, s string, st drawing.Style) float64 {
	for _, l := range c.rule.Wrap(s, st.Bold, st.Pt, w) {
		c.text(x, y+paper.Ascent*st.Pt*paper.MMPerPoint, l, st)
		y += lineHeight(st.Pt)
	}
	return y
}

// height is what [side.paragraph] takes.
func (c *side) height(s string, st drawing.Style, w float64) float64 {
	return float64(len(c.rule.Wrap(s, st.Bold, st.Pt, w))) * lineHeight(st.Pt)
}

func lineHeight(pt float64) float64 { return 1.15 * pt * paper.MMPerPoint }

func (c *side) rect(b drawing.Box, pen drawing.Pen, fill *drawing.Colour) {
	c.list.Add(drawing.Base, drawing.Path{
		Points: []drawing.Point{{X: b.X, Y: b.Y}, {X: b.Right(), Y: b.Y}, {X: b.Right(), Y: b.Bottom()}, {X: b.X, Y: b.Bottom()}},
		Closed: true, Pen: pen, Fill: fill,
	})
}

func (c *side) line(x1, y1, x2, y2 float64, pen drawing.Pen) {
	c.list.Add(drawing.Base, drawing.Path{Points: []drawing.Point{{X: x1, Y: y1}, {X: x2, Y: y2}}, Pen: pen})
}

// headingHeight is what [side.heading] takes.
const headingHeight = 2 + paper.CapHeight*ptName*paper.MMPerPoint + 1.8

// heading starts a section of the column.
func (c *side) heading(s string) {
	c.y += 2
	c.marks = append(c.marks, Mark{s, 1, c.sheet, c.y})
	c.text(c.box.X, c.y+capital(ptName), s, styleHead)
	c.y += capital(ptName) + 1
	c.line(c.box.X, c.y, c.box.Right(), c.y, thinPen)
	c.y += 0.8
}

// north draws the north arrow, from where the site lies on Earth; without that,
// the site's y axis points north.
func (c *side) north() {
	const h = 13.0
	turn := 0.0
	if g := c.site.Geo; g != nil {
		turn = g.Bearing.Radians()
	}
	mid := drawing.Point{X: c.box.X + 6, Y: c.y + h/2}
	sin, cos := math.Sincos(turn)
	at := func(right, down float64) drawing.Point { // of the middle, before it is turned
		return mid.Add(drawing.Point{X: right*cos + down*sin, Y: down*cos - right*sin})
	}
	tip, notch := at(0, 3.6-h/2), at(0, h/2-2.4)
	c.list.Add(drawing.Base,
		drawing.Path{Points: []drawing.Point{tip, at(-3, h/2), notch}, Closed: true, Pen: thinPen, Fill: ink(drawing.Black)},
		drawing.Path{Points: []drawing.Point{tip, at(3, h/2), notch}, Closed: true, Pen: thinPen, Fill: ink(drawing.White)})
	letter := at(0, capital(ptHead)/2-h/2)
	c.text(letter.X, letter.Y+capital(ptHead)/2, "N", drawing.Style{Pt: ptHead, Bold: true, Align: drawing.Centre})
}

// bars draws a scale bar for each scale in use, under the north arrow's side.
func (c *side) bars(pg page) {
	const left = 17.0
	top := c.y
	c.north()
	var done []float64
	for i, pn := range pg.panels {
		den := pn.den
		repeated := false
		for _, d := range done {
			repeated = repeated || d == den
		}
		if repeated {
			continue
		}
		done = append(done, den)
		text := scaleText(c.sys, den)
		if i > 0 {
			text = "Other levels: " + text
		}
		c.bar(c.box.X+left, den, text, c.box.W-left-6)
	}
	c.y = max(c.y, top+14)
}

// bar draws one scale bar: four fields, black and white in turn.
func (c *side) bar(x, den float64, text string, room float64) {
	half, number, name := bar(c.sys, den, room)
	field := half.Metres() * fullSize / den / 2
	c.text(x, c.y+capital(ptSmall), text, styleBold)
	y := c.y + capital(ptSmall) + 1.2
	for i := range 4 {
		fill := drawing.Black
		if i%2 == 1 {
			fill = drawing.White
		}
		c.rect(drawing.Box{X: x + float64(i)*field, Y: y, W: field, H: 1.5}, thinPen, ink(fill))
	}
	y += 1.5 + capital(ptSmall) + 0.9
	mid := styleSmall.Set(drawing.Centre)
	c.text(x, y, "0", styleSmall)
	c.text(x+2*field, y, number1(number), mid)
	c.text(x+4*field, y, number1(2*number)+" "+name, mid)
	c.y = y + 2.2
}

// legendTable sets the legend in two columns.
func (c *side) legendTable(all []entry) {
	if len(all) == 0 {
		return
	}
	c.heading("Legend")
	columns := legendColumns(all, 2)
	w := c.box.W / float64(len(columns))
	top, bottom := c.y, c.y
	for i, col := range columns {
		x, y := c.box.X+float64(i)*w, top
		for _, e := range col {
			text := w - sampleWidth - 2.2
			h := max(legendRow, c.height(e.say, styleSmall, text)+0.7)
			for _, s := range e.shapes(x+sampleWidth/2, y+h/2) {
				c.list.Add(drawing.Base, s)
			}
			c.paragraph(x+sampleWidth+1, y+(h-c.height(e.say, styleSmall, text))/2, text, e.say, styleSmall)
			y += h
		}
		bottom = max(bottom, y)
	}
	c.y = bottom
}
