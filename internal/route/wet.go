package route

import (
	"context"
	"slices"
)

// A search in the dry knows of no water. Where the crew has to wait for water or
// to fetch it, a second search charges for that, stay by stay. Where a spot has no
// inflow, what a stay draws beyond the tankful with which it begins is fetched, at
// no better rate than [catalogue.fetchRate]. Where it has some, what the stay draws
// beyond that tankful and what comes in while it works is waited for. To charge
// no more than that in any plan, every run pays for the water it draws, all other
// time at the spot counts for the water that comes in by it, and each stay has the
// worth of a tankful to its credit. So this search too bounds all plans, and its
// plan is sparing with water where that pays.

// priceWater sets what is paid for water. The credit is no more than a stay costs
// beyond a change of hose; where a tankful is worth more, all is charged less in
// proportion, so that no stay gains by being made. Of the spots with inflow only
// those count at which the crew waits in a plan that is known.
func (p *problem) priceWater(waits []bool) {
	crew, tank := &p.site.Rig.Crew, &p.site.Rig.Tank
	tankful := float64(tank.Volume - tank.Stop)
	stay := toTicks(minutes(crew.SetUp)) + toTicks(minutes(crew.PackUp)) + toTicks(minutes(crew.Move)) - 2
	most := float64(max(0, stay-toTicks(minutes(crew.HoseChange))))
	n := len(p.spots)
	p.fetch, p.saved, p.credit = make([]float64, n), make([]float64, n), make([]ticks, n)
	for s := range p.spots {
		inflow := p.spots[s].inflow
		rate := p.fetchRate(s)
		if inflow > 0 && waits[s] {
			rate = 1 / (float64(inflow) * Tick.Seconds())
		}
		if rate <= 0 {
			continue
		}
		p.credit[s] = ticks(min(rate*tankful, most))
		p.fetch[s] = float64(p.credit[s]) / tankful
		if inflow > 0 {
			p.saved[s] = p.fetch[s] / rate
		}
	}
}

// thirsty tells whether any spot has its water fetched.
func (p *problem) thirsty() bool {
	for _, c := range p.credit {
		if c > 0 {
			return true
		}
	}
	return false
}

// costIn is what a run costs that is made from a spot.
func (p *problem) costIn(column, spot int) ticks {
	col := &p.columns[column]
	if p.fetch == nil {
		return col.cost
	}
	return ticks(float64(col.cost)*(1-p.saved[spot]) + float64(col.water)*p.fetch[spot])
}

// timeAt is what some other time at a spot costs.
func (p *problem) timeAt(t ticks, spot int) ticks {
	if p.saved == nil || t >= unreachable {
		return t
	}
	return ticks(float64(t) * (1 - p.saved[spot]))
}

// creditAt is what a stay at a spot has paid for water in advance.
func (p *problem) creditAt(spot int) ticks {
	if p.credit == nil {
		return 0
	}
	return p.credit[spot]
}

// dayCost is what a sequence of blocks costs in itself, less the credit of its
// stays.
func (p *problem) dayCost(seq []blockKey) ticks {
	cost := p.catalogue.dayCost(seq)
	change := toTicks(minutes(p.site.Rig.Crew.HoseChange))
	for i, b := range seq {
		if i == 0 || seq[i-1].spot != b.spot {
			cost -= p.creditAt(b.spot)
		} else {
			cost -= change - p.timeAt(change, b.spot)
		}
	}
	return cost
}

// sparing looks for a plan that takes less than one that has to wait for water or
// to fetch it, and bounds what any takes: once with a price on what is fetched, and
// once with one on what is waited for too. dry is the solution behind the plan.
func (c *catalogue) sparing(ctx context.Context, dry solution, plan *Plan) *Plan {
	plan = c.spare(ctx, &dry, plan, make([]bool, len(c.spots)))
	if waits := c.waitsIn(plan); slices.Contains(waits, true) {
		plan = c.spare(ctx, &dry, plan, waits)
	}
	return plan
}

// spare is sparing with one set of prices; known is the solution behind the plan
// before and after.
func (c *catalogue) spare(ctx context.Context, known *solution, plan *Plan, waits []bool) *Plan {
	p := newProblem(c, waits)
	if !p.thirsty() || toTicks(plan.Cost) == toTicks(plan.Bound) {
		return plan
	}
	s := newSearchOf(ctx, p, nil)
	if s.construct(); !s.best.feasible() || s.stopped() {
		return plan
	}
	s.most = s.cover.work + s.relax.work + maxWork/2
	bound := plan.Bound
	keep := func() {
		if got := s.carry(); got != nil && got.Cost < plan.Cost {
			plan, *known = got, s.best
		}
	}
	keep()
	// A better plan costs no more in this search than in truth.
	if total := toTicks(plan.Cost); total < s.best.cost {
		s.best = solution{seq: known.seq, runs: known.runs, cost: total}
	}
	s.run()
	keep()
	plan.Bound = max(bound, s.bound.duration())
	return plan
}

// waitsIn tells at which spots a plan waits for water.
func (c *catalogue) waitsIn(plan *Plan) []bool {
	waits := make([]bool, len(c.spots))
	for _, e := range plan.Day {
		if e.Kind != EventWait {
			continue
		}
		for s := range c.spots {
			waits[s] = waits[s] || c.spots[s].spot.ID == plan.Blocks[e.Block].Spot
		}
	}
	return waits
}

// carry carries out the best solution; nil where the water does not last.
func (s *search) carry() *Plan {
	plan := &Plan{}
	if left := s.carryOut(s.best.seq, s.orderRuns(s.best), plan); len(left) > 0 {
		return nil
	}
	return plan
}
