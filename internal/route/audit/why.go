package audit

import (
	"fmt"

	"linemap/internal/route"
	"linemap/internal/site"
)

// whys checks what the plan tells of the runs that it does not make: each run
// has its telling, and a rule told is broken, as much and where it is told.
func (c *checker) whys() {
	runs := map[int]*run{}
	for _, r := range c.runs {
		runs[r.Number] = r
	}
	last := 0
	for i := range c.plan.Whys {
		w := &c.plan.Whys[i]
		place := fmt.Sprintf("why of run %d", w.Run)
		r := runs[w.Run]
		if r == nil || w.Run <= last {
			c.add(RuleWhy, place, "it stands for no run of the plan, or not in its order")
			continue
		}
		last = w.Run
		for j := range w.Instead {
			c.instead(&w.Instead[j], r, place)
		}
	}
}

// instead checks one run, or nozzle, told to have been possible or not.
func (c *checker) instead(i *route.Instead, r *run, place string) {
	if i.Choice == route.ByNozzle {
		if i.Run != (site.RunKey{}) || c.nozzle(i.Nozzle) == nil || i.Nozzle == r.Passes[0].Nozzle {
			c.add(RuleWhy, place, "nozzle %q is none that could have been chosen", i.Nozzle)
		}
		return
	}
	n, ok := c.find(i.Run)
	if !ok {
		c.add(RuleWhy, place, "%+v is no run", i.Run)
		return
	}
	n.name = place
	switch {
	case i.Not == nil:
		if i.Leaves == 0 && !c.makeable(&n, lenient) {
			c.add(RuleWhy, place, "%+v is told to be possible, and no rule allows it", i.Run)
		}
	case i.Not.Key != i.Run:
		c.differ(RuleWhy, place, "run that is not made", i.Not.Key, i.Run)
	case i.Not.What == route.BreaksRule && (i.Not.Rule == nil || !c.ruleIsBroken(i.Not.Rule, &n, n.hops[len(n.hops)-1].pipe)):
		c.add(RuleWhy, place, "the rule told is not broken by %+v", i.Run)
	case i.Not.What == route.FacesAway && leads(c.net.Nodes[n.access].Access, n.down):
		c.add(RuleWhy, place, "%s leads there", c.nodeName(n.access))
	}
}
