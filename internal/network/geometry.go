package network

import (
	"math"
	"slices"

	"linemap/internal/unit"
)

// Length returns the length of pipe p: as entered, else as drawn with its
// corners and its rise. It is never negative and always finite.
func (g *Graph) Length(p int) unit.Length { return g.length[p] }

// measure works out the length of a pipe. A length entered as less than
// nothing counts as not entered.
func (g *Graph) measure(p int) unit.Length {
	if l := g.Net.Pipes[p].Length; l != nil && *l >= 0 && finite(*l) {
		return *l
	}
	return g.drawn(p)
}

// drawn is the length of pipe p as drawn, with its corners and its rise.
func (g *Graph) drawn(p int) unit.Length {
	plan := unit.Length(0)
	before, known := g.point(p, 0)
	for i := 1; i < len(g.Net.Pipes[p].Via)+2; i++ {
		at, ok := g.point(p, i)
		if known && ok {
			plan += before.Distance(at)
		}
		if ok {
			before, known = at, true
		}
	}
	rise, _ := g.rise(p)
	if l := hypot(plan, rise); finite(l) {
		return l
	}
	return 0
}

// trace is the line of pipe p on the plan, from From to To.
func (g *Graph) trace(p int) []Point {
	via := g.Net.Pipes[p].Via
	line := make([]Point, 0, len(via)+2)
	for i := range len(via) + 2 {
		if at, ok := g.point(p, i); ok {
			line = append(line, at)
		}
	}
	return line
}

// point is point i of pipe p's line from From (0) to To; false for an end that
// is not there.
func (g *Graph) point(p, i int) (Point, bool) {
	via := g.Net.Pipes[p].Via
	if i > 0 && i <= len(via) {
		return via[i-1], true
	}
	node := g.ends[p][min(i, 1)]
	if node < 0 {
		return Point{}, false
	}
	return g.Net.Nodes[node].At, true
}

// Polyline returns the line of pipe p on the plan, from its upstream to its
// downstream end, with the corners between.
func (g *Graph) Polyline(p int) []Point {
	line := g.trace(p)
	if g.reversed(p) {
		slices.Reverse(line)
	}
	return line
}

// reversed reports whether pipe p flows from To to From.
func (g *Graph) reversed(p int) bool {
	return g.Up[p] != g.ends[p][0]
}

// Elevation returns the height of a node above the site's datum: its invert,
// else its level's elevation, else 0.
func (g *Graph) Elevation(node int) unit.Length {
	n := &g.Net.Nodes[node]
	if n.Invert != nil {
		return *n.Invert
	}
	return g.levels[n.Level]
}

// rise is how much higher To lies than From. It is known where both inverts
// are measured, or where the ends lie on different levels.
func (g *Graph) rise(p int) (unit.Length, bool) {
	a, b := g.ends[p][0], g.ends[p][1]
	if a < 0 {
		return 0, false
	}
	from, to := &g.Net.Nodes[a], &g.Net.Nodes[b]
	if from.Invert == nil || to.Invert == nil {
		_, okA := g.levels[from.Level]
		_, okB := g.levels[to.Level]
		if from.Level == to.Level || !okA && from.Invert == nil || !okB && to.Invert == nil {
			return 0, false
		}
	}
	rise := g.Elevation(b) - g.Elevation(a)
	return rise, finite(rise)
}

// shortest is the least length that is taken to have a fall; below it the
// quotient says nothing.
const shortest = unit.Length(1e-3)

// Fall returns the fall of pipe p per length along it; positive falls the way
// it flows, and a plumb stack falls 1. It comes from the inverts, else from
// the slope entered, else from the levels of the ends, and is false where none
// of them tells it.
func (g *Graph) Fall(p int) (unit.Slope, bool) {
	rise, known := g.rise(p)
	if entered := g.Net.Pipes[p].Slope; entered != nil && finite(unit.Length(*entered)) && !(known && g.inverts(p)) {
		return *entered, true
	}
	if !known || g.length[p] < shortest {
		return 0, false
	}
	s := unit.Slope(rise / g.length[p])
	if !g.reversed(p) {
		s = -s
	}
	return s, finite(unit.Length(s))
}

// inverts reports whether both ends of pipe p have a measured invert.
func (g *Graph) inverts(p int) bool {
	up, down := g.Up[p], g.Down[p]
	return up >= 0 && g.Net.Nodes[up].Invert != nil && g.Net.Nodes[down].Invert != nil
}

// Climb returns the angle above level at which a hose climbs pipe p going
// upstream: 90 degrees in a plumb stack, 0 where the fall is not known.
func (g *Graph) Climb(p int) unit.Angle {
	fall, ok := g.Fall(p)
	switch {
	case ok:
		return unit.Angle(math.Asin(max(-1, min(1, float64(fall)))))
	case g.Net.Pipes[p].Class == Stack:
		return unit.Degrees(90)
	}
	return 0
}

// Distance returns the straight distance from p to q on the plan.
func (p Point) Distance(q Point) unit.Length { return hypot(q.X-p.X, q.Y-p.Y) }

// WayLength returns the length of a way on the plan.
func WayLength(way []Point) (sum unit.Length) {
	for i := 1; i < len(way); i++ {
		sum += way[i-1].Distance(way[i])
	}
	return sum
}

// Bounds returns the lower left and the upper right corner of the frame around
// some places, the origin twice where there are none.
func Bounds(places []Point) (low, high Point) {
	if len(places) == 0 {
		return low, high
	}
	low, high = places[0], places[0]
	for _, p := range places {
		low = Point{X: min(low.X, p.X), Y: min(low.Y, p.Y)}
		high = Point{X: max(high.X, p.X), Y: max(high.Y, p.Y)}
	}
	return low, high
}

func hypot(a, b unit.Length) unit.Length {
	return unit.Length(math.Hypot(a.Metres(), b.Metres()))
}

func abs(l unit.Length) unit.Length { return max(l, -l) }

func finite(l unit.Length) bool {
	return !math.IsNaN(l.Metres()) && !math.IsInf(l.Metres(), 0)
}
