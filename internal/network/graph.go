package network

import "linemap/internal/unit"

// Graph is a network with its flow traced. Nodes and pipes are addressed by
// their index in the network's slices; a Graph shares the network's data and
// is read-only, so it is safe to use from any goroutine.
type Graph struct {
	Net *Network
	// Up[p] and Down[p] are the node indexes at the upstream and the
	// downstream end of pipe p, both -1 for a pipe whose ends name no node.
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
	// Outlets are the node indexes of the outlets, and of the ends that act as
	// one where a part of the network has none.
	Outlets []int

	nodes  map[NodeID]int
	pipes  map[PipeID]int
	levels map[string]unit.Length
	// ends[p] are the node indexes of pipe p's From and To, both -1 where one
	// of them names no node.
	ends [][2]int
	// length[p] is what Length gives, way[n] the pipe by which node n drains
	// on its way to the outlet, -1 at an outlet.
	length []unit.Length
	way    []int
}

// NodeIndex returns the index of the node with an ID.
func (g *Graph) NodeIndex(id NodeID) (int, bool) {
	i, ok := g.nodes[id]
	return i, ok
}

// PipeIndex returns the index of the pipe with an ID.
func (g *Graph) PipeIndex(id PipeID) (int, bool) {
	i, ok := g.pipes[id]
	return i, ok
}

// Corner is a traced bend inside a pipe.
type Corner struct {
	// At is the distance from the pipe's From end.
	At unit.Length
	// Angle is the turn as drawn, Fitting the turn of the nearest trade
	// fitting (0 where no single fitting turns so).
	Angle, Fitting unit.Angle
	// Side is "left" or "right" going from From to To.
	Side string
}

// Turn is the turn that a hose spends at the corner: by its fitting, or as drawn
// where it has none.
func (c Corner) Turn() unit.Angle {
	if c.Fitting > 0 {
		return c.Fitting
	}
	return c.Angle
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
