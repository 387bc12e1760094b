package audit

import (
	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
)

// shortfalls checks that every pipe given up is out of reach for the reason
// told, and that its cure would work.
func (c *checker) shortfalls() {
	for i := range c.plan.Shortfalls {
		s := &c.plan.Shortfalls[i]
		pipe, ok := c.pipe[s.Pipe]
		if !ok {
			continue // coverage has told so
		}
		place := "shortfall " + c.pipeName(pipe)
		c.sameLength(RuleShortfall, place, "length", s.Length, c.pipes[pipe].length)
		if s.Size != c.pipes[pipe].Size {
			c.differ(RuleShortfall, place, "size", s.Size, c.pipes[pipe].Size)
		}
		if c.isByHand(s.Reason) {
			c.told(s, place)
			c.handGap(s, pipe, place)
			continue
		}
		if dry := s.Reason == route.NoWater && len(c.site.Water) == 0; !dry && c.reachable(pipe, beyondDoubt) {
			c.add(RuleShortfall, place, "some run can clean this pipe")
			continue
		}
		c.told(s, place)
		c.reason(s, pipe, place)
		c.cure(s, pipe, place)
	}
}

// told checks that what a shortfall names is there.
func (c *checker) told(s *route.Shortfall, place string) {
	_, access := c.node[s.Access]
	_, atNode := c.node[s.AtNode]
	_, atPipe := c.pipe[s.AtPipe]
	if s.Spot != "" && c.spot(s.Spot) == nil || s.Hose != "" && c.hose(s.Hose) == nil ||
		s.Access != "" && !access || s.AtNode != "" && !atNode || s.AtPipe != "" && !atPipe {
		c.add(RuleShortfall, place, "it names spot %q, hose %q, access %q, node %q and pipe %q, and one is not there",
			s.Spot, s.Hose, s.Access, s.AtNode, s.AtPipe)
	}
	moves := s.Cure.Kind == route.LongerHose || s.Cure.Kind == route.OtherSpot
	if s.Cure.Length != 0 && !moves || (s.Cure.At != 0 || s.Cure.Pipe != "") && s.Cure.Kind != route.NewCleanout {
		c.add(RuleCure, place, "the cure %s comes with a figure of another", s.Cure.Kind)
	}
	if s.Cure.Kind != route.FreeRun && s.Cure.Run != (site.RunKey{}) {
		c.add(RuleCure, place, "the cure %s comes with a run", s.Cure.Kind)
	}
}

// reason checks that the attempt told breaks the rule told, by as much.
func (c *checker) reason(s *route.Shortfall, pipe int, place string) {
	c.figures(s, place)
	switch s.Reason {
	case route.NoHose:
		if len(c.site.Rig.Hoses) > 0 {
			c.add(RuleShortfall, place, "the rig has a hose")
		}
	case route.NoSpot:
		for i := range c.site.Spots {
			if usable(&c.site.Spots[i]) {
				c.add(RuleShortfall, place, "spot %q can be used", c.site.Spots[i].ID)
				return
			}
		}
	case route.NoAccess:
		for _, w := range c.ways(pipe) {
			if a := c.net.Nodes[w.access].Access; !a.OutOfService && leads(a, w.down) {
				c.add(RuleShortfall, place, "%s leads to the pipe", c.nodeName(w.access))
				return
			}
		}
	case route.NoWater:
		if len(c.site.Water) > 0 && !c.reachable(pipe, waiver{slack: lenient, tank: true}) {
			c.add(RuleShortfall, place, "more water would not do")
		}
	case route.OverReel, route.OverBends, route.HoseTooLarge, route.HoseTooSmall, route.TurnTooSharp,
		route.BranchTurn, route.PullShort, route.NoNozzle, route.Blocked:
		c.attempt(s, pipe, place)
	default:
		c.add(RuleShortfall, place, "there is no reason %q", s.Reason)
	}
}

// figures checks that a reason comes with its own figure and no other.
func (c *checker) figures(s *route.Shortfall, place string) {
	for _, f := range []struct {
		name   string
		value  float64
		reason route.Reason
	}{
		{"length", float64(s.ByLength), route.OverReel},
		{"bends", s.ByBends, route.OverBends},
		{"force", float64(s.ByForce), route.PullShort},
		{"water", float64(s.ByWater), route.NoWater},
	} {
		// A drag as large as the thrust is a pull short by nothing.
		nothing := f.value == 0 && f.reason == route.PullShort
		if (f.value > 0) != (s.Reason == f.reason) && !nothing {
			c.add(RuleShortfall, place, "reason %s with %s by %v", s.Reason, f.name, f.value)
		}
	}
	turned := s.Reason == route.TurnTooSharp || s.Reason == route.BranchTurn
	if (s.ByAngle > 0) != turned {
		c.add(RuleShortfall, place, "reason %s with angle by %s", s.Reason, degrees(s.ByAngle))
	}
}

func (g *ground) nodeID(i int) network.NodeID {
	if i < 0 {
		return ""
	}
	return g.net.Nodes[i].ID
}
