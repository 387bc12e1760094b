package sketch

import (
	"math"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// pen remembers how the sketch was drawn at one node: where it stands, which
// way its run goes and how many legs are drawn.
type pen struct {
	placed bool
	right  bool // a bend turns right
	// along is the way the next straight leg leaves, and up the way from which
	// branches turn off, in radians from east.
	along, up float64

	straight int // straight legs drawn on from here
	branches int // branch legs drawn
}

// apart is the distance between chains that share no node.
const apart = 100

// start places the first node of a chain that is joined to nothing yet.
func (p *parser) start(node int) {
	p.net.Nodes[node].At = network.Point{Y: unit.Metres(float64(-apart * p.lone))}
	p.pens[node].placed = true
	p.lone++
}

// draw places node to at the far end of a pipe that leaves node from.
func (p *parser) draw(from, to int, l link) {
	way := p.leave(from, l.atFrom)
	if p.pens[to].placed {
		return
	}
	there := p.net.Nodes[from].At
	if l.pipe.Class != network.Stack {
		there.X += *l.pipe.Length * unit.Length(math.Cos(way))
		there.Y += *l.pipe.Length * unit.Length(math.Sin(way))
	}
	p.net.Nodes[to].At = there
	p.pens[to].placed = true
	p.arrive(to, way, l.atTo)
}

// leave gives the way in which the next leg leaves a node.
func (p *parser) leave(node int, branch bool) float64 {
	pen := &p.pens[node]
	if branch {
		pen.branches++
		return pen.up + p.deflection(node)*side(pen.branches)
	}
	pen.straight++
	switch {
	case pen.straight == 1:
		return pen.along
	case p.net.Nodes[node].Junction != nil:
		return pen.along + math.Pi // the other leg of the run
	default:
		// A further leg of a manhole or the like comes in from the side.
		return pen.along + math.Pi/2*side(pen.straight-1)
	}
}

// arrive sets how a node's next legs leave, having come to it along way.
func (p *parser) arrive(node int, way float64, branch bool) {
	pen := &p.pens[node]
	pen.along, pen.up = way, way
	switch {
	case branch:
		// Flowing in by the branch, the run goes on with the sweep.
		pen.branches++
		pen.along = way - p.deflection(node)
		pen.up = pen.along + math.Pi
	case p.net.Nodes[node].Kind == network.KindBend:
		turn := p.net.Nodes[node].Turn.Radians()
		if turn == 0 {
			turn = math.Pi / 2
		}
		if pen.right {
			turn = -turn
		}
		pen.along = way + turn
	}
}

// deflection is the angle between the run of a junction and its branch.
func (p *parser) deflection(node int) float64 {
	switch p.net.Nodes[node].Junction.Kind {
	case network.Wye, network.DoubleWye:
		return math.Pi / 4
	default:
		return math.Pi / 2
	}
}

// side is +1 (left) for odd legs and -1 (right) for even ones.
func side(leg int) float64 {
	if leg%2 == 1 {
		return 1
	}
	return -1
}
