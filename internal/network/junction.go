package network

import (
	"slices"

	"linemap/internal/unit"
)

// branchTurns gives the whole turn between a junction's branch and its
// downstream leg, and the sharpest single turn in it: fractions of a circle by
// the fitting's make (common practice).
var branchTurns = map[JunctionKind]struct{ turn, sharpest unit.Angle }{
	Wye:         {unit.Degrees(45), unit.Degrees(45)},
	DoubleWye:   {unit.Degrees(45), unit.Degrees(45)},
	SanitaryTee: {unit.Degrees(90), unit.Degrees(90)},
	Cross:       {unit.Degrees(90), unit.Degrees(90)},
	Combination: {unit.Degrees(90), unit.Degrees(45)}, // a wye and an 1/8 bend
}

// branchesOf is the number of branches that each fitting has.
var branchesOf = map[JunctionKind]int{Wye: 1, SanitaryTee: 1, Combination: 1, DoubleWye: 2, Cross: 2}

// fit is how a junction stands in the flow: the leg that its branches sweep
// into, the other leg of the run and the branches.
type fit struct {
	down, up int // pipe indexes
	branches []PipeID
	kind     JunctionKind
}

// branch reports whether a pipe is a branch of the fitting.
func (f fit) branch(p int) bool { return p != f.down && p != f.up }

// fitting reads how the junction at a node stands in the flow. It is false
// where the sketch contradicts itself: legs or branches of a wrong number, a
// branch that is no leg, or a run through which nothing flows out.
func (g *Graph) fitting(node int) (fit, bool) {
	j := g.Net.Nodes[node].Junction
	if j == nil {
		return fit{}, false
	}
	f := fit{down: -1, up: -1, kind: j.Kind, branches: j.Branches}
	want, known := branchesOf[j.Kind]
	above, below := g.Above[node], g.Below[node]
	if !known || len(j.Branches) != want || len(above)+len(below) != want+2 {
		return f, false
	}
	run := 0
	for _, legs := range [2][]int{below, above} {
		for _, p := range legs {
			if slices.Contains(f.branches, g.Net.Pipes[p].ID) {
				continue
			}
			run++
			if f.down < 0 {
				f.down = p
			} else {
				f.up = p
			}
		}
	}
	if run != 2 || f.down == f.up || g.Up[f.down] != node {
		return f, false
	}
	// Where both legs of the run flow out, the sweep follows the way to the
	// outlet.
	if g.way[node] == f.up {
		f.down, f.up = f.up, f.down
	}
	return f, true
}

// junction is the way through a fitting: straight along the run, or between a
// branch and the leg it sweeps into. Any other way doubles back.
func (g *Graph) junction(n *Node, f fit, from, to int, upstream bool) Passage {
	name := n.Word()
	switch {
	case !f.branch(from) && !f.branch(to):
		return Passage{Open: true, What: name + ", straight through"}
	case f.branch(from) == f.branch(to), from == f.up, to == f.up:
		return Passage{Why: whyDoubles, What: n.called()}
	}
	_, side, _ := g.deflection(from, to, upstream)
	t := branchTurns[f.kind]
	p := Passage{Open: true, Turn: t.turn, Sharpest: t.sharpest, Side: side}
	if f.branch(to) {
		p.Branch = upstream
		p.What = name + ", into the branch"
	} else {
		p.What = name + ", out of the branch"
	}
	return p
}
