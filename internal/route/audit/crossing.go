package audit

import (
	"math"

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
	inline = unit.Degrees(11.25)
	aside  = unit.Degrees(22.5)
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
		if !isBranch(f, g.net.Pipes[p].ID) {
			out = append(out, p)
		}
	}
	for _, p := range g.graph.Above[node] {
		if !isBranch(f, g.net.Pipes[p].ID) {
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

func isBranch(f *network.Junction, id network.PipeID) bool {
	for _, b := range f.Branches {
		if b == id {
			return true
		}
	}
	return false
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

// vector is a direction: east, north, up.
type vector struct{ x, y, z float64 }

func (v vector) times(k float64) vector { return vector{k * v.x, k * v.y, k * v.z} }

func (v vector) dot(w vector) float64 { return v.x*w.x + v.y*w.y + v.z*w.z }

func (v vector) cross(w vector) vector {
	return vector{v.y*w.z - v.z*w.y, v.z*w.x - v.x*w.z, v.x*w.y - v.y*w.x}
}

// leaving is the direction in which a pipe leaves a node at one of its ends.
// Steep pipe (45 degrees and more) counts as plumb, other pipe as level; ok is
// false where nothing is drawn.
func (g *ground) leaving(pipe int, fromUpperEnd bool) (v vector, ok bool) {
	rise := g.climb(pipe, g.length(pipe))
	if fromUpperEnd {
		rise = -rise
	}
	if math.Abs(float64(rise)) >= math.Pi/4 {
		return vector{z: math.Copysign(1, float64(rise))}, true
	}
	line := g.drawn(pipe)
	if !fromUpperEnd {
		line = reversed(line)
	}
	line = withoutRepeats(line)
	if len(line) < 2 {
		return vector{}, false
	}
	d := float64(straight(line[0], line[1]))
	return vector{x: float64(line[1].X-line[0].X) / d, y: float64(line[1].Y-line[0].Y) / d}, true
}

// turnDrawn is the turn as drawn between two pipes, and its side; no turn where
// the sketch does not tell.
func (g *ground) turnDrawn(from, to int, down bool) (unit.Angle, string) {
	back, okIn := g.leaving(from, !down)
	out, okOut := g.leaving(to, down)
	if !okIn || !okOut {
		return 0, ""
	}
	in := back.times(-1)
	turn := in.cross(out)
	angle := unit.Angle(math.Atan2(math.Sqrt(turn.dot(turn)), in.dot(out)))
	switch up := in.z + out.z; {
	case angle < straightUnder:
		return angle, ""
	case up > 0:
		return angle, "up"
	case up < 0:
		return angle, "down"
	case turn.z < 0:
		return angle, "right"
	}
	return angle, "left"
}
