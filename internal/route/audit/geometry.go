package audit

import (
	"math"
	"slices"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// named looks up a node by its name; -1 for none.
func (g *ground) named(id network.NodeID) int {
	if i, ok := g.node[id]; ok {
		return i
	}
	return -1
}

// fromIsUp tells whether a pipe flows as it was drawn.
func (g *ground) fromIsUp(pipe int) bool {
	return g.graph.Up[pipe] < 0 || g.graph.Up[pipe] == g.named(g.net.Pipes[pipe].From)
}

// drawn is the line of a pipe on the plan, from its upstream end.
func (g *ground) drawn(pipe int) []network.Point {
	p := &g.net.Pipes[pipe]
	var line []network.Point
	if from := g.named(p.From); from >= 0 {
		line = append(line, g.net.Nodes[from].At)
	}
	line = append(line, p.Via...)
	if to := g.named(p.To); to >= 0 {
		line = append(line, g.net.Nodes[to].At)
	}
	if !g.fromIsUp(pipe) {
		slices.Reverse(line)
	}
	return line
}

func reversed(line []network.Point) []network.Point {
	line = slices.Clone(line)
	slices.Reverse(line)
	return line
}

// withoutRepeats drops points that lie on the one before.
func withoutRepeats(line []network.Point) []network.Point {
	return slices.CompactFunc(slices.Clone(line), func(a, b network.Point) bool { return straight(a, b) == 0 })
}

// plan is the length of a line on the plan.
func plan(line []network.Point) unit.Length {
	var sum unit.Length
	for i := 1; i < len(line); i++ {
		sum += straight(line[i-1], line[i])
	}
	return sum
}

// height is how high a node lies by its invert, else by its level; ok is false
// where neither is known.
func (g *ground) height(node int) (unit.Length, bool) {
	n := &g.net.Nodes[node]
	if n.Invert != nil {
		return *n.Invert, true
	}
	for _, l := range g.net.Levels {
		if l.Name == n.Level {
			return l.Elevation, true
		}
	}
	return 0, false
}

// drop is how much lower a pipe's downstream end lies, where the sketch tells:
// by two inverts, or by ends on different levels.
func (g *ground) drop(pipe int) (by unit.Length, inverts, known bool) {
	up, down := g.graph.Up[pipe], g.graph.Down[pipe]
	if up < 0 || down < 0 {
		return 0, false, false
	}
	a, b := &g.net.Nodes[up], &g.net.Nodes[down]
	inverts = a.Invert != nil && b.Invert != nil
	if !inverts && a.Level == b.Level {
		return 0, false, false
	}
	high, okHigh := g.height(up)
	low, okLow := g.height(down)
	if by = high - low; !okHigh || !okLow || !finite(float64(by)) {
		return 0, inverts, false
	}
	return by, inverts, true
}

// length is a pipe's length: as measured, else as drawn with its drop.
func (g *ground) length(pipe int) unit.Length {
	if l := g.net.Pipes[pipe].Length; l != nil && *l >= 0 && finite(float64(*l)) {
		return *l
	}
	by, _, _ := g.drop(pipe)
	if l := math.Hypot(float64(plan(g.drawn(pipe))), float64(by)); finite(l) {
		return unit.Length(l)
	}
	return 0
}

// climb is the angle above level at which a hose climbs a pipe going upstream.
// Inverts tell it, else the slope as entered, else levels; a stack of which
// none is known is plumb, other pipe level.
func (g *ground) climb(pipe int, length unit.Length) unit.Angle {
	by, inverts, known := g.drop(pipe)
	slope := g.net.Pipes[pipe].Slope
	byDrop := known && length > 0 && finite(float64(by/length))
	switch {
	case slope != nil && finite(float64(*slope)) && !(known && inverts):
		return arcsine(float64(*slope))
	case byDrop:
		return arcsine(float64(by / length))
	case g.net.Pipes[pipe].Class == network.Stack:
		return unit.QuarterBends(1)
	}
	return 0
}

func arcsine(x float64) unit.Angle { return unit.Angle(math.Asin(max(-1, min(1, x)))) }

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// corner is a turn of a pipe's traced line.
type corner struct {
	at     unit.Length
	counts unit.Angle // what it spends
	left   bool
}

// What a hand drawing means: under straight it is no turn, and a turn this
// near to a bend of the trade is that bend. A turn that stands on such an edge
// counts as the turn and as the bend, whatever its last digit says.
var (
	straightUnder = unit.Degrees(5) - dust
	bendWithin    = unit.Degrees(7.5) + dust
)

// dust is what floating point leaves of an angle, in radians.
const dust = 1e-9

// tradeBends are the turns of the 1/16, 1/8, 1/6, 1/5 and 1/4 bend.
var tradeBends = []unit.Angle{
	unit.Degrees(22.5), unit.Degrees(45), unit.Degrees(60), unit.Degrees(72), unit.Degrees(90),
}

// counted is what a traced corner spends: the turn of the bend that it is
// nearest to, or its own where no bend is near.
func counted(turn unit.Angle) unit.Angle {
	counts, off := turn, bendWithin
	for _, b := range tradeBends {
		if d := unit.Angle(math.Abs(float64(turn - b))); d <= off+dust {
			counts, off = b, d
		}
	}
	return counts
}

// corners finds the turns of a pipe's traced line, from the upstream end. The
// slight turns of an unsteady hand are summed with their signs, and a corner
// stands where the sum is a turn: so a wobble stays straight and a long curve
// keeps its turn. Any other turn is a corner by itself.
func (g *ground) corners(pipe int, length unit.Length) []corner {
	line := g.drawn(pipe)
	whole := plan(line)
	if !(whole > 0) || !finite(float64(whole)) {
		return nil
	}
	line = withoutRepeats(line)
	var out []corner
	var way unit.Length
	var slight unit.Angle
	for i := 1; i+1 < len(line); i++ {
		way += straight(line[i-1], line[i])
		turn := leftTurn(line[i-1], line[i], line[i+1])
		if size(turn) < straightUnder {
			slight += turn
			turn = 0
			if size(slight) >= straightUnder {
				turn, slight = slight, 0
			}
		}
		if turn != 0 {
			out = append(out, corner{at: way / whole * length, counts: counted(size(turn)), left: turn > 0})
		}
	}
	return out
}

func size(a unit.Angle) unit.Angle { return max(a, -a) }

// leftTurn is the turn at b on the way from a to c, positive to the left.
func leftTurn(a, b, c network.Point) unit.Angle {
	turn := math.Atan2(float64(c.Y-b.Y), float64(c.X-b.X)) - math.Atan2(float64(b.Y-a.Y), float64(b.X-a.X))
	return unit.Angle(math.Remainder(turn, 2*math.Pi))
}
