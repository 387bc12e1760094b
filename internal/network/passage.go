package network

import (
	"math"

	"linemap/internal/unit"
)

// What a hose may find in its way.
const (
	whyTrap      = "trap"
	whyBackwater = "backwater valve"
	whyDoubles   = "doubles back"
	whyEnd       = "end"
)

// Where the drawing decides, a deflection up to inlineWithin is no turn, and
// one of more than branchOver out of several inflows is a turn into a branch.
var (
	inlineWithin = unit.Degrees(11.25) + slack
	branchOver   = unit.Degrees(22.5) + slack
)

// Passage returns what a hose meets when it crosses from pipe from into pipe
// to. Whether it goes upstream or downstream is read off the flow; where two
// pipes both flow into the node between them, or both out of it, the hose
// would double back. Pipes that share no node are closed: "end".
func (g *Graph) Passage(from, to int) Passage {
	node, upstream, why := g.between(from, to)
	if why != "" {
		what := "no way"
		if node >= 0 {
			what = g.Net.Nodes[node].called()
		}
		return Passage{Why: why, What: what}
	}
	n := &g.Net.Nodes[node]
	switch n.Kind {
	case KindFixture, KindOutlet, KindCap:
		return Passage{Why: whyEnd, What: n.called()}
	case KindTrap:
		return g.obstacle(n, whyTrap)
	case KindBackwater:
		return g.obstacle(n, whyBackwater)
	case KindBend:
		return g.bend(n, from, to, upstream)
	case KindJunction:
		if f, ok := g.fitting(node); ok {
			return g.junction(n, f, from, to, upstream)
		}
	}
	return g.asDrawn(node, from, to, upstream)
}

// between finds the node that a hose crosses from one pipe into the other and
// the way it goes, or why it cannot.
func (g *Graph) between(from, to int) (node int, upstream bool, why string) {
	switch {
	case from < 0 || to < 0 || from >= len(g.Up) || to >= len(g.Up) || g.Up[from] < 0 || g.Up[to] < 0:
		return -1, false, whyEnd
	case from == to:
		return g.Up[from], false, whyDoubles
	case g.Next[from] == to:
		return g.Down[from], false, ""
	case g.Up[from] == g.Down[to]:
		return g.Up[from], true, ""
	case g.Down[from] == g.Up[to]:
		return g.Down[from], false, ""
	case g.Down[from] == g.Down[to]:
		return g.Down[from], false, whyDoubles
	case g.Up[from] == g.Up[to]:
		return g.Up[from], false, whyDoubles
	}
	return -1, false, whyEnd
}

// obstacle is a trap or a valve. A hose that is let through a trap spends the
// node's turn, in no turn sharper than a quarter bend, for a trap is made of
// quarter bends (common practice).
func (g *Graph) obstacle(n *Node, why string) Passage {
	if !n.LetsThrough {
		return Passage{Why: why, What: n.called()}
	}
	return Passage{
		Open: true, What: n.called() + ", let through",
		Turn: n.Turn, Sharpest: min(n.Turn, unit.QuarterBends(1)),
	}
}

// bend turns by its own figure, else by the bend nearest to the drawing.
func (g *Graph) bend(n *Node, from, to int, upstream bool) Passage {
	drawn, side, _ := g.deflection(from, to, upstream)
	turn := n.Turn
	if turn == 0 {
		turn = fitted(drawn)
	}
	if turn == 0 {
		return Passage{Open: true, What: "straight"}
	}
	return Passage{Open: true, Turn: turn, Sharpest: turn, What: BendName(turn), Side: side}
}

// fitted is the turn of the nearest bend, the drawn turn where there is none,
// and 0 for straight.
func fitted(drawn unit.Angle) unit.Angle {
	if drawn < straightWithin {
		return 0
	}
	if b := NearestBend(drawn); b > 0 {
		return b
	}
	return drawn
}

// asDrawn is a node where the drawing decides: a manhole, another access, a
// reducer, or a junction whose branches are not known.
func (g *Graph) asDrawn(node, from, to int, upstream bool) Passage {
	n := &g.Net.Nodes[node]
	drawn, side, _ := g.deflection(from, to, upstream)
	if n.Kind == KindJunction {
		drawn = fitted(drawn)
	}
	p := Passage{Open: true, What: n.called()}
	if n.Kind == KindReducer {
		p.What = g.reducer(from, to)
	}
	switch {
	case drawn > inlineWithin:
		p.Turn, p.Sharpest, p.Side = drawn, drawn, side
		p.Branch = upstream && drawn > branchOver && len(g.Above[node]) > 1
		if p.Branch {
			p.What += ", into the branch"
		} else {
			p.What += ", " + BendName(drawn)
		}
	case n.Kind != KindReducer:
		p.What += ", straight through"
	}
	return p
}

// reducer names the sizes as the nozzle meets them.
func (g *Graph) reducer(from, to int) string {
	a, b := g.Net.Pipes[from].Size, g.Net.Pipes[to].Size
	return "reducer " + a.In(unit.US) + " to " + b.In(unit.US)
}

// Entry returns what a hose meets when it enters pipe p through the access at
// a node: the turn from the riser into the pipe. Whether the access faces that
// way and is in service is not looked at. A node that is no access, or does not
// end pipe p, is closed: "end".
func (g *Graph) Entry(node, p int) Passage {
	if node < 0 || node >= len(g.Net.Nodes) || p < 0 || p >= len(g.Up) ||
		g.Up[p] != node && g.Down[p] != node {
		return Passage{Why: whyEnd, What: "no way"}
	}
	n := &g.Net.Nodes[node]
	if n.Kind != KindAccess || n.Access == nil {
		return Passage{Why: whyEnd, What: n.called()}
	}
	turn := unit.Angle(math.Abs(float64(n.Access.Entry)))
	return Passage{Open: true, Turn: turn, Sharpest: turn, What: n.called()}
}
