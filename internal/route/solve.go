package route

import (
	"context"
	"slices"

	"linemap/internal/site"
	"linemap/internal/unit"
)

// Options are the choices of one call of [Solve].
type Options struct {
	// Progress, where set, is called now and then from the solving goroutine.
	Progress func(Progress)
	// Effort is how many times the usual work may go into proving a plan of a
	// building to be the best; 0 counts as 1.
	Effort int
}

// Solve works out the plan of a site. It reads the site and keeps nothing of
// it. Cancelling the context makes it return the best plan found so far, which
// covers everything reachable, with Stopped set. Of more than [mostInHaste] pipes
// that plan tells no Whys, and the reasons of its shortfalls but no cures, which would
// have to be tried: their kind is [NotSought]. Where runs were decided on by
// hand, it plans twice, without the decisions and with them. It fails only where a pipe's
// material or deposit has no row in the tables, or the site is larger than the
// planner takes.
func Solve(ctx context.Context, s *site.Site, t *site.Tables, opt Options) (*Plan, error) {
	m, err := newModel(s, t)
	if err != nil {
		return nil, err
	}
	c := newCatalogue(m)
	own := c.plan(ctx, opt)
	if decided(&s.ByHand) {
		plan := c.planByHand(ctx, own, opt)
		c.addWhys(ctx, plan)
		return plan, nil
	}
	own.plan.Shortfalls = c.explain(ctx, own.left, c.waterFor(own.left), nil)
	c.addWhys(ctx, own.plan)
	return own.plan, nil
}

// outcome is a plan without its shortfalls, and the targets that were left
// because the water ran out.
type outcome struct {
	plan *Plan
	left []int
}

// plan works out the best plan of a catalogue.
func (c *catalogue) plan(ctx context.Context, opt Options) outcome {
	plan := &Plan{}
	var left []int
	for len(c.targets) > 0 {
		if len(c.targets) > searchTargets || !c.searchable() {
			var beside []int
			if left, beside = c.planDistrict(ctx, opt.Progress, plan); len(beside) > 0 {
				c.drop(beside)
				continue
			}
			break
		}
		se := newSearch(ctx, c, opt.Progress)
		se.most *= max(1, opt.Effort)
		if se.construct(); !se.best.feasible() {
			c.drop(se.leftOut())
			continue
		}
		proven := se.run()
		left = c.carryOut(se.best.seq, c.orderRuns(se.best), plan)
		plan.Bound = se.bound.duration()
		if len(left) == 0 && toTicks(plan.Cost) > se.best.cost {
			plan = se.soak(plan)
			plan.Bound = se.bound.duration()
		}
		if len(left) > 0 || plan.Bound < plan.Cost {
			plan, left = c.bestDay(ctx, plan, left)
		}
		if len(c.targets) > smallTargets && len(left) == 0 && plan.Bound < plan.Cost && ctx.Err() == nil {
			plan = c.alsoDistrict(ctx, plan)
		}
		plan.Stopped = ctx.Err() != nil && !proven
		break
	}
	if len(left) > 0 {
		// The plan does less than everything reachable, so the bound of
		// everything says nothing about it.
		plan.Bound = 0
	}
	plan.judge()
	return outcome{plan, left}
}

// alsoDistrict plans a site of middling size as a district too. Of the two plans it
// returns the better one, and holds it to the better bound.
func (c *catalogue) alsoDistrict(ctx context.Context, plan *Plan) *Plan {
	var district Plan
	left, beside := c.planDistrict(ctx, nil, &district)
	if len(left) > 0 || len(beside) > 0 {
		return plan
	}
	bound := max(plan.Bound, district.Bound)
	if district.Cost < plan.Cost {
		plan = &district
	}
	plan.Bound = bound
	return plan
}

const (
	// searchTargets is up to how many targets a site is planned by search, block by
	// block; a larger one is planned as a district.
	searchTargets = 1500
	// smallTargets is up to how many the search does as well as can be.
	smallTargets = 400
)

// searchable tells whether there are few enough spots for a search.
func (c *catalogue) searchable() bool {
	keys, spots := c.keys(), map[int]bool{}
	for _, k := range keys {
		spots[k.spot] = true
	}
	return len(keys) <= mostKeys && len(spots) <= mostTourSpots
}

// judge says how good a plan is proved to be by its bound.
func (p *Plan) judge() {
	p.Bound = min(p.Bound, p.Cost)
	p.Proven = p.Bound == p.Cost && !p.Stopped
}

// waterFor is the water that it takes to clean targets one by one from their
// nearest columns, at the least.
func (c *catalogue) waterFor(targets []int) unit.Volume {
	var sum unit.Volume
	for _, p := range targets {
		alone := func(i int) bool { return c.columns[i].low == p && c.columns[i].prev < 0 }
		least, ok := c.leastWater(alone)
		if !ok { // it is cleaned with others only
			least, _ = c.leastWater(func(i int) bool { return slices.Contains(c.chain(i), p) })
		}
		sum += least
	}
	return sum
}

// leastWater is the least water that any of some usable columns takes; ok is
// false where there is none.
func (c *catalogue) leastWater(of func(column int) bool) (least unit.Volume, ok bool) {
	for i := range c.columns {
		col := &c.columns[i]
		if col.spots == 0 || !of(i) {
			continue
		}
		passes, _ := c.passesOf(col)
		var v unit.Volume
		for _, pass := range passes {
			v += flowFor(c.draw(pass), pass.time)
		}
		if !ok || v < least {
			least, ok = v, true
		}
	}
	return least, ok
}
