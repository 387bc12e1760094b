package audit

import (
	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/unit"
)

// steep is the climb from which a run goes up a stack.
var steep = unit.Degrees(45)

// flags checks the warnings of a run. A small margin and weak carry are the
// planner's judgement; they need only stand at a place of the run. The gap is
// checked with the order.
func (c *checker) flags(r *run) {
	entry := unit.Length(c.entry(r))
	end := entry + r.length()
	for _, f := range r.Flags {
		near, far, on := entry, end, true
		if f.Pipe != "" {
			var h *hop
			if h, on = r.hopOf(c.ground, f.Pipe); on {
				near, far = entry+h.near, entry+h.far
			}
		}
		if !on || (f.At != 0 || f.Pipe != "") && !(f.At >= near-hair && f.At <= far+hair) {
			c.add(RuleFlags, r.name, "flag %s stands off the run: %s at %s", f.Kind, f.Pipe, metres(f.At))
		}
		if !known(f.Kind) {
			c.add(RuleFlags, r.name, "there is no flag %q", f.Kind)
		}
	}
	c.onlyIf(r, route.FlagDownstream, r.down)
	climbs := false
	for _, h := range r.hops {
		p := &c.pipes[h.pipe]
		climbs = climbs || !r.down && p.climb > steep
		c.flagAt(r, route.FlagFragile, p.ID, p.Fragile)
		c.flagAt(r, route.FlagLocator, p.ID, h.branch)
	}
	c.onlyIf(r, route.FlagStack, climbs)
	c.onlyIf(r, route.FlagEarly, len(c.early[r]) > 0)
}

// onlyIf checks that a run carries a flag if and only if it must.
func (c *checker) onlyIf(r *run, kind route.FlagKind, must bool) {
	has := false
	for _, f := range r.Flags {
		has = has || f.Kind == kind
	}
	if has != must {
		c.differ(RuleFlags, r.name, "flag "+string(kind), has, must)
	}
}

// flagAt checks that a run carries a flag at a pipe if and only if it must.
func (c *checker) flagAt(r *run, kind route.FlagKind, pipe network.PipeID, must bool) {
	has := false
	for _, f := range r.Flags {
		has = has || f.Kind == kind && f.Pipe == pipe
	}
	if has != must {
		c.differ(RuleFlags, r.name+", pipe "+string(pipe), "flag "+string(kind), has, must)
	}
}

// hopOf finds a pipe on a run's path.
func (r *run) hopOf(g *ground, id network.PipeID) (*hop, bool) {
	for i := range r.hops {
		if g.net.Pipes[r.hops[i].pipe].ID == id {
			return &r.hops[i], true
		}
	}
	return nil, false
}

func known(k route.FlagKind) bool {
	switch k {
	case route.FlagDownstream, route.FlagLocator, route.FlagFragile, route.FlagSmallMargin,
		route.FlagWeakCarry, route.FlagOverGap, route.FlagStack,
		route.FlagEarly:
		return true
	}
	return false
}
