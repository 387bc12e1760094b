package audit

import (
	"fmt"
	"slices"

	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
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
	if !ok || len(n.ways) > 1 {
		c.add(RuleWhy, place, "%+v stands for no run, or round a ring for more than one", i.Run)
		return
	}
	n.name = place
	leaves := unit.Length(0)
	if i.Not == nil {
		leaves = c.leftBy(&n.track, r)
	}
	c.sameLength(RuleWhy, place, "pipe left to another run", i.Leaves, leaves)
	switch {
	case i.Not == nil:
		if leaves == 0 && !c.makeable(&n, lenient) {
			c.add(RuleWhy, place, "%+v is told to be possible, and no rule allows it", i.Run)
		}
	case i.Not.Key != i.Run:
		c.differ(RuleWhy, place, "run that is not made", i.Not.Key, i.Run)
	case !c.barredSo(i.Not, &n):
		c.add(RuleWhy, place, "%s is not so of %+v", i.Not.What, i.Run)
	}
}

// leftBy is the pipe that a run of the plan cleans and another way does not go
// through.
func (c *checker) leftBy(way *track, r *run) (sum unit.Length) {
	for i, h := range r.hops {
		if r.cleaned[i] && !slices.ContainsFunc(way.hops, func(o hop) bool { return o.pipe == h.pipe }) {
			sum += c.pipes[h.pipe].length
		}
	}
	return sum
}

// barredSo tells whether a run cannot be made for what is told.
func (c *checker) barredSo(b *route.Breach, n *named) bool {
	if (b.Rule != nil) != (b.What == route.BreaksRule) || (b.Pipe != "") != (b.What == route.OverUncleaned) || b.Other != (site.RunKey{}) {
		return false
	}
	switch b.What {
	case route.BreaksRule:
		return c.ruleIsBroken(b.Rule, n, n.hops[len(n.hops)-1].pipe)
	case route.FacesAway:
		return !leads(c.net.Nodes[n.access].Access, n.down)
	case route.OverUncleaned:
		return c.gaps()[c.pipe[b.Pipe]] && slices.ContainsFunc(n.hops, func(h hop) bool { return c.pipeID(h.pipe) == b.Pipe })
	}
	return false
}
