package audit

import (
	"linemap/internal/rig"
	"linemap/internal/route"
	"linemap/internal/unit"
)

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
		if s.Reason == route.NoNozzle && c.lacksOneNozzle(&t, hose) {
			return
		}
	}
	c.add(RuleShortfall, place, "hose %s from %s does not break %s as told", s.Hose, c.nodeName(access), s.Reason)
}

// broken lists everything that an attempt breaks.
func (c *checker) broken(t *track, hose *rig.Hose, s *route.Shortfall) []breach {
	out := c.breaches(t, hose, strict)
	if spot := c.spot(s.Spot); spot != nil && usable(spot) {
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

// lacksOneNozzle tells whether a run that breaks no rule of the path still asks
// a pass of pipes that no one nozzle serves, however little it cleans.
func (c *checker) lacksOneNozzle(t *track, hose *rig.Hose) bool {
	for _, cleaned := range c.cleanings(t, len(t.hops)-1, waiver{slack: lenient}) {
		if _, ok := c.demands(t, cleaned, hose, waiver{slack: lenient}); ok {
			return false
		}
	}
	return true
}
