package network

import (
	"linemap/internal/unit"
)

// falls tells of a pipe that runs uphill or falls less than the code asks.
// Where two inverts contradict the flow, [Trace] tells it.
func (c *checker) falls(p int) {
	f, ok := c.g.Fall(p)
	if !ok {
		return
	}
	where := c.g.atPipe(p, Warning, "adverse_slope")
	switch {
	case f < 0 && !c.g.inverts(p):
		c.adverse(where, f)
	case f >= 0:
		c.slight(p, f, where)
	}
}

func (c *checker) adverse(where Finding, f unit.Slope) {
	c.add(where, Finding{
		What:  "The pipe runs uphill the way it flows.",
		Value: fall(f), Limit: "must fall toward the outlet",
		Cure: "Measure the heights again. If they hold, the pipe is back-pitched: expect standing water and debris.",
	})
}

// slight tells of a fall under the code's figure for pipe p's size.
func (c *checker) slight(p int, f unit.Slope, where Finding) {
	// A figure as entered from a table must not fail by its last digit.
	const digits = 1e-6
	nominal := c.g.Net.Pipes[p].Size
	row, ok := rowFor(c.code.MinSlope, nominal)
	if !ok || f >= row.Limit-digits {
		return
	}
	where.Kind = "slope_under_code"
	c.add(where, Finding{
		What:  "The pipe falls less than the code edition asks of " + size(nominal) + " pipe.",
		Value: fall(f), Limit: fall(row.Limit), Source: row.Source,
		Cure: "Measure the fall; " + localCode + ". Debris settles there: expect more pulls.",
	})
}

// stretches checks the fall between measured inverts that have unmeasured
// nodes between them, along the way to the outlet.
func (c *checker) stretches() {
	type stretch struct {
		below  int // next node down the way with an invert, -1 for none
		length unit.Length
		pipes  int
	}
	g := c.g
	down := make([]stretch, len(g.Net.Nodes))
	for i := range down {
		down[i].below = -1
	}
	for _, p := range g.Order {
		if g.Up[p] < 0 || g.way[g.Up[p]] != p {
			continue
		}
		up, at := g.Up[p], g.Down[p]
		s := stretch{below: at}
		if g.Net.Nodes[at].Invert == nil {
			s = down[at]
		}
		s.length += g.length[p]
		s.pipes++
		down[up] = s
		if s.below < 0 || s.pipes < 2 || g.Net.Nodes[up].Invert == nil || s.length == 0 {
			continue
		}
		f := unit.Slope((*g.Net.Nodes[up].Invert - *g.Net.Nodes[s.below].Invert) / s.length)
		where := g.atNode(up, Warning, "adverse_slope")
		if f < 0 {
			c.adverseStretch(where, f, s.below)
		} else {
			c.slight(p, f, where)
		}
	}
}

func (c *checker) adverseStretch(where Finding, f unit.Slope, below int) {
	c.add(where, Finding{
		What:  "The line runs uphill from here to " + c.g.NodeName(below) + ", the next measured invert on the way to the outlet.",
		Value: fall(f), Limit: "must fall toward the outlet",
		Cure: "Measure both inverts again, and one between them.",
	})
}

// fall writes a slope in both systems of units.
func fall(s unit.Slope) string { return unit.US.Slope(s) + " (" + unit.Metric.Slope(s) + ")" }
