package drawing

import "slices"

// Box is a rectangle in millimetres from the top left corner of the page.
type Box struct{ X, Y, W, H float64 }

// Right is the x of the box's right edge.
func (b Box) Right() float64 { return b.X + b.W }

// Bottom is the y of the box's lower edge.
func (b Box) Bottom() float64 { return b.Y + b.H }

// Inset returns b with d millimetres taken off every side.
func (b Box) Inset(d float64) Box { return Box{b.X + d, b.Y + d, b.W - 2*d, b.H - 2*d} }

// Frame puts the ground on the paper. The zero Frame is the paper itself: its
// shapes are in millimetres from the top left corner.
type Frame struct {
	// Ground is the place that comes to lie at Paper.
	Ground Point
	Paper  Point
	// Scale is in millimetres of paper per metre of ground: 10 for 1:100.
	Scale float64
}

// To returns where a place comes to lie on the paper.
func (f Frame) To(p Point) Point {
	if f.Scale == 0 {
		return p
	}
	return Point{f.Paper.X + (p.X-f.Ground.X)*f.Scale, f.Paper.Y - (p.Y-f.Ground.Y)*f.Scale}
}

// From returns the place on the ground that lies at a point of the paper.
func (f Frame) From(p Point) Point {
	if f.Scale == 0 {
		return p
	}
	return Point{f.Ground.X + (p.X-f.Paper.X)/f.Scale, f.Ground.Y - (p.Y-f.Paper.Y)/f.Scale}
}

// Panel is a part of a sheet with its own frame.
type Panel struct {
	Name  string
	Frame Frame
	// Clip, where set, cuts everything outside.
	Clip *Box
	List
}

// Sheet is one page.
type Sheet struct {
	W, H   float64
	Panels []Panel
}

// Has reports whether anything on the sheet is on a layer.
func (s *Sheet) Has(l Layer) bool {
	return slices.ContainsFunc(s.Panels, func(p Panel) bool {
		return slices.ContainsFunc(p.Items, func(it Item) bool { return it.Layer == l })
	})
}

// Op is what a step of an outline does.
type Op byte

// The steps of an outline. A Curve is a cubic Bezier with two controls.
const (
	Move Op = iota
	Line
	Curve
	Close
)

// Step is one step of an outline; P holds its points, the last one its end.
type Step struct {
	Op Op
	P  [3]Point
}

// Outline is a figure on the paper, in millimetres.
type Outline []Step

// Painter puts outlines and texts on a medium. Positions are millimetres from
// the top left corner of the page.
type Painter interface {
	// Clip cuts what follows to b, nil for the whole page. It also ends the
	// layer in force.
	Clip(b *Box)
	// Layer puts what follows on a layer.
	Layer(l Layer)
	// Outline strokes a figure where the pen has a width, and fills it where
	// fill is not nil.
	Outline(o Outline, pen Pen, fill *Colour)
	// Lettering writes t with its baseline's anchor at p. The plate is painted
	// already; only the text, its width, style and turn count.
	Lettering(t Text, p Point)
	// Picture paints the image of s, faded and turned as it says, with its middle
	// at c and, before it is turned, w by h millimetres large.
	Picture(s Picture, c Point, w, h float64)
}

// Stamper is a painter that puts a whole mark in its place, rather than one
// outline after the other.
type Stamper interface {
	// Stamp paints m with its middle at c.
	Stamp(m Mark, c Point)
}

// Paint hands every shape of a sheet to a painter, in order.
func Paint(s *Sheet, p Painter) {
	for i := range s.Panels {
		panel := &s.Panels[i]
		p.Clip(panel.Clip)
		layer := Base
		for _, it := range panel.Items {
			if it.Layer != layer {
				layer = it.Layer
				p.Layer(layer)
			}
			it.Shape.paint(panel.Frame, p)
		}
	}
	p.Clip(nil)
}
