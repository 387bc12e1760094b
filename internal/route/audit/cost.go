package audit

import "time"

// cost checks the sums of the day and the bound.
func (c *checker) cost() {
	var sum time.Duration
	for _, e := range c.plan.Day {
		sum += e.Takes
	}
	p := c.plan
	if p.Cost != sum {
		c.differ(RuleCost, "plan", "the cost is the sum of the day", p.Cost, sum)
	}
	if p.Bound > sum {
		c.differ(RuleCost, "plan", "the bound is at most the cost", p.Bound, sum)
	}
	if p.Bound < 0 {
		c.differ(RuleCost, "plan", "the bound is a time", p.Bound, 0)
	}
	if p.Proven && p.Cost != p.Bound {
		c.differ(RuleCost, "plan", "proven says that the cost equals the bound", p.Cost, p.Bound)
	}
	if !p.Proven && !p.Stopped && p.Cost == p.Bound {
		c.add(RuleCost, "plan", "the cost equals the bound, and is not called proven")
	}
	if p.Stopped && p.Proven {
		c.add(RuleCost, "plan", "a search that was cancelled proves nothing")
	}
}
