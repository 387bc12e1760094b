package paper

import (
	"fmt"
	"math"

	"codeberg.org/go-pdf/fpdf"

	"linemap/internal/export/drawing"
)

// The vocabulary of ink is the drawing's.
type (
	// Pen draws a line, width in millimetres.
	Pen = drawing.Pen
	// Style is how a text looks, size in points.
	Style = drawing.Style
	// Colour is an sRGB colour.
	Colour = drawing.Colour
	// Box is a rectangle in millimetres from the top left corner of the page.
	Box = drawing.Box
)

// The alignments and the neutral inks of package drawing.
const (
	Left   = drawing.Left
	Centre = drawing.Centre
	Right  = drawing.Right
)

// The neutral inks.
var (
	Black = drawing.Black
	Grey  = drawing.Grey
	Pale  = drawing.Pale
	Faint = drawing.Faint
	White = drawing.White
)

// LineHeight is the distance of two lines of text in millimetres.
func LineHeight(pt float64) float64 { return 1.2 * pt * MMPerPoint }

// Text writes s with its baseline at y, and its left end, centre or right end
// at x as the style says.
func (d *Doc) Text(x, y float64, s string, st Style) {
	s = d.Clean(s)
	if s == "" {
		return
	}
	switch st.Align {
	case Centre:
		x -= d.Width(s, st.Bold, st.Pt) / 2
	case Right:
		x -= d.Width(s, st.Bold, st.Pt)
	}
	d.use(st)
	d.pdf.Text(x, y, s)
}

// TextIn writes s on one line inside b, centred in its height, aligned in its
// width, and cut to it.
func (d *Doc) TextIn(b Box, s string, st Style) {
	s = d.Fit(s, st.Bold, st.Pt, b.W)
	x := b.X
	switch st.Align {
	case Centre:
		x += b.W / 2
	case Right:
		x += b.W
	}
	d.Text(x, b.Y+b.H/2+CapHeight*st.Pt*MMPerPoint/2, s, st)
}

// Line draws a straight line.
func (d *Doc) Line(x1, y1, x2, y2 float64, p Pen) {
	d.pen(p)
	d.pdf.Line(x1, y1, x2, y2)
}

// Rect draws a box, filled where fill is not nil, outlined where the pen has a
// width.
func (d *Doc) Rect(b Box, p Pen, fill *Colour) {
	op := d.ink(p, fill)
	if op != "" {
		d.pdf.Rect(b.X, b.Y, b.W, b.H, op)
	}
}

// Polygon draws a closed shape through x, y pairs.
func (d *Doc) Polygon(xy []float64, p Pen, fill *Colour) {
	pts := make([]fpdf.PointType, 0, len(xy)/2)
	for i := 0; i+1 < len(xy); i += 2 {
		pts = append(pts, fpdf.PointType{X: xy[i], Y: xy[i+1]})
	}
	if op := d.ink(p, fill); op != "" {
		d.pdf.Polygon(pts, op)
	}
}

// Circle draws a circle about a point.
func (d *Doc) Circle(x, y, r float64, p Pen, fill *Colour) {
	if op := d.ink(p, fill); op != "" {
		d.pdf.Circle(x, y, r, op)
	}
}

// CheckBox draws an empty box to tick, side millimetres wide, its lower left
// corner at x, y: it stands on the baseline of the text beside it.
func (d *Doc) CheckBox(x, y, side float64) {
	d.Rect(Box{X: x, Y: y - side, W: side, H: side}, Pen{Width: 0.3}, nil)
}

// Arrow draws an arrow with a filled head of the given length.
func (d *Doc) Arrow(x1, y1, x2, y2, head float64, p Pen) {
	l := math.Hypot(x2-x1, y2-y1)
	if l == 0 {
		return
	}
	ux, uy := (x2-x1)/l, (y2-y1)/l
	bx, by := x2-head*ux, y2-head*uy
	if l > head {
		d.Line(x1, y1, bx, by, p)
	}
	const half = 0.38
	d.Polygon([]float64{
		x2, y2, bx - half*head*uy, by + half*head*ux, bx + half*head*uy, by - half*head*ux,
	}, Pen{}, &p.Ink)
}

// use puts a text style in force.
func (d *Doc) use(st Style) {
	if d.font.Pt != st.Pt || d.font.Bold != st.Bold {
		weight := ""
		if st.Bold {
			weight = "B"
		}
		d.pdf.SetFont(family, weight, st.Pt)
	}
	d.pdf.SetTextColor(int(st.Ink.R), int(st.Ink.G), int(st.Ink.B))
	d.font = st
}

// pen puts a pen in force.
func (d *Doc) pen(p Pen) {
	d.pdf.SetLineWidth(p.Width)
	d.pdf.SetDrawColor(int(p.Ink.R), int(p.Ink.G), int(p.Ink.B))
	d.pdf.SetDashPattern(p.Dash, 0)
	style := "butt"
	if p.Round {
		style = "round"
	}
	d.pdf.SetLineCapStyle(style)
}

// ink puts pen and fill in force and returns the PDF writer's word for them,
// "" for a shape without either.
func (d *Doc) ink(p Pen, fill *Colour) string {
	op := ""
	if fill != nil {
		d.pdf.SetFillColor(int(fill.R), int(fill.G), int(fill.B))
		op = "F"
	}
	if p.Width > 0 {
		d.pen(p)
		op += "D"
	}
	return op
}

func pageOf(page, last int) string { return fmt.Sprintf("Page %d of %d", page, last) }
