package route

import (
	"cmp"
	"context"
	"slices"

	"linemap/internal/unit"
)

// district plans a site that is too large for a [search]: whole streets, with a
// day of hundreds of visits. It begins with more visits than it takes, in an
// order that is known to clean everything, and leaves out what does not pay: visits
// and openings, in turn, while the order is kept as short as what is cleaned before
// what allows.
type district struct {
	*lineup
	progress func(Progress)
	relaxed  *relaxation
	bound    ticks
	tried    int
}

// planDistrict plans a large catalogue, and bounds the plan. It returns the
// targets that were left because the water ran out; or else those that cannot be
// cleaned beside the others, and then there is no plan.
func (c *catalogue) planDistrict(ctx context.Context, progress func(Progress), plan *Plan) (left, beside []int) {
	d := &district{progress: progress, relaxed: newRelaxation(c, false)}
	d.relaxed.value()
	if beside = d.relaxed.without(); len(beside) > 0 {
		return nil, beside
	}
	d.lineup = newLineup(ctx, c)
	d.set(slices.Compact(append(d.sweep(), d.relaxed.schedule()...)))
	for again := true; again; {
		d.settle()
		d.rebuild()
		d.report()
		again = d.shut()+d.thin() > len(d.visits)/20 && ctx.Err() == nil
	}
	if ctx.Err() == nil {
		d.settle()
		d.rebuild()
	}
	d.report()
	best := solution{seq: d.keysInOrder(), runs: d.runs()}
	left = c.carryOut(best.seq, c.orderRuns(best), plan)
	d.relaxed.heard = func(bound ticks) {
		d.bound = bound
		d.report()
	}
	plan.Bound = d.relaxed.bound(ctx, toTicks(plan.Cost), d.rounds()).duration()
	plan.Stopped = ctx.Err() != nil && plan.Bound < plan.Cost
	return left, nil
}

// rounds is the number of steps of the subgradient method for the bound: fewer
// for more candidates, but enough to come near its end.
func (d *district) rounds() int {
	const work, least, most = 5_000_000, 40, 120
	return max(least, min(most, work/(len(d.columns)+1)))
}

func (d *district) report() {
	if d.progress != nil {
		d.progress(Progress{Cost: d.cost().duration(), Bound: d.bound.duration(), Tried: d.tried})
	}
}

// thin tries to do without each visit, those with the least to do first, and
// counts those it could do without.
func (d *district) thin() (less int) {
	minutes := make([]ticks, len(d.visits))
	drawn := make([]unit.Volume, len(d.visits))
	for _, r := range d.runs() {
		minutes[r.block] += d.columns[r.column].cost
		drawn[r.block] += d.columns[r.column].water
	}
	order := make([]int, len(d.visits))
	for v := range order {
		order[v] = v
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(minutes[a], minutes[b]) })
	for _, v := range order {
		if d.ctx.Err() != nil {
			return less
		}
		d.tried++
		// A visit begins with a tankful, which [lineup.thirst] does not know of.
		tankful := min(drawn[v], d.site.Rig.Tank.Volume-d.site.Rig.Tank.Stop)
		if d.leaveOut(v, ticks(float64(tankful)*d.fetch[d.visits[v].key.spot])) {
			less++
		}
	}
	return less
}

// shut tries to do without each opening in use, and counts those it could do
// without.
func (d *district) shut() (less int) {
	for reel := range d.turns {
		for k := range d.turns[reel] {
			if d.ctx.Err() != nil {
				return less
			}
			if t := &d.turns[reel][k]; t.free && d.shutOne(reel, t) {
				less++
			}
		}
	}
	return less
}

// rebuild forgets the visits that are left out or have no run, puts the others in
// a better order, and joins those that then follow each other with one spot and
// one hose.
func (d *district) rebuild() {
	runs := d.runs()
	made := make([]bool, len(d.visits))
	for _, r := range runs {
		made[r.block] = true
	}
	var keys []blockKey
	number := make([]int, len(d.visits))
	renumber := func() {
		for i := range runs {
			runs[i].block = number[runs[i].block]
		}
	}
	for v := range d.visits {
		if made[v] {
			number[v] = len(keys)
			keys = append(keys, d.visits[v].key)
		}
	}
	renumber()
	var seq []blockKey
	for _, v := range d.reorder(keys, runs) {
		if len(seq) == 0 || seq[len(seq)-1] != keys[v] {
			seq = append(seq, keys[v])
		}
		number[v] = len(seq) - 1
	}
	renumber()
	d.set(seq)
	d.use(runs)
	d.askAll()
}

// keysInOrder lists the blocks of the visits.
func (l *lineup) keysInOrder() (seq []blockKey) {
	for _, v := range l.visits {
		seq = append(seq, v.key)
	}
	return seq
}
