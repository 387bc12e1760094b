package audit

import (
	"fmt"

	"linemap/internal/route"
)

// coverage checks that every pipe of the job is cleaned exactly once or
// explained exactly once, and nothing else is either.
func (c *checker) coverage() {
	cleaned := make([]int, len(c.pipes))
	for b := range c.plan.Blocks {
		for _, r := range c.plan.Blocks[b].Runs {
			for _, leg := range r.Path {
				if i, ok := c.pipe[leg.Pipe]; ok && leg.Cleaned {
					cleaned[i]++
				}
			}
		}
	}
	explained := make([]int, len(c.pipes))
	for _, s := range c.plan.Shortfalls {
		i, ok := c.pipe[s.Pipe]
		if !ok {
			c.add(RuleCoverage, "shortfall "+string(s.Pipe), "there is no such pipe")
			continue
		}
		explained[i]++
	}
	for i := range c.pipes {
		name := c.pipeName(i)
		total := cleaned[i] + explained[i]
		switch {
		case !c.pipes[i].target && total > 0:
			c.add(RuleCoverage, name, "the pipe is not in the job")
		case c.pipes[i].target && total != 1:
			c.differ(RuleCoverage, name, "a pipe of the job is either cleaned or a shortfall, and that once",
				fmt.Sprintf("cleaned %d times, %d shortfalls", cleaned[i], explained[i]), "one of them, once")
		}
	}
}

// gaps are the pipes that the plan gives up.
func (c *checker) gaps() []bool {
	gap := make([]bool, len(c.pipes))
	for _, s := range c.plan.Shortfalls {
		if i, ok := c.pipe[s.Pipe]; ok {
			gap[i] = true
		}
	}
	return gap
}

// below is the nearest target on a pipe's way to the outlet that the plan does
// not give up, -1 for none. over tells that given up pipe lies between, under
// that some lies anywhere below.
func (c *checker) below(pipe int, gap []bool) (nearest int, over, under bool) {
	nearest = -1
	for next := c.graph.Next[pipe]; next >= 0; next = c.graph.Next[next] {
		switch {
		case gap[next]:
			under = true
			over = over || nearest < 0
		case c.pipes[next].target && nearest < 0:
			nearest = next
		}
	}
	return nearest, over, under
}

// order checks that pipe is cleaned from the lowest up, that a run cleans all
// that it may, and that runs over a gap say so.
func (c *checker) order() {
	gap := c.gaps()
	clean := make([]bool, len(c.pipes))
	for _, r := range c.runs {
		c.lowestFirst(r, gap, clean)
		c.farPart(r, clean)
		for i, pipe := range r.pipes {
			clean[pipe] = clean[pipe] || r.cleaned[i]
		}
	}
}

// lowestFirst checks that what lies below is clean before, or in the same run.
func (c *checker) lowestFirst(r *run, gap, clean []bool) {
	now := make(map[int]bool)
	for i, pipe := range r.pipes {
		now[pipe] = r.cleaned[i]
	}
	must, may := false, false
	for i, pipe := range r.pipes {
		if !r.cleaned[i] {
			continue
		}
		nearest, over, under := c.below(pipe, gap)
		must, may = must || over, may || under
		if nearest >= 0 && !clean[nearest] && !now[nearest] {
			c.tooEarly(r, pipe, nearest)
		}
	}
	has := false
	for _, f := range r.Flags {
		has = has || f.Kind == route.FlagOverGap
	}
	if must && !has || has && !may {
		c.differ(RuleFlags, r.name, "flag "+string(route.FlagOverGap), has, must)
	}
}

// farPart checks that an upstream run cleans everything on its path that is
// not clean yet, which is its far part, and a downstream run everything.
func (c *checker) farPart(r *run, clean []bool) {
	started := false
	for i, pipe := range r.pipes {
		switch {
		case r.cleaned[i]:
			started = true
		case !c.pipes[pipe].target:
		case c.ordered() && clean[pipe]: // by hand a run may pass what is clean
		case r.down:
			c.add(RuleOrder, r.name, "a downstream run cleans all of its path, but not %s", c.pipeName(pipe))
		case !clean[pipe]:
			c.add(RuleOrder, r.name, "the run goes through %s and leaves it uncleaned", c.pipeName(pipe))
		case started:
			c.add(RuleOrder, r.name, "%s is clean already and lies beyond what the run cleans", c.pipeName(pipe))
		}
	}
	switch {
	case !started:
		c.add(RuleOrder, r.name, "the run cleans nothing")
	case !r.cleaned[len(r.cleaned)-1]:
		c.add(RuleOrder, r.name, "the run goes on past the last pipe that it cleans")
	}
}
