package audit

import (
	"slices"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/site"
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
}

// beyondDoubt looks for a run that the plan has overlooked.
var beyondDoubt = waiver{slack: strict}

// reachable tries every way, hose and spot on one pipe, and tells whether any
// run may clean it.
func (g *ground) reachable(pipe int, w waiver) bool {
	for _, way := range g.ways(pipe) {
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

// reaches tells whether a run of a hose along a way, or along one that goes on
// from it, may clean the pipe at a place of the way. A longer run can be
// allowed where a shorter one is not: working more, it may ask for another
// nozzle, which draws less water.
func (g *ground) reaches(way way, at int, hose *rig.Hose, w waiver) bool {
	t := g.walk(way)
	if !g.allowed(&t, hose, w) {
		return false // and so is no longer way
	}
	for _, cleaned := range g.cleanings(&t, at) {
		if g.served(&t, cleaned, hose, w) {
			return true
		}
	}
	if w.pull {
		return false // then only the reel and the spots count, and a longer way has it no easier
	}
	last := way.pipes[len(way.pipes)-1]
	for next := range g.pipes {
		follows := g.graph.Next[next] == last
		if way.down {
			follows = g.graph.Next[last] == next
		}
		if !follows || slices.Contains(way.pipes, next) {
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
// it among the rest: going upstream any far part, as the rest can be clean
// already; going downstream everything.
func (g *ground) cleanings(t *track, at int) [][]bool {
	target := func(i int) bool { return g.pipes[t.hops[i].pipe].target }
	if !target(len(t.hops) - 1) {
		return nil // a run ends with something to clean
	}
	var out [][]bool
	for start := at; start >= 0; start-- {
		if t.down && start > 0 || !t.down && !target(start) {
			continue
		}
		cleaned := make([]bool, len(t.hops))
		for i := start; i < len(t.hops); i++ {
			cleaned[i] = target(i)
		}
		out = append(out, cleaned)
	}
	return out
}

// ways lists every way that ends with a pipe: up to it from any access below,
// and down to it from any access above. Both follow the pipe's own way to the
// outlet, so there is one for each access and side.
func (g *ground) ways(pipe int) []way {
	var out []way
	var up []int
	for p := pipe; p >= 0 && len(up) < len(g.pipes); p = g.graph.Next[p] {
		up = append(up, p)
		if node := g.graph.Down[p]; g.isAccess(node) {
			pipes := slices.Clone(up)
			slices.Reverse(pipes)
			out = append(out, way{access: node, pipes: pipes})
		}
	}
	for first := range g.pipes {
		node := g.graph.Up[first]
		if !g.isAccess(node) {
			continue
		}
		var down []int
		for p := first; p >= 0 && len(down) < len(g.pipes); p = g.graph.Next[p] {
			down = append(down, p)
			if p == pipe {
				out = append(out, way{access: node, down: true, pipes: down})
				break
			}
		}
	}
	return out
}

func (g *ground) isAccess(node int) bool {
	return node >= 0 && g.net.Nodes[node].Kind == network.KindAccess && g.net.Nodes[node].Access != nil
}

// allowed tells whether a hose may go all along a track, whatever the spot.
func (g *ground) allowed(t *track, hose *rig.Hose, w waiver) bool {
	for _, b := range g.breaches(t, hose, w.slack) {
		if w.hose && (b.rule == RuleTurn || b.rule == RuleBends || b.rule == RuleSize || b.opening) {
			continue
		}
		return false
	}
	if w.pull {
		return true
	}
	drags := g.drags(t, hose)
	for i := range t.hops {
		if !g.workable(t, i, hose, drags, w.slack) {
			return false
		}
	}
	return true
}

// workable tells whether each pass that one hop asks for has a nozzle, out to
// there.
func (g *ground) workable(t *track, hop int, hose *rig.Hose, drags []unit.Force, slack leeway) bool {
	if !g.pipes[t.hops[hop].pipe].target {
		return true
	}
	cleaned := make([]bool, len(t.hops))
	cleaned[hop] = true
	for _, d := range g.duties(t, cleaned) {
		if len(g.choices(t, &d, hose, drags, slack)) == 0 {
			return false
		}
	}
	return true
}

// served tells whether a run along an allowed track can be made from some spot:
// the hose is long enough there and the tank holds each pass.
func (g *ground) served(t *track, cleaned []bool, hose *rig.Hose, w waiver) bool {
	flows, times, ok := g.demand(t, cleaned, hose, w)
	if !ok {
		return false
	}
	for i := range g.site.Spots {
		spot := &g.site.Spots[i]
		if !usable(spot) || !w.reel && float64(g.overReel(t, len(t.hops), spot, hose)) > w.slack.length {
			continue
		}
		if w.tank || g.tankServes(spot, flows, times) {
			return true
		}
	}
	return false
}

// demand gives flow and time of each pass of a run; ok is false where one has
// no nozzle.
func (g *ground) demand(t *track, cleaned []bool, hose *rig.Hose, w waiver) (flows []unit.Flow, times []rounded, ok bool) {
	if w.pull {
		return nil, nil, true
	}
	drags := g.drags(t, hose)
	for _, d := range g.duties(t, cleaned) {
		n := g.best(t, &d, hose, drags, w.slack)
		if n == nil {
			return nil, nil, false
		}
		flows = append(flows, g.operate(hose, n, g.ceiling(t, d.far)).Flow)
		times = append(times, g.takes(t, &d))
	}
	return flows, times, true
}

func (g *ground) tankServes(spot *site.Spot, flows []unit.Flow, times []rounded) bool {
	inflow := g.inflow(spot)
	for i, q := range flows {
		if !g.holds(inflow, q, times[i].least) {
			return false
		}
	}
	return true
}

// best is the nozzle that a duty takes, nil for none.
func (g *ground) best(t *track, d *duty, hose *rig.Hose, drags []unit.Force, slack leeway) *rig.Nozzle {
	var best *rig.Nozzle
	for _, n := range g.choices(t, d, hose, drags, slack) {
		if best == nil || g.better(t, d, hose, n, best) {
			best = n
		}
	}
	return best
}

// better tells whether one nozzle that will do is to be taken before another:
// its purpose stands earlier in the lists, or as early and more power is left
// at the jets, or as much and it stands earlier in the rig.
func (g *ground) better(t *track, d *duty, hose *rig.Hose, a, b *rig.Nozzle) bool {
	if p, q := d.worstPlace(a), d.worstPlace(b); p != q {
		return p < q
	}
	ceiling := g.ceiling(t, d.far)
	power := func(n *rig.Nozzle) float64 {
		op := g.operate(hose, n, ceiling)
		return float64(op.Operating.Nozzle) * float64(op.Flow)
	}
	switch p, q := power(a), power(b); {
	case p == q:
		return g.placeInRig(a) < g.placeInRig(b)
	case alike(p, q):
		return false // either is right
	default:
		return p > q
	}
}

func (g *ground) placeInRig(n *rig.Nozzle) int {
	return slices.IndexFunc(g.site.Rig.Nozzles, func(m rig.Nozzle) bool { return m.ID == n.ID })
}
