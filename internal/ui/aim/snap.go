package aim

import (
	"math"

	"linemap/internal/network"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

// Sight is what a pointer is drawn by.
type Sight struct {
	// At is where the pointer is, Level the level that is drawn on, Within how
	// near things draw it.
	At     network.Point
	Level  string
	Within unit.Length
	// Grid is the step of the grid, 0 for none.
	Grid unit.Length
	// From is the place that the next leg starts from, nil for none; Way what
	// its angle is counted from, nil for east.
	From *network.Point
	Way  *Way
	// Free says that the next leg may have any angle.
	Free bool
	// Exact says that joints and pipes alone draw it.
	Exact bool
	// Bare says that no joint and no pipe draws it.
	Bare bool
	// Skip, where set, holds for things that do not draw it.
	Skip func(edit.Ref) bool
}

// Way is a direction that the angle of a leg is counted from.
type Way struct {
	Heading Heading
	// Of names the pipe whose direction it is; "" for the leg drawn before,
	// with which the next makes a bend.
	Of string
}

// Aim is where a pointer was drawn to.
type Aim struct {
	// Anchor says what is joined by drawing to there.
	Anchor edit.Anchor
	// Snapped says in a few words what drew the pointer, "" for nothing.
	Snapped string
	// Guide is the line that the place lies on, nil for none.
	Guide []network.Point
}

// At is the place.
func (a Aim) At() network.Point { return a.Anchor.At }

// Joins reports whether something is joined there.
func (a Aim) Joins() bool { return a.Anchor.Node != "" || a.Anchor.Pipe != "" }

// step is the trade's angle: its fittings turn multiples of a 1/16 bend.
var step = unit.QuarterBends(0.25)

// Snap says where a pointer is drawn to: to a joint; to a pipe, where the leg
// meets it squarely or at one of the trade's angles if such a place is near; to
// one of the trade's angles, where that meets the extension of an open end or
// at a whole step of the grid; to an extension; to the grid.
func (x *Index) Snap(s Sight) Aim {
	if !finite(s.At) {
		return s.plain(s.At)
	}
	if !s.Bare {
		if a, ok := x.joint(s); ok {
			return a
		}
		if a, ok := x.onPipe(s); ok {
			return a
		}
	}
	if a, ok := x.onAngle(s); ok {
		return a
	}
	if a, ok := x.inLine(s); ok {
		return a
	}
	return s.onGrid()
}

func (s *Sight) plain(at network.Point) Aim {
	return Aim{Anchor: edit.Anchor{At: at, Level: s.Level}}
}

// joint is the nearest node.
func (x *Index) joint(s Sight) (Aim, bool) {
	f, ok := x.find(s.At, s.Level, s.Within, func(r edit.Ref) bool { return r.Kind == edit.Node && !s.skips(r) })
	if !ok {
		return Aim{}, false
	}
	n := &x.nodes[x.things[f.leg.thing].of]
	a := s.plain(n.At)
	a.Anchor.Node, a.Snapped = n.ID, n.Name()
	if n.Label != "" {
		a.Snapped = n.Word() + " " + n.Label
	}
	return a, true
}

// free reports whether the next leg may have any angle.
func (s *Sight) free() bool { return s.Free || s.Exact }

func (s *Sight) skips(r edit.Ref) bool { return s.Skip != nil && s.Skip(r) }

// onAngle is the place on the nearest of the trade's angles.
func (x *Index) onAngle(s Sight) (Aim, bool) {
	if s.From == nil || s.free() {
		return Aim{}, false
	}
	ray, ok := s.ray()
	if !ok {
		return Aim{}, false
	}
	away := ray.ahead(*s.From, s.At)
	if s.Grid > 0 {
		away = whole(away, s.Grid)
	}
	a := s.plain(ray.To(*s.From, away))
	a.Snapped = s.angleWords(ray)
	if at, guide, name, ok := x.extension(s, &ray); ok {
		a = s.plain(at)
		a.Snapped, a.Guide = s.angleWords(ray)+", in line with "+name, guide
	}
	return a, true
}

// ray is the heading of the trade's angle that is nearest to the pointer. None
// goes back over the leg before.
func (s *Sight) ray() (Heading, bool) {
	to, ok := Along(*s.From, s.At)
	if !ok {
		return 0, false
	}
	base := s.base()
	k := math.Round(float64(base.Turn(to) / step))
	if back := math.Round(math.Pi / float64(step)); s.Way != nil && math.Abs(k) == back {
		k -= math.Copysign(1, k)
	}
	return base.Left(unit.Angle(k) * step), true
}

func (s *Sight) base() Heading {
	if s.Way == nil {
		return 0
	}
	return s.Way.Heading
}

// onGrid is the nearest crossing of the grid.
func (s *Sight) onGrid() Aim {
	if !(s.Grid > 0) || s.Exact {
		return s.plain(tidy(s.At))
	}
	a := s.plain(tidy(network.Point{X: whole(s.At.X, s.Grid), Y: whole(s.At.Y, s.Grid)}))
	a.Snapped = "grid"
	return a
}

// whole rounds a length to whole steps.
func whole(l, step unit.Length) unit.Length {
	return unit.Length(math.Round(float64(l/step))) * step
}
