package network

import (
	"math"
	"slices"

	"linemap/internal/unit"
)

// bends are the trade's bends: 1/16, 1/8, 1/6, 1/5 and 1/4 of a circle.
var bends = []struct {
	name string
	turn unit.Angle
}{
	{"1/16 bend", unit.Degrees(360. / 16)},
	{"1/8 bend", unit.Degrees(360. / 8)},
	{"1/6 bend", unit.Degrees(360. / 6)},
	{"1/5 bend", unit.Degrees(360. / 5)},
	{"1/4 bend", unit.Degrees(360. / 4)},
}

// Tolerances of a sketch drawn by hand: a turn within fitsWithin of a bend is
// that bend, and one under straightWithin is straight.
var (
	fitsWithin     = unit.Degrees(7.5)
	straightWithin = unit.Degrees(5) - slack
)

// NearestBend returns the turn of the trade's bend that is nearest to a drawn
// turn, 0 where none is within 7.5 degrees of it or it is straight (under 5
// degrees). Halfway between two bends it is the sharper one, which spends more
// of a hose's allowance.
func NearestBend(turn unit.Angle) unit.Angle {
	if turn < straightWithin {
		return 0
	}
	best := unit.Angle(0)
	off := fitsWithin
	for _, b := range bends {
		if d := unit.Angle(math.Abs(float64(turn - b.turn))); d <= off+slack {
			best, off = b.turn, d
		}
	}
	return best
}

// Corners returns the turns of pipe p's traced line, from From to To. The
// wobble of a hand-traced line is no turn: deflections under 5 degrees are
// added up with their signs, and a corner stands where the sum reaches 5
// degrees. So a long gentle curve keeps its turn.
func (g *Graph) Corners(p int) []Corner {
	// Read the way it flows, so that it does not matter from which end the
	// pipe was drawn.
	line := g.Polyline(p)
	total := unit.Length(0)
	for i := 1; i < len(line); i++ {
		total += line[i-1].Distance(line[i])
	}
	if len(line) < 3 || total == 0 || !finite(total) {
		return nil
	}
	corners := turns(line)
	// A length as measured, or a rise, stretches the line evenly.
	stretch := g.length[p] / total
	back := g.reversed(p)
	for i := range corners {
		c := &corners[i]
		if back {
			c.At = total - c.At
			c.Side = map[string]string{"left": "right", "right": "left"}[c.Side]
		}
		c.At *= stretch
	}
	if back {
		slices.Reverse(corners)
	}
	return corners
}

// turns reads the corners of a line in its own direction and on the plan.
func turns(line []Point) []Corner {
	var (
		corners []Corner
		way     unit.Length // to the start of the present stretch
		slight  unit.Angle  // small deflections not yet told, left positive
		before  heading
		known   bool
	)
	for i := 1; i < len(line); i++ {
		h, ok := along(line[i-1], line[i])
		if !ok {
			continue
		}
		if known {
			bend := before.left(h)
			if -straightWithin < bend && bend < straightWithin {
				slight += bend
				bend = 0
				if slight <= -straightWithin || slight >= straightWithin {
					bend, slight = slight, 0
				}
			}
			if bend != 0 {
				corners = append(corners, corner(way, bend))
			}
		}
		before, known = h, true
		way += line[i-1].Distance(line[i])
	}
	return corners
}

// corner is a corner that bends to the left, or to the right where bend is
// negative.
func corner(at unit.Length, bend unit.Angle) Corner {
	c := Corner{At: at, Angle: bend, Side: "left"}
	if bend < 0 {
		c.Angle, c.Side = -bend, "right"
	}
	c.Fitting = NearestBend(c.Angle)
	return c
}
