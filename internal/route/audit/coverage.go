package audit

import (
	"fmt"

	"linemap/internal/route"
)

// coverage checks that every pipe of the job is cleaned exactly once or
// explained exactly once, and nothing else is either.
func (c *checker) coverage() {
	cleaned := make([]int, len(c.pipes))
	for _, r := range c.runs {
		for _, leg := range r.Path {
			if i, ok := c.pipe[leg.Pipe]; ok && leg.Cleaned {
				cleaned[i]++
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
// not give up, -1 for none, and whether given up pipe lies between.
func (c *checker) below(pipe int, gap []bool) (nearest int, over bool) {
	for next := c.graph.Next[pipe]; next >= 0; next = c.graph.Next[next] {
		switch {
		case gap[next]:
			over = true
		case c.pipes[next].target:
			return next, over
		}
	}
	return -1, over
}

// order checks that pipe is cleaned from the lowest up, that a run cleans all
// that it may, and that runs over a gap say so.
func (c *checker) order() {
	gap := c.gaps()
	clean := make([]bool, len(c.pipes))
	for _, r := range c.runs {
		c.orderOfRun(r, gap, clean)
	}
}

func (c *checker) orderOfRun(r *run, gap, clean []bool) {
	before := make(map[int]bool)
	overGap, started := false, false
	now := make(map[int]bool)
	for i, pipe := range r.pipes {
		now[pipe] = r.cleaned[i]
	}
	for i, pipe := range r.pipes {
		switch {
		case r.cleaned[i]:
			started = true
			before[pipe] = true
			nearest, over := c.below(pipe, gap)
			overGap = overGap || over
			if nearest >= 0 && !clean[nearest] && !now[nearest] {
				c.add(RuleOrder, r.name, "%s is cleaned before %s, which lies below it",
					c.pipeName(pipe), c.pipeName(nearest))
			}
		case !c.pipes[pipe].target:
		case r.down:
			c.add(RuleOrder, r.name, "a downstream run cleans all of its path, but not %s", c.pipeName(pipe))
		case !clean[pipe]:
			c.add(RuleOrder, r.name, "the run goes through %s and leaves it uncleaned", c.pipeName(pipe))
		case started:
			c.add(RuleOrder, r.name, "%s is clean already and lies beyond what the run cleans", c.pipeName(pipe))
		}
	}
	if !started {
		c.add(RuleOrder, r.name, "the run cleans nothing")
	} else if !r.cleaned[len(r.cleaned)-1] {
		c.add(RuleOrder, r.name, "the run goes on past the last pipe that it cleans")
	}
	for pipe := range before {
		clean[pipe] = true
	}
	c.onlyIf(r, route.FlagOverGap, overGap)
}
