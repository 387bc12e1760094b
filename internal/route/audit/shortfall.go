package audit

import (
	"fmt"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/route"
	"linemap/internal/unit"
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
}

// reason checks that the attempt told breaks the rule told, by as much.
func (c *checker) reason(s *route.Shortfall, pipe int, place string) {
	c.figures(s, place)
	switch s.Reason {
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
		if (f.value > 0) != (s.Reason == f.reason) {
			c.add(RuleShortfall, place, "reason %s with %s by %v", s.Reason, f.name, f.value)
		}
	}
	turned := s.Reason == route.TurnTooSharp || s.Reason == route.BranchTurn
	if (s.ByAngle > 0) != turned {
		c.add(RuleShortfall, place, "reason %s with angle by %s", s.Reason, degrees(s.ByAngle))
	}
}

// attempt makes the push that is told again and looks for the rule that broke.
func (c *checker) attempt(s *route.Shortfall, pipe int, place string) {
	access, okAccess := c.node[s.Access]
	hose := c.hose(s.Hose)
	if !okAccess || hose == nil {
		c.add(RuleShortfall, place, "no attempt is told: access %q, hose %q", s.Access, s.Hose)
		return
	}
	for _, w := range c.ways(pipe) {
		if w.access != access {
			continue
		}
		t := c.walk(w)
		for _, b := range c.broken(&t, hose, s) {
			if c.matches(s, &t, b) {
				return
			}
		}
	}
	c.add(RuleShortfall, place, "hose %s from %s does not break %s as told", s.Hose, c.nodeName(access), s.Reason)
}

// broken lists everything that an attempt breaks.
func (c *checker) broken(t *track, hose *rig.Hose, s *route.Shortfall) []breach {
	out := c.breaches(t, hose, strict)
	if spot := c.spot(s.Spot); spot != nil {
		if over := c.overReel(t, len(t.hops), spot, hose); over > 0 {
			out = append(out, breach{reason: route.OverReel, by: float64(over)})
		}
	}
	drags := c.drags(t, hose)
	for i := range t.hops {
		out = append(out, c.weak(t, i, hose, drags)...)
	}
	return out
}

// weak lists the passes that one hop asks for and that no nozzle makes out to
// there.
func (c *checker) weak(t *track, hop int, hose *rig.Hose, drags []unit.Force) []breach {
	if !c.pipes[t.hops[hop].pipe].target {
		return nil
	}
	cleaned := make([]bool, len(t.hops))
	cleaned[hop] = true
	var out []breach
	for _, d := range c.duties(t, cleaned) {
		if len(c.choices(t, &d, hose, drags, lenient)) > 0 {
			continue
		}
		b := breach{reason: route.NoNozzle, hop: hop}
		var worst unit.Force
		for _, drag := range drags[:hop+1] {
			worst = max(worst, drag)
		}
		for i := range c.site.Rig.Nozzles {
			n := &c.site.Rig.Nozzles[i]
			op := c.operate(hose, n, c.ceiling(t, hop))
			if d.worstPlace(n) < 0 || !c.fits(t, hop, n) || !op.ok {
				continue
			}
			if by := float64(worst - op.Thrust); b.reason == route.NoNozzle || by < b.by {
				b.reason, b.by = route.PullShort, by
			}
		}
		out = append(out, b)
	}
	return out
}

// matches tells whether a breach is the one told: the rule, the place where one
// is told, and by how much.
func (c *checker) matches(s *route.Shortfall, t *track, b breach) bool {
	if b.reason != s.Reason {
		return false
	}
	h := t.hops[b.hop]
	if s.AtPipe != "" && s.AtPipe != c.net.Pipes[h.pipe].ID || s.AtNode != "" && s.AtNode != c.nodeID(h.node) {
		return false
	}
	switch s.Reason {
	case route.OverReel:
		return near(float64(s.ByLength), b.by, hair)
	case route.OverBends:
		return near(s.ByBends, b.by, hair)
	case route.TurnTooSharp, route.BranchTurn:
		return near(float64(s.ByAngle), b.by, hair)
	case route.PullShort:
		return alike(float64(s.ByForce), b.by)
	}
	return true
}

func (g *ground) nodeID(i int) network.NodeID {
	if i < 0 {
		return ""
	}
	return g.net.Nodes[i].ID
}

// cure tries a cure on a copy of the site.
func (c *checker) cure(s *route.Shortfall, pipe int, place string) {
	var mended *ground
	w := waiver{slack: lenient}
	switch s.Cure.Kind {
	case route.LongerHose:
		mended = c.withLongerHose(s.Hose, s.Cure.Length)
	case route.OtherSpot:
		if s.Reason == route.NoSpot {
			return // without a spot nothing else can be tried
		}
		mended, w = c.withSpotNear(s.Access, s.Cure.Length), waiver{slack: lenient, only: s.Access}
	case route.NewCleanout:
		mended = c.withCleanout(s.Cure.Pipe, s.Cure.At)
	case route.SmallerHose:
		mended, w = c.ground, waiver{slack: lenient, hose: true, reel: true, pull: true}
	case route.OtherNozzle:
		mended, w = c.ground, waiver{slack: lenient, pull: true}
	case route.StrongerRig:
		mended, w = c.ground, waiver{slack: lenient, pull: true, tank: true}
	case route.MoreWater:
		mended, w = c.ground, waiver{slack: lenient, tank: true}
	case route.ClearByHand:
		return // a person with a tool needs no run
	default:
		c.add(RuleCure, place, "there is no cure %q", s.Cure.Kind)
		return
	}
	if mended == nil {
		c.add(RuleCure, place, "the cure %s cannot be tried: %+v", s.Cure.Kind, s.Cure)
		return
	}
	rest, cut := mended.pipe[trialID] // what a new cleanout leaves below it
	if !mended.reachable(mended.pipe[s.Pipe], w) || cut && mended.pipes[rest].target && !mended.reachable(rest, w) {
		c.add(RuleCure, place, "the cure %s does not make the pipe reachable: %s", s.Cure.Kind, metres(s.Cure.Length))
		return
	}
	c.gains(s, mended, w, place)
}

// gains checks the length of given up pipe that a cure tried on the site makes
// reachable.
func (c *checker) gains(s *route.Shortfall, mended *ground, w waiver, place string) {
	switch s.Cure.Kind {
	case route.LongerHose, route.OtherSpot, route.NewCleanout:
	default:
		if s.Cure.Gains != 0 {
			c.add(RuleCure, place, "a cure that was not tried gains nothing, not %s", metres(s.Cure.Gains))
		}
		return
	}
	var sum unit.Length
	for _, other := range c.plan.Shortfalls {
		i, ok := c.pipe[other.Pipe]
		if ok && !c.reachable(i, beyondDoubt) && mended.reachable(mended.pipe[other.Pipe], w) {
			sum += c.pipes[i].length
		}
	}
	c.sameLength(RuleCure, place, fmt.Sprintf("length gained by %s", s.Cure.Kind), s.Cure.Gains, sum)
}
