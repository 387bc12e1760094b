package drawing

import (
	"math"
	"slices"
)

// Symbol is a small figure that marks a place. Symbols are plain geometry;
// what a place is stands beside it in the trade's letters.
type Symbol int

// The symbols. Those with a point have it in the direction of [Mark.Turn].
const (
	Disc Symbol = iota
	Square
	Diamond
	// Pointer is a slim filled arrowhead, its tip ahead of the place.
	Pointer
	// Wedge is a broad triangle with its base at the place.
	Wedge
	// Bar is a stroke across the direction.
	Bar
	// Saltire is an X.
	Saltire
	// Cup is half a ring, open ahead.
	Cup
	// Flap is a triangle that runs onto a bar.
	Flap
	// Plate is a box half as high as wide.
	Plate
	// Slip is a sheet of paper with a corner cut off, upright at a turn of 0.
	Slip
)

// round is the share of the radius at which the controls of a quarter circle
// lie (the usual cubic approximation, off by 0.03 %).
const round = 0.5522847498

// figures returns a symbol as outlines of half-width 1 about the origin, x
// ahead and y to the left, a disc and a square drawn out by so much both ways.
func (s Symbol) figures(out float64) []Outline {
	switch s {
	case Square:
		return []Outline{polygon(-1-out, -1, 1+out, -1, 1+out, 1, -1-out, 1)}
	case Diamond:
		return []Outline{polygon(-1, 0, 0, -1, 1, 0, 0, 1)}
	case Pointer:
		return []Outline{polygon(1, 0, -0.8, 0.75, -0.4, 0, -0.8, -0.75)}
	case Wedge:
		return []Outline{polygon(1, 0, 0, 0.9, 0, -0.9)}
	case Bar:
		return []Outline{stroke(0, -1, 0, 1)}
	case Saltire:
		return []Outline{stroke(-1, -1, 1, 1), stroke(-1, 1, 1, -1)}
	case Cup:
		return []Outline{{
			{Op: Move, P: [3]Point{{0, 1}}},
			{Op: Curve, P: [3]Point{{-round, 1}, {-1, round}, {-1, 0}}},
			{Op: Curve, P: [3]Point{{-1, -round}, {-round, -1}, {0, -1}}},
		}}
	case Flap:
		return []Outline{polygon(0.8, 0, -0.8, 0.8, -0.8, -0.8), stroke(0.8, -1, 0.8, 1)}
	case Plate:
		return []Outline{polygon(-1, -0.5, 1, -0.5, 1, 0.5, -1, 0.5)}
	case Slip:
		return []Outline{polygon(-0.8, -1, 0.8, -1, 0.8, 0.3, 0.1, 1, -0.8, 1)}
	}
	return []Outline{capsule(out)}
}

// capsule returns a disc drawn out by so much both ways.
func capsule(out float64) Outline {
	o := Outline{
		{Op: Move, P: [3]Point{{1 + out, 0}}},
		{Op: Curve, P: [3]Point{{1 + out, round}, {round + out, 1}, {out, 1}}},
		{Op: Line, P: [3]Point{{-out, 1}}},
		{Op: Curve, P: [3]Point{{-round - out, 1}, {-1 - out, round}, {-1 - out, 0}}},
		{Op: Curve, P: [3]Point{{-1 - out, -round}, {-round - out, -1}, {-out, -1}}},
		{Op: Line, P: [3]Point{{out, -1}}},
		{Op: Curve, P: [3]Point{{round + out, -1}, {1 + out, -round}, {1 + out, 0}}},
		{Op: Close},
	}
	if out == 0 {
		return slices.DeleteFunc(o, func(s Step) bool { return s.Op == Line })
	}
	return o
}

// polygon returns a closed figure through x, y pairs.
func polygon(xy ...float64) Outline { return append(stroke(xy...), Step{Op: Close}) }

// stroke returns an open figure through x, y pairs.
func stroke(xy ...float64) Outline {
	o := make(Outline, 0, len(xy)/2+1)
	for i := 0; i+1 < len(xy); i += 2 {
		op := Line
		if i == 0 {
			op = Move
		}
		o = append(o, Step{Op: op, P: [3]Point{{xy[i], xy[i+1]}}})
	}
	return o
}

// at returns o stretched by k, turned and moved to c on the paper, where y
// runs down.
func (o Outline) at(c Point, k, turn float64) Outline {
	sin, cos := math.Sincos(turn)
	out := make(Outline, len(o))
	for i, s := range o {
		out[i].Op = s.Op
		for j, p := range s.P {
			out[i].P[j] = Point{c.X + k*(p.X*cos-p.Y*sin), c.Y - k*(p.X*sin+p.Y*cos)}
		}
	}
	return out
}
