package audit

import (
	"slices"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// junction is a fitting in the flow: the branches sweep into sweep, one leg of
// its run; back is the other.
type junction struct {
	kind        network.JunctionKind
	sweep, back int
}

// junctionAt reads a junction; ok is false where its legs contradict the
// fitting, and then only the drawing tells.
func (g *ground) junctionAt(node int) (j junction, ok bool) {
	f := g.net.Nodes[node].Junction
	if f == nil {
		return j, false
	}
	want := map[network.JunctionKind]int{
		network.Wye: 1, network.SanitaryTee: 1, network.Combination: 1,
		network.DoubleWye: 2, network.Cross: 2,
	}[f.Kind]
	legs := len(g.graph.Above[node]) + len(g.graph.Below[node])
	if want == 0 || len(f.Branches) != want || legs != want+2 {
		return j, false
	}
	var out, in []int
	for _, p := range g.graph.Below[node] {
		if !slices.Contains(f.Branches, g.net.Pipes[p].ID) {
			out = append(out, p)
		}
	}
	for _, p := range g.graph.Above[node] {
		if !slices.Contains(f.Branches, g.net.Pipes[p].ID) {
			in = append(in, p)
		}
	}
	j.kind = f.Kind
	switch {
	case len(out) == 1 && len(in) == 1:
		j.sweep, j.back = out[0], in[0]
	case len(out) == 2 && len(in) == 0 && out[0] != out[1]:
		// Flow comes in by a branch and divides; the sweep follows the way to
		// the outlet.
		j.sweep, j.back = out[0], out[1]
		if g.drainsBy(node) == j.back {
			j.sweep, j.back = j.back, j.sweep
		}
	default:
		return j, false
	}
	return j, j.sweep != j.back
}

// drainsBy is the pipe by which a node's inflow goes on, -1 for none.
func (g *ground) drainsBy(node int) int {
	for _, p := range g.graph.Above[node] {
		return g.graph.Next[p]
	}
	return -1
}

// junction goes straight along the run, or between a branch and the leg that
// it sweeps into; any other way doubles back against the sweep.
func (g *ground) junction(j junction, from, to int, down bool) crossing {
	onRun := func(p int) bool { return p == j.sweep || p == j.back }
	switch {
	case onRun(from) && onRun(to):
		return crossing{open: true}
	case from == j.back || to == j.back || !onRun(from) && !onRun(to):
		return closed("it would double back against the sweep")
	}
	c := crossing{open: true, branch: !down && !onRun(to)}
	switch j.kind {
	case network.Wye, network.DoubleWye:
		c.turn, c.sharpest = unit.Degrees(45), unit.Degrees(45)
	case network.Combination: // a wye and a 1/8 bend
		c.turn, c.sharpest = unit.Degrees(90), unit.Degrees(45)
	default:
		c.turn, c.sharpest = unit.Degrees(90), unit.Degrees(90)
	}
	_, c.side = g.turnDrawn(from, to, down)
	return c
}
