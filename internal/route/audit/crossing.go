package audit

import (
	"linemap/internal/network"
	"linemap/internal/unit"
)

// crossing is what a hose meets at a node between two pipes of its way.
type crossing struct {
	open bool
	why  string // not open
	// turn is the whole angle spent, sharpest the largest single turn in it.
	turn, sharpest unit.Angle
	branch         bool // an upstream turn into a branch
	// side is the side as drawn: "left", "right", "up", "down" or "".
	side string
	// bare is a node that is no turn and no junction or change of size: it
	// need not be told.
	bare bool
}

func closed(why string) crossing { return crossing{why: why} }

// cross judges the node between two pipes that follow each other along the
// flow or against it.
func (g *ground) cross(from, to int, down bool) crossing {
	at := g.end(from, down)
	if at < 0 || at != g.begin(to, down) {
		return closed("the pipes do not meet")
	}
	n := &g.net.Nodes[at]
	switch n.Kind {
	case network.KindFixture, network.KindOutlet, network.KindCap:
		return closed("the drain ends")
	case network.KindTrap, network.KindBackwater:
		if !n.LetsThrough {
			return closed("it lets no hose through")
		}
		// A trap is made of quarter bends (common practice).
		return crossing{open: true, turn: n.Turn, sharpest: min(n.Turn, unit.QuarterBends(1))}
	case network.KindBend:
		return g.bend(n, from, to, down)
	case network.KindJunction:
		if j, ok := g.junctionAt(at); ok {
			return g.junction(j, from, to, down)
		}
	}
	return g.asDrawn(at, from, to, down)
}

// bend turns by its own figure, else as drawn.
func (g *ground) bend(n *network.Node, from, to int, down bool) crossing {
	drawn, side := g.turnDrawn(from, to, down)
	c := crossing{open: true, turn: n.Turn, side: side}
	if c.turn == 0 {
		c.turn = fittingFor(drawn)
	}
	if c.turn == 0 {
		c.side, c.bare = "", true
	}
	c.sharpest = c.turn
	return c
}

// fittingFor is what a drawn turn means where a fitting makes it.
func fittingFor(drawn unit.Angle) unit.Angle {
	if drawn < straightUnder {
		return 0
	}
	return counted(drawn)
}

// Where only the drawing tells (a manhole, an access, a reducer, a junction
// with unclear legs), up to inline is straight through; with several inflows a
// turn over aside goes into a branch.
var (
	inline = unit.Degrees(11.25) + dust
	aside  = unit.Degrees(22.5) + dust
)

func (g *ground) asDrawn(node, from, to int, down bool) crossing {
	turn, side := g.turnDrawn(from, to, down)
	kind := g.net.Nodes[node].Kind
	if kind == network.KindJunction {
		turn = fittingFor(turn)
	}
	c := crossing{open: true}
	several := len(g.graph.Above[node]) > 1
	if turn > inline {
		c.turn, c.sharpest, c.side = turn, turn, side
	}
	if several && turn > aside {
		c.branch = !down
	}
	c.bare = c.turn == 0 && kind != network.KindJunction && kind != network.KindReducer
	return c
}
