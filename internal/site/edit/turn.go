package edit

import (
	"errors"
	"math"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// Rotate turns what is selected about a place, counterclockwise on the plan. What
// goes along, and what is refused, is as for [Move].
func Rotate(s *site.Site, sel Selection, about network.Point, by unit.Angle) (*Edit, error) {
	if math.IsNaN(by.Radians()) || math.IsInf(by.Radians(), 0) {
		return nil, errors.New("the angle to rotate by is not a number")
	}
	sin, cos := sinCos(by)
	return carry("rotate", s, sel, motion{turn: by, to: func(p network.Point) network.Point {
		x, y := p.X-about.X, p.Y-about.Y
		return network.Point{X: about.X + cos*x - sin*y, Y: about.Y + sin*x + cos*y}
	}})
}

// sinCos is exact for quarter turns, so that what was drawn square stays square.
func sinCos(a unit.Angle) (sin, cos unit.Length) {
	const hair = 1e-12
	if q := a.QuarterBends(); math.Abs(q-math.Round(q)) < hair {
		const turn = 4
		k := int(math.Mod(math.Round(q), turn))
		quarters := [turn][2]unit.Length{{0, 1}, {1, 0}, {0, -1}, {-1, 0}}
		v := quarters[(k+turn)%turn]
		return v[0], v[1]
	}
	s, c := math.Sincos(a.Radians())
	return unit.Length(s), unit.Length(c)
}

// Mirror puts what is selected on the other side of the line through a and b.
// The picture of an underlay cannot be mirrored: its middle moves, the picture
// stays as it is. What goes along, and what is refused, is as for [Move].
func Mirror(s *site.Site, sel Selection, a, b network.Point) (*Edit, error) {
	d := a.Distance(b)
	if !(d > 0) || math.IsInf(d.Metres(), 0) {
		return nil, errors.New("the line to mirror at needs two places apart")
	}
	dx, dy := (b.X-a.X)/d, (b.Y-a.Y)/d
	return carry("mirror", s, sel, motion{to: func(p network.Point) network.Point {
		switch {
		case dx == 0:
			return network.Point{X: 2*a.X - p.X, Y: p.Y}
		case dy == 0:
			return network.Point{X: p.X, Y: 2*a.Y - p.Y}
		}
		x, y := p.X-a.X, p.Y-a.Y
		cos, sin := dx*dx-dy*dy, 2*dx*dy
		return network.Point{X: a.X + cos*x + sin*y, Y: a.Y + sin*x - cos*y}
	}})
}
