package audit

import (
	"math"
	"slices"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/unit"
)

// way is a path as named: an access, a direction and pipes in the order in
// which the nozzle passes them.
type way struct {
	access int // node
	down   bool
	pipes  []int
}

// track is a way walked: what the hose meets, pipe by pipe.
type track struct {
	way
	hops []hop
}

// hop is the crossing of a node and the pipe behind it.
type hop struct {
	pipe, node int
	crossing
	// near and far are the distances of the pipe's ends from the start of the
	// first pipe.
	near, far unit.Length
	corners   []corner // as the hose meets them, measured from the near end
	steps     []rig.Step
}

// begin is the node at which a hose on its way comes into a pipe.
func (g *ground) begin(pipe int, down bool) int {
	if down {
		return g.graph.Up[pipe]
	}
	return g.graph.Down[pipe]
}

// end is the node at which it leaves the pipe.
func (g *ground) end(pipe int, down bool) int { return g.begin(pipe, !down) }

// walk measures a way. It judges nothing.
func (g *ground) walk(w way) track {
	t := track{way: w}
	var at unit.Length
	for i, pipe := range w.pipes {
		h := hop{pipe: pipe, node: g.begin(pipe, w.down), near: at, far: at + g.pipes[pipe].length}
		if i == 0 {
			h.crossing = g.enter(w.access)
		} else {
			h.crossing = g.cross(w.pipes[i-1], pipe, w.down)
		}
		h.corners = g.cornersAhead(pipe, w.down)
		h.steps = g.steps(&h, w.down)
		t.hops = append(t.hops, h)
		at = h.far
	}
	return t
}

// enter is the crossing from an access into its first pipe: the turn out of
// the riser.
func (g *ground) enter(node int) crossing {
	c := crossing{open: true}
	if a := g.net.Nodes[node].Access; a != nil {
		turn := unit.Angle(math.Abs(float64(a.Entry)))
		c.turn, c.sharpest = turn, turn
	}
	return c
}

// cornersAhead is a pipe's corners in the order in which a hose meets them.
func (g *ground) cornersAhead(pipe int, down bool) []corner {
	m := &g.pipes[pipe]
	if down {
		return m.corners
	}
	ahead := make([]corner, 0, len(m.corners))
	for _, c := range slices.Backward(m.corners) {
		c.at = m.length - c.at
		c.left = !c.left
		ahead = append(ahead, c)
	}
	return ahead
}

// steps cuts a hop into straights, each with the turn before it.
func (g *ground) steps(h *hop, down bool) []rig.Step {
	m := &g.pipes[h.pipe]
	step := rig.Step{Climb: m.climb, Turn: h.turn, Friction: m.friction}
	if down {
		step.Climb = -m.climb
	}
	var steps []rig.Step
	var from unit.Length
	for _, c := range h.corners {
		step.Length = c.at - from
		steps = append(steps, step)
		from, step.Turn = c.at, c.counts
	}
	step.Length = m.length - from
	return append(steps, step)
}

// length is the length of the whole track, riser and lay apart.
func (t *track) length() unit.Length {
	if len(t.hops) == 0 {
		return 0
	}
	return t.hops[len(t.hops)-1].far
}

// bends is what the first n hops spend, in quarter bends.
func (t *track) bends(n int) float64 {
	var turned unit.Angle
	for _, h := range t.hops[:n] {
		turned += h.turn
		for _, c := range h.corners {
			turned += c.counts
		}
	}
	return turned.QuarterBends()
}

// sharpestTurn is the sharpest single turn of a hop.
func (h *hop) sharpestTurn() unit.Angle {
	sharpest := h.sharpest
	for _, c := range h.corners {
		sharpest = max(sharpest, c.counts)
	}
	return sharpest
}

// stepsTo is the steps of the hops up to hop n and with it.
func (t *track) stepsTo(n int) []rig.Step {
	var steps []rig.Step
	for _, h := range t.hops[:n+1] {
		steps = append(steps, h.steps...)
	}
	return steps
}

// drags is the drag of the hose in the low case at the end of every hop.
func (g *ground) drags(t *track, hose *rig.Hose) []unit.Force {
	drags := make([]unit.Force, len(t.hops))
	var drag unit.Force
	for i := range t.hops {
		for _, s := range t.hops[i].steps {
			drag = rig.Push(drag, s, hose, g.water, rig.LowReach)
		}
		drags[i] = drag
	}
	return drags
}

// riser is the length from an access's opening down to the pipe.
func (g *ground) riser(node int) unit.Length {
	if a := g.net.Nodes[node].Access; a != nil {
		return a.Riser
	}
	return 0
}

// leads tells whether an access lets a hose go that way.
func leads(a *network.Access, down bool) bool {
	if a.Kind != network.OneWayCleanout {
		return true
	}
	if down {
		return a.Facing == network.FacesDownstream
	}
	return a.Facing == network.FacesUpstream
}
