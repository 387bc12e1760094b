package network

import (
	"linemap/internal/unit"
)

// served is how an access serves the line above it, followed up the ways.
type served struct {
	base   int // the nearest access down the way, -1 for none
	length unit.Length
	// turned is the level turn summed since the access, past the length beyond
	// the turn by which it went over the code's figure.
	turned unit.Angle
	past   unit.Length
	// Each gap is told of once, at the pipe that makes it too long.
	toldLength, toldTurn bool
}

// accesses checks the way between accesses, and the turns between them,
// against the code edition. Upright pipe counts for neither.
func (c *checker) accesses() {
	if len(c.code.CleanoutSpacing) == 0 && c.code.ManholeSpacing == 0 && c.code.DirectionChange == 0 {
		return
	}
	g := c.g
	tops := c.tops()
	at := make([]served, len(g.Net.Nodes))
	for i := range at {
		at[i].base = -1
	}
	for _, p := range g.Order {
		up, down := g.Up[p], g.Down[p]
		if up < 0 || g.way[up] != p {
			continue
		}
		s := at[down]
		if g.opens(down) {
			s = served{base: down}
		}
		if !g.upright(p) {
			s.length += g.length[p]
			s.turned += g.levelTurn(p, s.base == down)
			if c.over(s.turned) {
				s.past += g.length[p]
			}
		}
		c.spacing(p, &s, tops[up])
		c.directions(p, &s)
		at[up] = s
	}
}

// opens reports whether a node is an access in service.
func (g *Graph) opens(node int) bool {
	a := g.Net.Nodes[node].Access
	return a != nil && !a.OutOfService
}

// upright reports whether pipe p is a stack or another steep pipe.
func (g *Graph) upright(p int) bool { climb := g.Climb(p); return climb >= steep || climb <= -steep }

// levelTurn is the level turn from the pipe below into pipe p and along it,
// going up the way; only along it above an access.
func (g *Graph) levelTurn(p int, atAccess bool) unit.Angle {
	turn := unit.Angle(0)
	if below := g.Next[p]; below >= 0 && !atAccess && !g.upright(below) {
		turn = g.Passage(below, p).Turn
	}
	for _, c := range g.Corners(p) {
		turn += c.Turn()
	}
	return turn
}

// over reports whether a turn is more than the code edition lets pass without
// another access. Turns come from fittings and from drawings: one degree is
// drawing.
func (c *checker) over(turn unit.Angle) bool {
	return c.code.DirectionChange > 0 && turn > c.code.DirectionChange+unit.Degrees(1)
}

// top is the far end of the pipe that an access serves.
type top struct {
	length  unit.Length // from the node up to there
	manhole bool
}

// tops finds, for every node, the farthest end of the line above it that is
// reached without passing another access.
func (c *checker) tops() []top {
	g := c.g
	tops := make([]top, len(g.Net.Nodes))
	for i := len(g.Order) - 1; i >= 0; i-- {
		p := g.Order[i]
		up, down := g.Up[p], g.Down[p]
		if up < 0 || g.way[up] != p {
			continue
		}
		t := tops[up]
		if g.opens(up) {
			t = top{manhole: g.Net.Nodes[up].Access.Kind == Manhole}
		}
		if !g.upright(p) {
			t.length += g.length[p]
		}
		if t.length >= tops[down].length {
			tops[down] = t
		}
	}
	return tops
}

// spacing tells of a way that is too long for its accesses, at the pipe where
// it becomes so.
func (c *checker) spacing(p int, s *served, above top) {
	g := c.g
	if g.opens(g.Up[p]) {
		above = top{manhole: g.Net.Nodes[g.Up[p]].Access.Kind == Manhole}
	}
	limit, source := c.limit(p, s.base, above.manhole)
	if limit == 0 || s.toldLength || s.length <= limit+rounding {
		return
	}
	s.toldLength = true
	from := "the outlet"
	if s.base >= 0 {
		from = g.NodeName(s.base)
	}
	c.add(g.atPipe(p, Warning, "access_spacing"), Finding{
		What:  "The way from " + from + " up to the next access or the end of the line is longer than the code edition allows.",
		Value: both(s.length + above.length), Limit: both(limit), Source: source,
		Cure: "Plan a cleanout on this pipe; " + localCode + ".",
	})
}

// rounding is what a length may exceed a limit by, for figures converted
// between units and for the last digits of coordinates.
const rounding = unit.Length(0.001)

// limit is the spacing allowed at pipe p, 0 for none.
func (c *checker) limit(p, base int, toManhole bool) (unit.Length, string) {
	if toManhole && base >= 0 && c.code.ManholeSpacing > 0 && c.g.Net.Nodes[base].Access.Kind == Manhole {
		return c.code.ManholeSpacing, c.code.Source
	}
	row, _ := rowFor(c.code.CleanoutSpacing, c.g.Net.Pipes[p].Size)
	return row.Limit, row.Source
}

// directions tells of pipe past more turns than one access may serve.
func (c *checker) directions(p int, s *served) {
	if s.toldTurn || !c.over(s.turned) || s.past <= c.code.DirectionReach+rounding {
		return
	}
	s.toldTurn = true
	f := Finding{
		What:  "The line turns more since the next access below than the code edition allows without another.",
		Value: degrees(s.turned) + " degrees", Limit: degrees(c.code.DirectionChange) + " degrees", Source: c.code.Source,
		Cure: "Plan a cleanout at the turn; " + localCode + ".",
	}
	if c.code.DirectionReach > 0 {
		f.What = "The line runs on past its turns further than the code edition lets one access serve."
		f.Value += ", then " + both(s.past)
		f.Limit += ", then " + both(c.code.DirectionReach)
	}
	c.add(c.g.atPipe(p, Warning, "direction_change"), f)
}

// both writes a length in both systems of units.
func both(l unit.Length) string { return unit.US.Length(l) + " (" + unit.Metric.Length(l) + ")" }
