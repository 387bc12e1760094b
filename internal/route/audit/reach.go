package audit

import (
	"math"
	"slices"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/unit"
)

// waiver is how a pipe is looked at: with how much slack, and with which rules
// forgotten, to see whether mending them would be enough.
type waiver struct {
	slack leeway
	// only, where it is set, is the access to go in by.
	only network.NodeID
	hose bool // bends, turns, and the sizes of pipes and opening
	reel bool // that the hose is long enough
	pull bool // that some nozzle serves, fits and pulls
	tank bool // that the tank holds a pass
	// hand is what was decided by hand, nil to forget it.
	hand *hand
}

// beyondDoubt looks for a run that the plan has overlooked.
var beyondDoubt = waiver{slack: strict}

type reachKey struct {
	pipe int
	waiver
}

// reachable tells whether any run may clean a pipe.
func (g *ground) reachable(pipe int, w waiver) bool {
	key := reachKey{pipe, w}
	yes, known := g.reached[key]
	if !known {
		yes = g.tryAll(pipe, w)
		g.reached[key] = yes
	}
	return yes
}

// tryAll tries every way, hose and spot on one pipe.
func (g *ground) tryAll(pipe int, w waiver) bool {
	for way := range g.waysWithin(pipe, g.longest(w)) {
		if w.only != "" && w.only != g.nodeID(way.access) {
			continue
		}
		for i := range g.site.Rig.Hoses {
			if g.reaches(way, len(way.pipes)-1, &g.site.Rig.Hoses[i], w) {
				return true
			}
		}
	}
	return false
}

// longest is how long a way may be at the most.
func (g *ground) longest(w waiver) unit.Length {
	if w.reel {
		return unit.Length(math.Inf(1))
	}
	longest := unit.Length(0)
	for i := range g.site.Rig.Hoses {
		longest = max(longest, g.site.Rig.Hoses[i].Length)
	}
	return longest + hair
}

// reaches tells whether a run of a hose along a way, or along one that goes on
// from it, may clean the pipe at a place of the way. A longer run can be
// allowed where a shorter one is not: working more, it may ask for another
// nozzle, which draws less water.
func (g *ground) reaches(way way, at int, hose *rig.Hose, w waiver) bool {
	t := g.walk(way)
	if !g.allowed(&t, hose, w) {
		return false // and so is no longer way
	}
	for _, cleaned := range g.cleanings(&t, at, w) {
		if g.served(&t, cleaned, hose, w) {
			return true
		}
	}
	if w.pull {
		return false // then only the reel and the spots count, and a longer way has it no easier
	}
	last := way.pipes[len(way.pipes)-1]
	onward := g.above[last]
	if way.down {
		onward = []int{g.graph.Next[last]}
	}
	for _, next := range onward {
		if next < 0 || slices.Contains(way.pipes, next) {
			continue
		}
		longer := way
		longer.pipes = append(slices.Clone(way.pipes), next)
		if g.reaches(longer, at, hose, w) {
			return true
		}
	}
	return false
}

// cleanings lists what a run along a track may clean, the pipe at one place of
// it among the rest: going upstream a far part, where the rest can be clean
// before; going downstream everything.
func (g *ground) cleanings(t *track, at int, w waiver) [][]bool {
	target := func(i int) bool { return g.pipes[t.hops[i].pipe].target }
	if !target(len(t.hops) - 1) {
		return nil // a run ends with something to clean
	}
	var out [][]bool
	for start := 0; start <= at; start++ {
		if t.down || target(start) {
			cleaned := make([]bool, len(t.hops))
			for i := start; i < len(t.hops); i++ {
				cleaned[i] = target(i)
			}
			out = append(out, cleaned)
		}
		if t.down || start < at && target(start) && !g.canBeClean(t.hops[start].pipe, w) {
			break // what is not clean before has to be cleaned on the way
		}
	}
	return out
}

// canBeClean tells whether a pipe below may have been cleaned by another run.
func (g *ground) canBeClean(pipe int, w waiver) bool {
	return g.reachable(pipe, waiver{slack: w.slack, hand: w.hand}) || g.reachable(pipe, w)
}
