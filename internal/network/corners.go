package network

import (
	"math"

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
	straightWithin = unit.Degrees(5)
)

// NearestBend returns the turn of the trade's bend that is nearest to a drawn
// turn, 0 where none is within 7.5 degrees of it or it is straight (under 5
// degrees).
func NearestBend(turn unit.Angle) unit.Angle {
	if turn < straightWithin {
		return 0
	}
	best := unit.Angle(0)
	off := fitsWithin
	for _, b := range bends {
		if d := unit.Angle(math.Abs(float64(turn - b.turn))); d <= off {
			best, off = b.turn, d
		}
	}
	return best
}

// Corners returns the turns of pipe p's traced line, from From to To. The
// wobble of a hand-traced line is no turn: deflections are added up with their
// signs, and a corner stands where the sum reaches 5 degrees. So a long gentle
// curve keeps its turn.
func (g *Graph) Corners(p int) []Corner {
	line := g.trace(p)
	if len(line) < 3 {
		return nil
	}
	var (
		corners []Corner
		way     unit.Length // on the plan, to the start of the present stretch
		total   unit.Length
		bent    unit.Angle // left positive, not yet told
		before  heading
		known   bool
	)
	for i := 1; i < len(line); i++ {
		total += distance(line[i-1], line[i])
	}
	if total == 0 || !finite(total) {
		return nil
	}
	// A length as measured, or a rise, stretches the line evenly.
	stretch := g.length[p] / total
	for i := 1; i < len(line); i++ {
		h, ok := along(line[i-1], line[i])
		if !ok {
			continue
		}
		if known {
			bent += before.left(h)
			if turn := unit.Angle(math.Abs(float64(bent))); turn >= straightWithin {
				c := Corner{At: way * stretch, Angle: turn, Fitting: NearestBend(turn), Side: "right"}
				if bent > 0 {
					c.Side = "left"
				}
				corners = append(corners, c)
				bent = 0
			}
		}
		before, known = h, true
		way += distance(line[i-1], line[i])
	}
	return corners
}
