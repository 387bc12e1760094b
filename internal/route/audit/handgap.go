package audit

import (
	"slices"

	"linemap/internal/route"
	"linemap/internal/site"
)

func (c *checker) isByHand(r route.Reason) bool {
	return r == route.BarredByHand || r == route.KeptByHand || r == route.LeftOut
}

// handGap checks a pipe that only decisions made by hand are said to keep from
// being cleaned.
func (c *checker) handGap(s *route.Shortfall, pipe int, place string) {
	c.figures(s, place)
	if s.Spot != "" || s.Hose != "" || s.Access != "" || s.AtPipe != "" || s.AtNode != "" {
		c.add(RuleShortfall, place, "reason %s has no attempt", s.Reason)
	}
	if !c.reachable(pipe, waiver{slack: lenient}) {
		c.add(RuleHand, place, "no run can clean this pipe, whatever is decided by hand")
	}
	c.untried(s, place)
	if c.ordered() || s.Reason == route.LeftOut {
		if !c.ordered() || s.Reason != route.LeftOut || s.Cure.Kind != route.OwnOrder {
			c.add(RuleHand, place, "reason %s with cure %s, while an order was made by hand: %v", s.Reason, s.Cure.Kind, c.ordered())
		}
		return
	}
	h := c.inForce(site.RunKey{})
	if c.addable(pipe, h) {
		c.add(RuleHand, place, "a run that is not barred could be made beside the others, and cleans this pipe")
	}
	c.freeing(s, pipe, h, place)
}

// freeing checks the decision that is said to be taken back for a pipe.
func (c *checker) freeing(s *route.Shortfall, pipe int, h *hand, place string) {
	d := &c.site.ByHand
	runs := d.Keep
	if s.Reason == route.BarredByHand {
		runs = d.Bar
	}
	switch none := (site.RunKey{}); {
	case s.Cure.Kind != route.FreeRun:
		c.add(RuleCure, place, "reason %s with cure %s", s.Reason, s.Cure.Kind)
	case s.Reason == route.BarredByHand && len(h.bar) == 0 || s.Reason == route.KeptByHand && len(h.keep) == 0:
		c.add(RuleHand, place, "reason %s, and there is no such run", s.Reason)
	case s.Cure.Run == none:
	case !slices.Contains(runs, s.Cure.Run):
		c.add(RuleCure, place, "the run to leave to the planner is not the one decided on: %+v", s.Cure.Run)
	case !c.reachable(pipe, waiver{slack: lenient, hand: c.inForce(s.Cure.Run)}):
		c.add(RuleCure, place, "leaving the run to the planner does not make the pipe reachable: %+v", s.Cure.Run)
	}
}

// addable tells whether, after all runs of the plan, another could be made that
// cleans a pipe.
func (c *checker) addable(pipe int, h *hand) bool {
	w := waiver{slack: strict, hand: h}
	clean := c.done()
	for end := range c.pipes {
		if !c.pipes[end].target || clean[end] {
			continue
		}
		for _, way := range c.ways(end) {
			if !slices.Contains(way.pipes, pipe) {
				continue
			}
			t := c.walk(way)
			cleaned, ok := c.rest(&t, clean)
			if !ok {
				continue
			}
			for i := range c.site.Rig.Hoses {
				hose := &c.site.Rig.Hoses[i]
				if c.allowed(&t, hose, w) && c.served(&t, cleaned, hose, w) {
					return true
				}
			}
		}
	}
	return false
}

// done are the pipes that the plan cleans, or would if the water lasted.
func (c *checker) done() []bool {
	clean := make([]bool, len(c.pipes))
	for _, r := range c.runs {
		for i, pipe := range r.pipes {
			clean[pipe] = clean[pipe] || r.cleaned[i]
		}
	}
	for _, s := range c.plan.Shortfalls {
		if i, ok := c.pipe[s.Pipe]; ok && s.Reason == route.NoWater && !clean[i] {
			clean[i] = c.reachable(i, beyondDoubt)
		}
	}
	return clean
}

// rest is what a run along a track cleans when some pipe is clean before; ok is
// false where the rules let no run do so.
func (c *checker) rest(t *track, clean []bool) (cleaned []bool, ok bool) {
	started := false
	for _, h := range t.hops {
		is := c.pipes[h.pipe].target && !clean[h.pipe]
		if started && c.pipes[h.pipe].target && !is || t.down && clean[h.pipe] {
			return nil, false
		}
		started = started || is
		cleaned = append(cleaned, is)
	}
	return cleaned, started
}
