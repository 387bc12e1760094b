package network

import (
	"math"

	"linemap/internal/unit"
)

// heading is a unit vector: east, north, up.
type heading struct{ x, y, z float64 }

// along is the heading on the plan from one point to another, false where they
// coincide.
func along(from, to Point) (heading, bool) {
	d := from.Distance(to)
	if d == 0 || !finite(d) {
		return heading{}, false
	}
	return heading{x: float64((to.X - from.X) / d), y: float64((to.Y - from.Y) / d)}, true
}

// turn is the angle between two headings, 0 straight on.
func (h heading) turn(next heading) unit.Angle {
	cx := h.y*next.z - h.z*next.y
	cy := h.z*next.x - h.x*next.z
	cz := h.x*next.y - h.y*next.x
	cross := math.Sqrt(cx*cx + cy*cy + cz*cz)
	return unit.Angle(math.Atan2(cross, h.x*next.x+h.y*next.y+h.z*next.z))
}

// left is the turn on the plan, positive to the left.
func (h heading) left(next heading) unit.Angle {
	return unit.Angle(math.Atan2(h.x*next.y-h.y*next.x, h.x*next.x+h.y*next.y))
}

func (h heading) back() heading { return heading{-h.x, -h.y, -h.z} }

// slack is what every threshold between turns gives away, in radians. A corner
// drawn exactly on one stays on one side of it wherever the sketch lies on the
// plan: within 1 km of the origin, coordinates round by a ten-thousandth of a
// nanometre, which turns a straight of 1 mm by a tenth of this.
const slack unit.Angle = 1e-9

// steep is the climb from which a pipe counts as a riser: its turns are up and
// down, not left and right.
var steep = unit.Degrees(45) - slack

// away is the heading in which pipe p leaves a node at its end; false where
// the sketch does not tell, as for a pipe of no length. The slight fall of an
// ordinary drain is left out, a steep pipe climbs.
func (g *Graph) away(p int, upstream bool) (heading, bool) {
	climb := g.Climb(p)
	if !upstream {
		climb = -climb
	}
	if climb >= steep || climb <= -steep {
		return heading{z: math.Copysign(1, float64(climb))}, true
	}
	// The stretch next to the node: from the downstream end going upstream.
	last := len(g.Net.Pipes[p].Via) + 1
	at, step := 0, 1
	if upstream != g.reversed(p) {
		at, step = last, -1
	}
	node, ok := g.point(p, at)
	for i := at + step; ok && i >= 0 && i <= last; i += step {
		if to, _ := g.point(p, i); to != node {
			return along(node, to)
		}
	}
	return heading{}, false
}

// deflection is the turn as drawn from pipe p into pipe q at the node between
// them, going upstream or downstream, and the side that it turns to; false
// where the sketch does not tell.
func (g *Graph) deflection(p, q int, upstream bool) (unit.Angle, string, bool) {
	back, okIn := g.away(p, !upstream)
	out, okOut := g.away(q, upstream)
	if !okIn || !okOut {
		return 0, "", false
	}
	in := back.back()
	turn := in.turn(out)
	switch z := in.z + out.z; {
	case turn < straightWithin:
		return turn, "", true
	case z > 0:
		return turn, "up", true
	case z < 0:
		return turn, "down", true
	case in.left(out) < 0:
		return turn, "right", true
	}
	return turn, "left", true
}
