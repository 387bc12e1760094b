// Package audit checks a plan against the rules, independently of the planner.
//
// [Check] knows the rule book of package route, the raw data of the site and
// the plan's figures; it measures the drain anew, re-solves every operating
// point and relives the whole day minute by minute. It shares no code with the
// planner, so an error in either shows as a disagreement, a [Problem]. A good
// plan has none.
//
// A plan may be checked that came from anywhere: nothing in it is trusted.
package audit

import (
	"fmt"

	"linemap/internal/rig"
	"linemap/internal/route"
	"linemap/internal/site"
)

// checker is a check at work.
type checker struct {
	*ground
	*report
	plan *route.Plan
	runs []*run // those whose names all resolve
	// trials are the sites with a cure tried on them.
	trials map[trialKey]*ground
	// early are the lower pipes before which the runs of an order made by hand
	// are made.
	early map[*run][]int
}

// run is a run of the plan with its names resolved and its path walked.
type run struct {
	*route.Run
	track
	name    string
	spot    *site.Spot
	hose    *rig.Hose
	cleaned []bool // by hop
}

// Check returns every disagreement between a plan and the rules, in the order
// of the day; none for a plan that keeps them. The site must be the one that
// the plan was made for. Site and plan are only read.
func Check(s *site.Site, t *site.Tables, p *route.Plan) []Problem {
	r := &report{}
	if s == nil || t == nil || p == nil {
		r.add(RulePlan, "plan", "site, tables and plan are all needed")
		return r.problems
	}
	c := &checker{ground: survey(s, t, r), report: r, plan: p, trials: map[trialKey]*ground{}, early: map[*run][]int{}}
	c.resolve()
	c.blocks()
	c.coverage()
	c.order()
	for _, r := range c.runs {
		c.path(r)
		c.readings(r)
		c.fittings(r)
		c.passes(r)
		c.flags(r)
	}
	c.day()
	c.cost()
	c.byHand()
	c.shortfalls()
	c.whys()
	return r.problems
}

// resolve finds what the plan names and walks its paths.
func (c *checker) resolve() {
	for b := range c.plan.Blocks {
		block := &c.plan.Blocks[b]
		spot, hose := c.spot(block.Spot), c.hose(block.Hose)
		if spot == nil {
			c.add(RulePlan, blockName(b), "there is no spot %q", block.Spot)
		}
		if hose == nil {
			c.add(RulePlan, blockName(b), "there is no hose %q", block.Hose)
		}
		for i := range block.Runs {
			r := &run{Run: &block.Runs[i], name: fmt.Sprintf("run %d", block.Runs[i].Number), spot: spot, hose: hose}
			if c.resolveRun(r) && spot != nil && hose != nil {
				c.runs = append(c.runs, r)
			}
		}
	}
}

func (c *checker) resolveRun(r *run) bool {
	ok := true
	miss := func(format string, args ...any) {
		c.add(RulePlan, r.name, format, args...)
		ok = false
	}
	access, known := c.node[r.Access]
	if !known {
		miss("there is no node %q", r.Access)
	}
	if r.Direction != route.Upstream && r.Direction != route.Downstream {
		miss("there is no direction %q", r.Direction)
	}
	if len(r.Path) == 0 {
		miss("the run has no path")
	}
	w := way{access: access, down: r.Direction == route.Downstream}
	for _, leg := range r.Path {
		i, known := c.pipe[leg.Pipe]
		if !known {
			miss("there is no pipe %q", leg.Pipe)
			continue
		}
		w.pipes = append(w.pipes, i)
		r.cleaned = append(r.cleaned, leg.Cleaned)
	}
	if ok {
		r.track = c.walk(w)
	}
	return ok
}

func blockName(b int) string { return fmt.Sprintf("block %d", b+1) }
