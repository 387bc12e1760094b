package route

import (
	"container/heap"
	"context"

	"linemap/internal/unit"
)

// Where a site is small, the best of all days is looked for with the tank: any run
// that may come next, in any order, and every spot left with the tank full or
// empty. It goes on from the day that promises to take least (A*): to the time that
// it has taken comes what is left to do in the dry, which no day does in less.
//
// More water is not always better: what is in the tank may have to be drained
// before a tow, and who has just enough fetches later, and more. So of two ways to
// a state the one that took longer is given up only where both leave the very same
// water.

// How large a site is looked at so, and how much work may go into it, in runs that
// are looked at: into what is left to do in the dry, and then into the days. Each
// state of a day counts as some runs.
const (
	mostDayTargets = 40
	mostDayAccess  = 64 // what fits a bit mask
	mostDryWork    = 400_000
	mostDayWork    = 1_600_000
	dayStepWork    = 4
)

// dayState is how far a day has come.
type dayState struct {
	clean, open uint64 // targets, by place; accesses open in the block
	key         int32  // where and with which hose; -1 before the day
	begun       bool   // a run was made in the block: none is left without one
	over        bool   // the crew has packed up
	tank        unit.Volume
}

// dayRun is a run that can be made with a key.
type dayRun struct {
	column, access int
	cleans         uint64
	cost           ticks // in the dry, without its opening
	draughts       []draught
}

// dayStep is a step of a day, after another: a run, or else a way.
type dayStep struct {
	dayState
	time, least ticks // so far, and at the least in all
	before      int
	column      int // -1 for none
}

// wholeDay is the search for the best day.
type wholeDay struct {
	*dayBook // for its water; spot and tank change with the state looked at
	keys     []blockKey
	all      uint64
	below    []uint64           // by target, the one below as a mask, 0 for none
	runs     [][][]dayRun       // by key and lowest target
	rest     map[dayState]ticks // what is left to do in the dry
	steps    []dayStep
	queue    []int
	left     int // work that may be done yet
}

// bestDay looks for a plan that takes less than one that is known, or leaves less:
// left is what that leaves for want of water. Where the search comes to its end,
// the plan is proven; where not, it still bounds what any plan takes.
func (c *catalogue) bestDay(ctx context.Context, plan *Plan, left []int) (*Plan, []int) {
	if len(c.targets) > mostDayTargets || len(c.access) > mostDayAccess || c.given != nil {
		return plan, left
	}
	known := toTicks(plan.Cost)
	if len(left) > 0 {
		known = unreachable
	}
	w := newWholeDay(c)
	end, bound := w.search(ctx, known, mostDayWork)
	if end >= 0 {
		best := &Plan{Bound: plan.Bound}
		w.carry(end, best)
		plan, left = best, nil
	}
	if len(left) == 0 {
		plan.Bound = max(plan.Bound, min(bound, toTicks(plan.Cost)).duration())
	}
	return plan, left
}

func newWholeDay(c *catalogue) *wholeDay {
	w := &wholeDay{dayBook: newDayBook(c), keys: c.keys(), rest: map[dayState]ticks{}, left: mostDryWork}
	place := make([]int, len(c.pipes))
	w.below = make([]uint64, len(c.targets))
	for i, p := range c.targets { // lower ones first
		place[p] = i
		w.all |= 1 << i
		if q := c.parent[p]; q >= 0 {
			w.below[i] = 1 << place[q]
		}
	}
	for _, key := range w.keys {
		w.spot = key.spot
		at := make([][]dayRun, len(c.targets))
		for i, p := range c.targets {
			for _, column := range c.byLow[p] {
				if c.places[c.columns[column].end].hose != key.hose || !c.madeFrom(column, key.spot) {
					continue
				}
				r := dayRun{column: column, access: c.accessOf(column), cost: c.columns[column].cost, draughts: w.draughts(column)}
				for _, q := range c.chain(column) {
					r.cleans |= 1 << place[q]
				}
				at[i] = append(at[i], r)
			}
		}
		w.runs = append(w.runs, at)
	}
	return w
}

// search finds the best day that takes less than one that is known: its last
// step, -1 where there is none or the search was cut short by its work. No day
// takes less than bound.
func (w *wholeDay) search(ctx context.Context, known ticks, work int) (end int, bound ticks) {
	done := map[dayState]bool{}
	push := func(s dayState, time ticks, before, column int) {
		w.left -= dayStepWork
		least := time
		if !s.over {
			least += w.still(s)
		}
		if least < known && !done[s] {
			w.steps = append(w.steps, dayStep{s, time, least, before, column})
			heap.Push(w, len(w.steps)-1)
		}
	}
	begin := dayState{key: -1, tank: w.tank}
	if w.still(begin); w.left < 0 {
		return -1, 0
	}
	w.left = work
	for push(begin, 0, -1, -1); w.Len() > 0; {
		i := heap.Pop(w).(int)
		at := w.steps[i]
		switch {
		case at.over:
			return i, at.time
		case w.left < 0 || ctx.Err() != nil:
			return -1, at.least
		case !done[at.dayState]:
			done[at.dayState] = true
			w.follow(at.dayState, func(s dayState, takes ticks, column int) { push(s, at.time+takes, i, column) })
		}
	}
	return -1, known
}
