package network

import "linemap/internal/unit"

// Graph is a network with its flow traced. Nodes and pipes are addressed by
// their index in the network's slices; a Graph shares the network's data and
// is read-only, so it is safe to use from any goroutine.
type Graph struct {
	Net *Network
	// Up[p] and Down[p] are the node indexes at the upstream and the
	// downstream end of pipe p.
	Up, Down []int
	// Above[n] and Below[n] are the pipes that flow into node n and out of it.
	Above, Below [][]int
	// Next[p] is the next pipe on pipe p's way to the outlet, -1 for a last
	// pipe. Where flow divides, the way is the shorter one; so Next is always a
	// forest, even in a network with loops.
	Next []int
	// Order lists all pipes so that a pipe stands after every pipe on its way
	// to the outlet.
	Order []int
	// Looped[p] is true for a pipe on a loop, directed or not.
	Looped []bool
	// Outlets are the node indexes of the outlets.
	Outlets []int
}

// Corner is a traced bend inside a pipe.
type Corner struct {
	// At is the distance from the pipe's From end.
	At unit.Length
	// Angle is the turn as drawn, Fitting the nearest trade fitting's turn
	// (0 where the corner is nearer to straight than to a 1/16 bend).
	Angle, Fitting unit.Angle
	// Side is "left" or "right" going from From to To.
	Side string
}

// Passage is what a hose meets when it crosses a node from one pipe into the
// next.
type Passage struct {
	// Open is false where no hose passes; Why then says what is in the way:
	// "trap", "backwater valve", "doubles back", "end".
	Open bool
	Why  string
	// Turn is the whole angle spent, Sharpest the largest single turn in it (a
	// combination turns 90 degrees in two eighths).
	Turn, Sharpest unit.Angle
	// What names it in the trade's words: "1/4 bend", "wye, straight through",
	// "combination, into the branch", "reducer 4 in to 3 in". Side is "left" or
	// "right" on the plan as the nozzle goes, "up" or "down" into or out of a
	// stack, "" for straight.
	What, Side string
	// Branch is true for an upstream turn out of the run into a branch: the
	// hose may miss it, so a locator must confirm it.
	Branch bool
}
