package network

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"linemap/internal/unit"
)

// wyeUnder is the turn into the run from which a branch is no more a wye's: half
// way between the 45 degrees of a wye and the 90 of a tee or a combination.
var wyeUnder = unit.Degrees(67.5) - slack

// Suit returns the junction that joins the three or four pipes at a node as
// they are drawn and as the water goes.
//
// The leg that flows out is of the run, for a branch sweeps with the flow; so is
// the leg that is most nearly straight to it, and the largest of such as are
// equally straight. A branch that turns less than 67.5 degrees into the run is
// that of a wye; a sharper one is that of a sanitary tee where it drops into a
// stack, and else of a combination: a sanitary tee may turn the flow from level
// to upright alone (table 706.3 of the IPC, seen as Chicago 18-29-706.3). Two
// branches are those of a double wye or, square, of a cross.
//
// It errs where no fitting joins the pipes so.
func (g *Graph) Suit(node int) (Junction, error) {
	n := &g.Net.Nodes[node]
	legs := slices.Concat(g.Below[node], g.Above[node])
	if len(legs) != 3 && len(legs) != 4 {
		return Junction{}, fmt.Errorf("%s: %s meet there, a fitting joins 3 or 4", n.Name(), unit.Count(len(legs), "pipe"))
	}
	down, branches := g.run(node, legs)
	slices.SortFunc(branches, func(p, q int) int { return cmp.Compare(g.Net.Pipes[p].ID, g.Net.Pipes[q].ID) })
	j := Junction{Kind: Wye}
	square := 0
	for _, p := range branches {
		j.Branches = append(j.Branches, g.Net.Pipes[p].ID)
		if turn := g.turnAt(node, p, down); !(turn < wyeUnder) {
			square++
		}
	}
	switch {
	case len(branches) == 1 && square == 0:
	case len(branches) == 1 && g.drops(down):
		j.Kind = SanitaryTee
	case len(branches) == 1:
		j.Kind = Combination
	case g.together(node, branches, down):
		return Junction{}, fmt.Errorf("%s: %s and %s come in on the same side; the branches of one fitting lie on both. Move one of them along the run",
			n.Name(), g.PipeName(branches[0]), g.PipeName(branches[1]))
	case square == 0:
		j.Kind = DoubleWye
	case square == 2:
		j.Kind = Cross
	default:
		return Junction{}, fmt.Errorf("%s: %s turns %s degrees into the run and %s turns %s; the branches of one fitting turn alike. Move one of them along the run",
			n.Name(), g.PipeName(branches[0]), degrees(g.turnAt(node, branches[0], down)),
			g.PipeName(branches[1]), degrees(g.turnAt(node, branches[1], down)))
	}
	return j, nil
}

// Sound reports whether the junction at a node joins the pipes that meet there:
// the right number of them, its branches among them, its run with the flow.
func (g *Graph) Sound(node int) bool {
	_, ok := g.fitting(node)
	return ok
}

// MostPipes is the number of pipes that can meet at the node, 0 for no limit.
func (n *Node) MostPipes() int {
	_, most := endsOf(n)
	return most
}

// run picks the legs of a node that are the run of its fitting, and returns the
// one of them that flows out and the legs that are left.
func (g *Graph) run(node int, legs []int) (down int, branches []int) {
	down = g.way[node]
	if down < 0 {
		down = legs[0] // one that flows out, where there is one
	}
	rest := slices.DeleteFunc(slices.Clone(legs), func(p int) bool { return p == down })
	straightest := unit.Angle(math.Inf(1))
	for _, p := range rest {
		straightest = min(straightest, g.turnAt(node, p, down))
	}
	up := slices.MinFunc(rest, func(p, q int) int {
		bentP, bentQ := g.turnAt(node, p, down), g.turnAt(node, q, down)
		straightP, straightQ := bentP <= straightest+inlineWithin, bentQ <= straightest+inlineWithin
		if straightP && straightQ {
			if c := cmp.Compare(g.Net.Pipes[q].Size, g.Net.Pipes[p].Size); c != 0 {
				return c
			}
		}
		return cmp.Or(cmp.Compare(bentP, bentQ), cmp.Compare(g.Net.Pipes[p].ID, g.Net.Pipes[q].ID))
	})
	return down, slices.DeleteFunc(rest, func(p int) bool { return p == up })
}

// turnAt is the turn as drawn of what comes to a node by pipe p and leaves it by
// pipe q, a right angle where the sketch does not tell.
func (g *Graph) turnAt(node, p, q int) unit.Angle {
	in, okIn := g.away(p, g.Down[p] == node)
	out, okOut := g.away(q, g.Down[q] == node)
	if !okIn || !okOut {
		return unit.QuarterBends(1)
	}
	return in.back().turn(out)
}

// drops reports whether pipe p falls like a stack.
func (g *Graph) drops(p int) bool { return g.Climb(p) >= steep }

// together reports whether two branches come in on one side of a run: on the
// plan where the run lies, and within a right angle's half of each other where
// it is upright.
func (g *Graph) together(node int, branches []int, down int) bool {
	a, okA := g.away(branches[0], g.Down[branches[0]] == node)
	b, okB := g.away(branches[1], g.Down[branches[1]] == node)
	out, ok := g.away(down, g.Down[down] == node)
	if !ok || !okA || !okB {
		return false
	}
	if out.z != 0 || a.z != 0 || b.z != 0 {
		return a.turn(b) < steep
	}
	return (out.left(a) < 0) == (out.left(b) < 0)
}
