package linestrip

import (
	"math"

	"linemap/internal/export/drawing"
	"linemap/internal/unit"
)

// Move is what the hose does at a place.
type Move int

// The moves. Enter is the turn out of a riser into the pipe; Up and Down lead
// along a stack; Narrow and Widen are changes of size; Still has no sign.
const (
	Still Move = iota
	Ahead
	ToLeft
	ToRight
	Up
	Down
	Enter
	Narrow
	Widen
)

// SignSize is the side of a sign in millimetres.
const SignSize = 4.3

// The sign's inner half-width, and its pens.
const signHalf = 1.5

var (
	signPen  = drawing.Pen{Width: 0.7}
	plainPen = drawing.Pen{Width: 0.2}
	floorPen = drawing.Pen{Width: 0.3}
)

// Sign draws the sign of a move about a place of a strip: a small frame with
// the line of the hose in it, which turns by the angle as drawn. Ahead is up; Up
// and Down are seen from the side, a floor across them.
func Sign(m Move, turn unit.Angle, x, y float64) []drawing.Shape {
	if m == Still {
		return nil
	}
	const half = SignSize / 2
	s := &sign{x: x, y: y}
	s.list = append(s.list, drawing.Path{
		Points: points([]float64{x - half, y - half, x + half, y - half, x + half, y + half, x - half, y + half}),
		Closed: true, Pen: plainPen, Fill: &drawing.White,
	})
	rad := turn.Degrees() * math.Pi / 180
	sin, cos := math.Sincos(rad)
	switch m {
	case Ahead:
		s.arrow(0, -1, 0, 1)
	case ToLeft:
		s.turn(-sin, cos)
	case ToRight:
		s.turn(sin, cos)
	case Up:
		s.line(floorPen, -1.1, -0.15, -0.35, -0.15)
		s.line(floorPen, 0.35, -0.15, 1.1, -0.15)
		s.arrow(-1, -0.85, 0, -0.85, 0, 1)
	case Down:
		s.line(floorPen, -1.1, 0.15, -0.35, 0.15)
		s.line(floorPen, 0.35, 0.15, 1.1, 0.15)
		s.arrow(-1, 0.85, 0, 0.85, 0, -1)
	case Enter:
		s.arrow(-0.7, 1, -0.7, -0.1, -0.7+1.5*sin, -0.1-1.0*cos-0.6*sin)
	case Narrow:
		s.line(signPen, -1, -1, -1, -0.4, -0.4, 0.4, -0.4, 1)
		s.line(signPen, 1, -1, 1, -0.4, 0.4, 0.4, 0.4, 1)
	case Widen:
		s.line(signPen, -0.4, -1, -0.4, -0.4, -1, 0.4, -1, 1)
		s.line(signPen, 0.4, -1, 0.4, -0.4, 1, 0.4, 1, 1)
	}
	return s.list
}

type sign struct {
	x, y float64
	list []drawing.Shape
}

// turn draws a hose that comes from below and goes on along a direction, moved
// so that it fills the frame.
func (s *sign) turn(dx, dy float64) {
	const long = 1.25
	corner := -0.15
	if dy < 0 { // back on itself
		corner = 0.7
	}
	shift := -dx * long / 2
	s.arrow(shift, -1, shift, corner, shift+dx*long, corner+dy*long)
}

// line draws a line through x, y pairs, up and to the right of the sign's
// middle, 1 being its inner half-width.
func (s *sign) line(pen drawing.Pen, xy ...float64) {
	pts := make([]float64, len(xy))
	for i := 0; i+1 < len(xy); i += 2 {
		pts[i], pts[i+1] = s.x+signHalf*xy[i], s.y-signHalf*xy[i+1]
	}
	s.list = append(s.list, drawing.Path{Points: points(pts), Pen: pen})
}

// arrow draws a line with a head at its end.
func (s *sign) arrow(xy ...float64) {
	n := len(xy)
	dx, dy := xy[n-2]-xy[n-4], xy[n-1]-xy[n-3]
	long := math.Hypot(dx, dy)
	if long == 0 {
		return
	}
	dx, dy = dx/long, dy/long
	tipX, tipY := xy[n-2], xy[n-1]
	const head, half = 0.85, 0.55
	baseX, baseY := tipX-head*dx, tipY-head*dy
	s.line(signPen, append(append([]float64{}, xy[:n-2]...), baseX, baseY)...)
	s.line(drawing.Pen{}, tipX, tipY, baseX-half*dy, baseY+half*dx, baseX+half*dy, baseY-half*dx)
	p := s.list[len(s.list)-1].(drawing.Path)
	p.Closed, p.Fill = true, &drawing.Black
	s.list[len(s.list)-1] = p
}
