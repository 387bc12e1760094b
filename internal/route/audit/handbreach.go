package audit

import (
	"slices"

	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
)

// handBreach checks one breach that the plan tells; before are those told
// before it. What depends on the order of the runs is checked with it.
func (c *checker) handBreach(b *route.Breach, before []route.Breach) {
	d := &c.site.ByHand
	n, ok := c.find(b.Key)
	if !ok || !slices.Contains(slices.Concat(d.Keep, d.Bar, d.Order), b.Key) {
		c.add(RuleHand, "run by hand", "nothing was decided about %+v", b.Key)
		return
	}
	if slices.ContainsFunc(before, func(o route.Breach) bool { return o.Key == b.Key && o.What == b.What }) {
		c.add(RuleHand, n.name, "breach %s is told twice", b.What)
	}
	isPipe := b.What == route.CutShort || b.What == route.NotLowestFirst || b.What == route.OverUncleaned
	if (b.Rule != nil) != (b.What == route.BreaksRule) || (b.Pipe != "") != isPipe ||
		b.Other != (site.RunKey{}) && b.What != route.InTheWay {
		c.add(RuleHand, n.name, "breach %s comes with what belongs to another", b.What)
		return
	}
	if !c.breachIsSo(b, &n) {
		c.add(RuleHand, n.name, "breach %s is not so", b.What)
	}
}

func (c *checker) breachIsSo(b *route.Breach, n *named) bool {
	d := &c.site.ByHand
	access := c.net.Nodes[n.access].Access
	end := n.hops[len(n.hops)-1].pipe
	switch b.What {
	case route.BreaksRule:
		return c.ruleIsBroken(b.Rule, n, end)
	case route.SpotUnfit:
		return !usable(n.spot)
	case route.AccessShut:
		return access.OutOfService
	case route.FacesAway:
		return !leads(access, n.down)
	case route.NotInJob:
		return !c.pipes[end].target
	case route.OverUncleaned:
		on := slices.ContainsFunc(n.hops, func(h hop) bool { return c.pipeID(h.pipe) == b.Pipe })
		return on && c.gaps()[c.pipe[b.Pipe]] && !c.makeable(n, strict)
	case route.KeptAndBarred:
		return slices.Contains(d.Keep, b.Key) && slices.Contains(d.Bar, b.Key)
	case route.InTheWay:
		return !c.ordered() && slices.Contains(d.Keep, b.Key) && c.isInTheWay(b, n)
	case route.OutOfWater:
		return c.ordered() && slices.Contains(d.Order, b.Key) || slices.ContainsFunc(c.plan.Shortfalls, func(s route.Shortfall) bool {
			return s.Pipe == b.Key.End && s.Reason == route.NoWater
		})
	case route.KeptLeftOut:
		return c.ordered() && slices.Contains(d.Keep, b.Key) && !slices.Contains(d.Order, b.Key)
	case route.OrderedBarred, route.NothingLeft, route.CutShort, route.NotLowestFirst:
		return slices.Contains(d.Order, b.Key)
	}
	return false
}

// ruleIsBroken checks the rule that keeps a run from being made.
func (c *checker) ruleIsBroken(s *route.Shortfall, n *named, end int) bool {
	place := n.name
	c.sameLength(RuleHand, place, "length of its last pipe", s.Length, c.pipes[end].length)
	c.told(s, place)
	own := s.Pipe == n.key.End && s.Size == c.pipes[end].Size && s.Cure == (route.Cure{}) &&
		(s.Spot == "" || s.Spot == n.key.Spot) && (s.Hose == "" || s.Hose == n.key.Hose) && (s.Access == "" || s.Access == n.key.Access)
	switch {
	case !own:
		return false
	case s.Reason == route.NoWater || s.Reason == route.NoNozzle && s.AtPipe == "":
		c.figures(s, place)
		return c.ordered() || !c.makeable(n, strict) // the order looks at what is left to clean
	}
	c.reason(s, end, place)
	return !c.makeable(n, strict)
}

// makeable tells whether a run can be made at all, cleaning some far part of
// its way.
func (c *checker) makeable(n *named, slack leeway) bool {
	return c.makes(n, waiver{slack: slack}, func(*track, []bool) bool { return true })
}

// makes tells whether a run can be made in a way that is as wanted.
func (c *checker) makes(n *named, w waiver, wanted func(t *track, cleaned []bool) bool) bool {
	for i := range n.ways {
		t := &n.ways[i]
		for _, cleaned := range c.cleanings(t, len(t.hops)-1, w) {
			if wanted(t, cleaned) && c.servedFrom(t, cleaned, n, w) {
				return true
			}
		}
	}
	return false
}

// servedFrom tells whether a run can be made from its own spot.
func (c *checker) servedFrom(t *track, cleaned []bool, n *named, w waiver) bool {
	if !c.allowed(t, n.hose, w) || !c.standsAt(t, n.spot, n.hose, w) {
		return false
	}
	demands, ok := c.demands(t, cleaned, n.hose, w)
	return ok && c.tankServes(n.spot, demands)
}

// isInTheWay checks that a run told to stand in the way of a kept one does: all
// that either can clean takes the other's last pipe.
func (c *checker) isInTheWay(b *route.Breach, n *named) bool {
	d := &c.site.ByHand
	if b.Other == (site.RunKey{}) {
		return len(d.Keep)+len(d.Bar) > 1
	}
	other, ok := c.find(b.Other)
	if !ok || b.Other == b.Key || !slices.Contains(d.Keep, b.Other) || !c.heeded(b.Other) {
		return false
	}
	return b.Other.End == b.Key.End || !c.leaves(n, b.Other.End) || !c.leaves(&other, b.Key.End)
}

// leaves tells whether a run can be made that does not clean a pipe.
func (c *checker) leaves(n *named, id network.PipeID) bool {
	return c.makes(n, beyondDoubt, func(t *track, cleaned []bool) bool {
		for i, h := range t.hops {
			if cleaned[i] && c.pipeID(h.pipe) == id {
				return false
			}
		}
		return true
	})
}
