package network

import (
	"math"

	"linemap/internal/unit"
)

// size tells of a size or a material without figures, and of a pipe that gets
// smaller the way it flows.
func (c *checker) size(p int) {
	pipe := &c.g.Net.Pipes[p]
	found := size(pipe.Size)
	if !pipe.Size.Known() {
		c.add(c.g.atPipe(p, Error, "unknown_size"), Finding{
			What: "There is no nominal pipe size of " + found + ".", Value: found, Limit: sizeRange(),
			Cure: "Measure the outside of the pipe and choose the nominal size from the list.",
		})
	} else if c.bores != nil {
		if _, ok := c.bores(pipe.Material, pipe.Size); !ok {
			c.add(c.g.atPipe(p, Warning, "unknown_bore"), Finding{
				What:  "There is no bore on file for " + string(pipe.Material) + " of " + found + ".",
				Value: string(pipe.Material) + " " + found,
				Cure:  "Choose a material and size that occur together, or add the bore to the table of materials.",
			})
		}
	}
	next := c.g.Next[p]
	if next < 0 {
		return
	}
	if after := c.g.Net.Pipes[next].Size; after < pipe.Size {
		c.add(c.g.atPipe(p, Warning, "size_shrinks"), Finding{
			What:  "The drain gets smaller the way it flows, into " + c.g.PipeName(next) + ".",
			Value: size(after), Limit: "at least " + found, Source: commonPractice,
			Cure: "Check both sizes. If they hold, debris will catch there.",
		})
	}
	node := c.g.Down[p]
	if n := &c.g.Net.Nodes[node]; n.Kind == KindReducer && len(c.g.Above[node]) == 1 && pipe.Size == c.g.Net.Pipes[next].Size {
		c.add(c.g.atNode(node, Advice, "reducer_same_size"), Finding{
			What: "The reducer has pipes of one size on both sides.", Value: found,
			Cure: "Correct one of the sizes, or remove the reducer.",
		})
	}
}

// sizeRange names the nominal sizes that there are.
func sizeRange() string {
	all := unit.Sizes()
	return "a nominal size from " + size(all[0]) + " to " + size(all[len(all)-1])
}

// How far a measured length may stray from the drawn one before it looks like
// a slip of the pen: a fifth, and three feet.
const (
	strayShare = 0.2
	strayLeast = unit.Length(3 * 0.3048)
)

// lengths tells of a pipe of no length, of a length that does not match the
// drawing, and of corners that no fitting turns.
func (c *checker) lengths(p int) {
	pipe := &c.g.Net.Pipes[p]
	drawn := c.g.drawn(p)
	switch entered := pipe.Length; {
	case entered != nil && (*entered < 0 || !finite(*entered)):
		c.add(c.g.atPipe(p, Error, "bad_length"), Finding{
			What: "The length entered is no length; the drawn one is used.", Value: height(*entered), Limit: "more than 0",
			Cure: "Enter the length again.",
		})
	case c.g.length[p] == 0:
		c.add(c.g.atPipe(p, Warning, "zero_length"), Finding{
			What: "The pipe has no length.", Value: height(0), Limit: "more than 0",
			Cure: "Enter its length, or join its two ends into one.",
		})
	case entered != nil && drawn > 0:
		off := abs(*entered - drawn)
		if off > strayLeast && off > strayShare*drawn+rounding {
			c.add(c.g.atPipe(p, Advice, "length_differs"), Finding{
				What:  "The length entered is far from the length drawn, " + height(drawn) + ".",
				Value: height(*entered), Limit: "within 20 % or 3 ft (0.91 m) of the drawing",
				Cure: "Measure again, or move the ends. The length entered is used.",
			})
		}
	}
	if rise, ok := c.g.rise(p); ok && pipe.Length != nil && abs(rise) > c.g.length[p]+strayLeast {
		c.add(c.g.atPipe(p, Warning, "length_under_rise"), Finding{
			What:  "The ends lie further apart in height than the pipe is long.",
			Value: height(c.g.length[p]), Limit: "at least " + height(abs(rise)),
			Cure: "Check the length and the heights of both ends.",
		})
	}
	odd := Corner{}
	for _, corner := range c.g.Corners(p) {
		if corner.Fitting == 0 && corner.Angle > odd.Angle {
			odd = corner
		}
	}
	if odd.Angle > oddFrom {
		c.noFitting(c.g.atPipe(p, Advice, "no_fitting"), odd.Angle)
	}
}

// oddFrom is the drawn turn from which a finding asks which fitting it is:
// nearer to a 1/16 bend than to straight. Less is a curve drawn by hand.
var oddFrom = unit.Degrees(11.25) + slack

// noFitting tells of a turn that no bend of the trade makes.
func (c *checker) noFitting(where Finding, turn unit.Angle) {
	c.add(where, Finding{
		What:  "No single fitting turns " + degrees(turn) + " degrees.",
		Value: degrees(turn) + " degrees", Limit: "22.5, 45, 60, 72 or 90 degrees",
		Source: "fractions of a circle: 1/16, 1/8, 1/6, 1/5 and 1/4 bend",
		Cure:   "Draw the corner as it is built, with two corners where two fittings make it. Until then it counts as drawn.",
	})
}

// angles tells of a node drawn far from what its fitting turns.
func (c *checker) angles(node int) {
	g := c.g
	n := &g.Net.Nodes[node]
	switch {
	case n.Kind == KindBend && len(g.Above[node]) == 1 && len(g.Below[node]) == 1:
		drawn, _, ok := g.deflection(g.Above[node][0], g.Below[node][0], false)
		switch {
		case !ok:
		case n.Turn == 0 && NearestBend(drawn) == 0 && drawn > oddFrom:
			c.noFitting(g.atNode(node, Advice, "no_fitting"), drawn)
		case n.Turn > 0 && n.Turn <= unit.QuarterBends(1):
			c.angle(node, drawn, n.Turn, BendName(n.Turn))
		}
	case n.Kind == KindJunction:
		f, ok := g.fitting(node)
		if !ok {
			return
		}
		if g.Down[f.up] == node {
			c.angle(node, c.drawnTurn(f.up, f.down), 0, "the run of a "+n.Word())
		}
		for _, p := range g.Above[node] {
			if f.branch(p) {
				c.angle(node, c.drawnTurn(p, f.down), branchTurns[f.kind].turn, "the branch of a "+n.Word())
			}
		}
	}
}

// drawnTurn is the turn drawn from one pipe into the next going downstream,
// NaN where the sketch does not tell.
func (c *checker) drawnTurn(from, to int) unit.Angle {
	if turn, _, ok := c.g.deflection(from, to, false); ok {
		return turn
	}
	return unit.Angle(math.NaN())
}

// angle tells of a drawn turn more than a 1/16 bend from what a fitting turns.
func (c *checker) angle(node int, drawn, fitting unit.Angle, what string) {
	if off := math.Abs(float64(drawn - fitting)); !(off > branchOver.Radians()) {
		return
	}
	c.add(c.g.atNode(node, Advice, "angle_differs"), Finding{
		What:  "Drawn with a turn of " + degrees(drawn) + " degrees, where " + what + " turns " + degrees(fitting) + ".",
		Value: degrees(drawn) + " degrees", Limit: degrees(fitting) + " degrees",
		Cure: "Check which fitting it is, and which leg is the branch. The fitting's turn is used.",
	})
}
