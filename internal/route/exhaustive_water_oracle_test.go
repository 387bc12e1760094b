package route

import (
	"container/heap"

	"linemap/internal/unit"
)

// The oracle of the whole day searches what the oracle in the dry does, and the
// tank besides: any run that may come next, in any order, and every spot left with
// the tank full and with it empty. A pass waits for what it needs and no longer, as
// the rules have it.
//
// More water is not always better: what is in the tank may have to be drained
// before a tow, and a pass that has just enough lets the crew fetch later and so
// fetch more than the day has use for. So two ways to one state are weighed
// against each other only where they leave the very same water in the tank. What
// keeps the search short is what is left to do in the dry, which no way beats.

// wetState is a state of the oracle with the water in the tank.
type wetState struct {
	oracleState
	begun bool // a run was made in this block; no block is left without one
	tank  unit.Volume
}

// atEnd is the key of a state with the day packed up.
const atEnd = -2

// wetStep is a run that may come next.
type wetStep struct {
	place  int
	made   uint64 // what it cleans
	passes []plannedPass
	cost   ticks // without its opening
}

type wetOracle struct {
	*catalogue
	hoses                int
	goal                 uint64
	setUp, packUp, start ticks
	nozzle               ticks
	steps                map[oracleState][]wetStep
	rest                 map[wetState]ticks
	// What narrows it down to fewer plans: those in which the crew leaves spots as
	// the planner has them left, and those that are like a given one.
	ruled bool
	like  *likeness
}

func newWetOracle(c *catalogue) *wetOracle {
	crew := &c.site.Rig.Crew
	o := &wetOracle{
		catalogue: c, hoses: len(c.site.Rig.Hoses),
		setUp: toTicks(minutes(crew.SetUp)), packUp: toTicks(minutes(crew.PackUp)),
		start: toTicks(minutes(crew.RunStart)), nozzle: toTicks(minutes(crew.NozzleChange)),
		steps: map[oracleState][]wetStep{}, rest: map[wetState]ticks{},
	}
	for p := range c.pipes {
		if c.reachable[p] {
			o.goal |= 1 << p
		}
	}
	return o
}

func (o *wetOracle) spotOf(key int) int { return key / o.hoses }

// begin is the state before the day.
func (o *wetOracle) begin() wetState {
	s := wetState{oracleState: oracleState{key: -1}}
	if tank := &o.site.Rig.Tank; tank.ArrivesFull {
		s.tank = tank.Volume
	}
	return s
}

// next lists the runs that may come next at a spot with a hose.
func (o *wetOracle) next(clean uint64, key int) []wetStep {
	at := oracleState{clean: clean, key: key}
	steps, known := o.steps[at]
	if !known {
		for i := range o.places {
			if after, passes, ok := o.oraclePasses(at, i, o.hoses); ok {
				steps = append(steps, wetStep{place: i, made: after &^ clean, passes: passes, cost: o.runCost(passes)})
			}
		}
		o.steps[at] = steps
	}
	return steps
}

// way is what it takes to come from one spot and hose to others, in the dry.
func (o *wetOracle) way(from, to int) ticks {
	a, b := o.spotOf(from), o.spotOf(to)
	switch {
	case from < 0:
		return o.setUp
	case a == b:
		return toTicks(minutes(o.site.Rig.Crew.HoseChange))
	}
	return o.packUp + o.tow(o.spots[a].spot.At, o.spots[b].spot.At) + o.setUp
}

// left is the least that is left to do from a state in the dry, to the end of the
// day.
func (o *wetOracle) left(s wetState) ticks {
	s.tank = 0
	if s.clean&o.goal == o.goal {
		return o.packUp
	}
	least, known := o.rest[s]
	if known {
		return least
	}
	least = unreachable
	if s.begun || s.key < 0 {
		for key := range len(o.spots) * o.hoses {
			if key != s.key {
				to := wetState{oracleState: oracleState{clean: s.clean, key: key}}
				least = min(least, o.way(s.key, key)+o.left(to))
			}
		}
	}
	if s.key >= 0 {
		for _, r := range o.next(s.clean, s.key) {
			cost := r.cost
			if s.open&(1<<o.places[r.place].access) == 0 {
				cost += o.openCost(o.places[r.place].access, o.spotOf(s.key))
			}
			least = min(least, cost+o.left(o.after(s, &r)))
		}
	}
	o.rest[s] = least
	return least
}

// after is the state after a run, with the tank as it was.
func (o *wetOracle) after(s wetState, r *wetStep) wetState {
	s.clean, s.open, s.begun = s.clean|r.made, s.open|1<<o.places[r.place].access, true
	return s
}

// optimum is the least time that the whole day takes; ok is false where no plan
// takes as little as a known one.
func (o *wetOracle) optimum(known ticks) (least ticks, ok bool) {
	queue, done := &wetQueue{}, map[wetState]bool{}
	push := func(s wetState, time ticks) {
		total := time
		if s.key != atEnd {
			total += o.left(s)
		}
		if total <= known && !done[s] {
			heap.Push(queue, wetItem{s, time, total})
		}
	}
	push(o.begin(), 0)
	for queue.Len() > 0 {
		it := heap.Pop(queue).(wetItem)
		switch {
		case it.key == atEnd:
			return it.time, true
		case !done[it.wetState]:
			done[it.wetState] = true
			o.follow(it.wetState, func(s wetState, takes ticks) { push(s, it.time+takes) })
		}
	}
	return 0, false
}

// follow tells of all states that may come next, and what it takes to get there.
func (o *wetOracle) follow(l wetState, to func(s wetState, takes ticks)) {
	if l.clean&o.goal == o.goal {
		for _, w := range o.leavings(l, -1) {
			to(wetState{oracleState: oracleState{key: atEnd}}, o.packUp+w.takes)
		}
		return
	}
	for key := range len(o.spots) * o.hoses {
		if key != l.key && (l.key < 0 || l.begun) && o.like.moves(l.clean, key) {
			o.goOn(l, key, to)
		}
	}
	if l.key < 0 {
		return
	}
	for _, r := range o.next(l.clean, l.key) {
		if o.like.makes(&l.oracleState, o.runAt(r.place), r.made) {
			if s, takes, ok := o.make(l, &r); ok {
				to(s, takes)
			}
		}
	}
}

// goOn begins the next block.
func (o *wetOracle) goOn(l wetState, key int, to func(s wetState, takes ticks)) {
	s := wetState{oracleState: oracleState{clean: l.clean, key: key}, tank: l.tank}
	way, spot := o.way(l.key, key), o.spotOf(key)
	switch {
	case l.key < 0:
		to(s, way)
	case o.spotOf(l.key) == spot:
		s.tank = o.site.Rig.Tank.After(l.tank, 0, o.spots[spot].inflow, way.duration())
		to(s, way)
	default:
		for _, w := range o.leavings(l, spot) {
			s.tank = w.tank
			to(s, way+w.takes)
		}
	}
}

// wetQueue is a heap of states by what they come to in all.
type wetQueue []wetItem

type wetItem struct {
	wetState
	time, total ticks
}

func (q wetQueue) Len() int           { return len(q) }
func (q wetQueue) Less(i, j int) bool { return q[i].total < q[j].total }
func (q wetQueue) Swap(i, j int)      { q[i], q[j] = q[j], q[i] }
func (q *wetQueue) Push(x any)        { *q = append(*q, x.(wetItem)) }
func (q *wetQueue) Pop() any {
	last := len(*q) - 1
	x := (*q)[last]
	*q = (*q)[:last]
	return x
}
