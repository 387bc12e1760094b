package sample

import "linemap/internal/network"

// line is a straight line of pipe with what it takes in on its way up.
type line struct {
	pipe network.Pipe
	taps []tap
	// rest is the length past the last tap, in feet, to the end.
	rest   float64
	end    network.Node
	series string // that names the end
	// tower, where set, stands at the end, which is a bend then.
	tower *tower
}

// tap is a node in a line: a fitting that takes in another line, or a cleanout.
type tap struct {
	gap    float64 // from the tap below, in feet
	node   network.Node
	series string
	line   *line
	left   bool    // the side of the line taken in, looking up the run
	lead   float64 // of a wye: the length to the corner by which its line turns square
}

// tower is a stack with one floor above, vented through the roof.
type tower struct {
	pipe  network.Pipe
	above *line
}

// pipes counts the pipes of a line and of all it takes in.
func (l *line) pipes() int {
	n := len(l.taps) + 1
	for _, t := range l.taps {
		if t.line != nil {
			n += t.line.pipes()
		}
	}
	if l.tower != nil {
		n += 2 + l.tower.above.pipes()
	}
	return n
}

// The heights of a stack from the drain to the floor above, and on to the roof.
const (
	storey   = 13
	roofRise = 14
)

// draw draws a line from a node, which stands at a place, up a way. The corners
// are those of its first pipe, the last of them the place where the way begins.
func (d *draft) draw(l *line, down int, at, way xy, corners ...xy) int {
	for _, t := range l.taps {
		at = at.add(way, t.gap)
		down = d.up(down, l.pipe, t.node, t.series, append(corners, at)...)
		corners = nil
		if t.line != nil {
			d.branch(t, down, at, way)
		}
	}
	at = at.add(way, l.rest)
	down = d.up(down, l.pipe, l.end, l.series, append(corners, at)...)
	if l.tower != nil {
		d.raise(l.tower, down, at, way)
	}
	return down
}

func (d *draft) branch(t tap, node int, at, way xy) {
	side := way.right()
	if t.left {
		side = way.left()
	}
	pipe := len(d.net.Pipes)
	if t.node.Junction.Kind == network.Wye {
		corner := at.add(way.half(side), t.lead)
		d.draw(t.line, node, corner, side, corner)
	} else {
		d.draw(t.line, node, at, side)
	}
	d.join(node, pipe)
}

func (d *draft) raise(t *tower, base int, at, way xy) {
	tee := junction(network.SanitaryTee)
	tee.Level = upstairs
	node := d.climb(base, t.pipe, tee, "Y", storey, at)
	vent := access(network.RoofVent, t.pipe.Size)
	vent.Level = roof
	d.climb(node, t.pipe, vent, "RV", roofRise, at)
	pipe := len(d.net.Pipes)
	d.draw(t.above, node, at, way)
	d.join(node, pipe)
}
