package route

import (
	"linemap/internal/rig"
	"linemap/internal/unit"
)

// smallMargin is the share of the thrust below which what is left over the
// drag counts as small (our own figure: a fifth).
const smallMargin = 0.2

// cleansing is the velocity at which water keeps a drain clean, 2 ft/s (common
// practice, and the sewer minimum of many codes).
var cleansing = unit.FeetPerSecond(2)

// steep is the climb above which a run counts as going up a stack.
var steep = unit.Degrees(45)

// flags lists the warnings that go with a run, each kind once for each place
// where the crew must know of it.
func (c *catalogue) flags(run *Run, path []int, cleaned map[int]bool) []Flag {
	var out []Flag
	if run.Direction == Downstream {
		out = append(out, Flag{Kind: FlagDownstream})
	}
	for _, f := range run.Fittings {
		if f.Confirm {
			out = append(out, Flag{Kind: FlagLocator, At: f.At, Pipe: f.Pipe})
		}
	}
	climbs := false
	for n, i := range path {
		leg := run.Path[n]
		p := c.places[i].pipe
		if c.site.Network.Pipes[p].Fragile {
			out = append(out, Flag{Kind: FlagFragile, At: leg.From, Pipe: leg.Pipe})
		}
		if !climbs && run.Direction == Upstream && c.g.Climb(p) > steep {
			climbs = true
			out = append(out, Flag{Kind: FlagStack, At: leg.From, Pipe: leg.Pipe})
		}
	}
	for _, p := range run.Passes {
		if p.Thrust-p.Drag < smallMargin*p.Thrust {
			out = append(out, Flag{Kind: FlagSmallMargin, At: p.End})
			break
		}
	}
	if f, ok := c.weakCarry(run, path); ok {
		out = append(out, f)
	}
	for n, i := range path {
		if p := c.places[i].pipe; cleaned[p] && c.gapBelow[p] {
			out = append(out, Flag{Kind: FlagOverGap, At: run.Path[n].From, Pipe: run.Path[n].Pipe})
			break
		}
	}
	return out
}

// weakCarry finds the cleaned pipe whose water moves slowest under the run's
// own flow, where that is under the cleansing velocity.
func (c *catalogue) weakCarry(run *Run, path []int) (Flag, bool) {
	var worst Flag
	slowest := cleansing
	for n, i := range path {
		p := c.places[i].pipe
		net := &c.site.Network.Pipes[p]
		slope, known := c.g.Fall(p)
		bore, ok := c.tables.Bore(net.Material, net.Size)
		if !run.Path[n].Cleaned || !known || !ok || slope <= 0 || len(run.Passes) == 0 {
			continue
		}
		carry := rig.CarryAt(run.Passes[0].Flow, bore, slope, c.tables.Materials[net.Material].Manning)
		if !carry.Full && carry.Velocity < slowest {
			slowest = carry.Velocity
			worst = Flag{Kind: FlagWeakCarry, At: run.Path[n].From, Pipe: run.Path[n].Pipe}
		}
	}
	return worst, worst.Kind != ""
}

// findGaps notes the pipes below which a pipe of the job is never cleaned.
func (c *catalogue) findGaps() {
	c.gapBelow = make([]bool, len(c.pipes))
	for _, p := range c.g.Order { // lower pipes first
		if q := c.g.Next[p]; q >= 0 {
			c.gapBelow[p] = c.gapBelow[q] || c.pipes[q].target && !c.reachable[q]
		}
	}
}
