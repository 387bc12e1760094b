package route

import (
	"slices"

	"linemap/internal/unit"
)

// makes lists the runs that may come next, and the openings for them.
func (w *wholeDay) makes(s dayState, yield func(r *dayRun, opening ticks)) {
	if s.key < 0 {
		return
	}
	for p, runs := range w.runs[s.key] {
		if s.clean>>p&1 != 0 || w.below[p]&^s.clean != 0 {
			continue
		}
		w.left -= len(runs)
		for i := range runs {
			r, opening := &runs[i], ticks(0)
			if s.open>>r.access&1 == 0 {
				opening = w.openCost(r.access, w.keys[s.key].spot)
			}
			yield(r, opening)
		}
	}
}

// goesOn lists the blocks that may come next, with the tank as it is.
func (w *wholeDay) goesOn(s dayState, yield func(next dayState, takes ticks)) {
	if s.key >= 0 && !s.begun {
		return
	}
	w.left -= len(w.keys)
	for k, key := range w.keys {
		next := dayState{clean: s.clean, key: int32(k), tank: s.tank}
		switch {
		case s.key < 0:
			yield(next, toTicks(minutes(w.site.Rig.Crew.SetUp)))
		case int32(k) != s.key:
			yield(next, w.moveCost(w.keys[s.key], key))
		}
	}
}

func (s dayState) after(r *dayRun) dayState {
	s.clean, s.open, s.begun = s.clean|r.cleans, s.open|1<<r.access, true
	return s
}

// still is the least that it takes in the dry to end the day from a state; no
// use where the work is done that may be.
func (w *wholeDay) still(s dayState) ticks {
	if s.tank = 0; s.clean == w.all {
		return toTicks(minutes(w.site.Rig.Crew.PackUp))
	}
	if least, known := w.rest[s]; known || w.left < 0 {
		return least
	}
	least := unreachable
	w.makes(s, func(r *dayRun, opening ticks) { least = min(least, r.cost+opening+w.still(s.after(r))) })
	w.goesOn(s, func(next dayState, takes ticks) { least = min(least, takes+w.still(next)) })
	w.rest[s] = least
	return least
}

// follow lists the states that may come next, with the water.
func (w *wholeDay) follow(s dayState, yield func(next dayState, takes ticks, column int)) {
	if s.clean == w.all {
		pack := toTicks(minutes(w.site.Rig.Crew.PackUp))
		w.leaves(s, func(_ unit.Volume, over ticks) { yield(dayState{over: true}, pack+over, -1) })
		return
	}
	w.makes(s, func(r *dayRun, opening ticks) {
		w.spot, w.tank = w.keys[s.key].spot, s.tank
		w.goBy(opening, 0)
		if lost := w.drink(r.draughts); lost < unreachable {
			next := s.after(r)
			next.tank = w.tank
			yield(next, r.cost+opening+lost, r.column)
		}
	})
	w.goesOn(s, func(next dayState, takes ticks) {
		switch {
		case s.key < 0:
			yield(next, takes, -1)
		case w.keys[s.key].spot == w.keys[next.key].spot:
			w.spot, w.tank = w.keys[s.key].spot, s.tank
			w.goBy(takes, 0)
			next.tank = w.tank
			yield(next, takes, -1)
		default:
			w.leaves(s, func(tank unit.Volume, over ticks) {
				next.tank = tank
				yield(next, takes+over, -1)
			})
		}
	})
}

// leaves lists both ways to leave a spot, and how much longer they take than
// packing up.
func (w *wholeDay) leaves(s dayState, yield func(tank unit.Volume, over ticks)) {
	w.spot, w.tank = w.keys[s.key].spot, s.tank
	fill, drain := w.packed()
	yield(0, drain)
	if fill < unreachable {
		yield(w.site.Rig.Tank.Volume, fill)
	}
}

// carry carries out the day that ends with a step.
func (w *wholeDay) carry(end int, plan *Plan) {
	var seq []blockKey
	var runs [][]int
	var full []bool
	var path []int
	for i := end; i >= 0; i = w.steps[i].before {
		path = append(path, i)
	}
	slices.Reverse(path)
	for _, i := range path {
		step := &w.steps[i]
		switch {
		case step.column >= 0:
			runs[len(runs)-1] = append(runs[len(runs)-1], step.column)
		case step.key >= 0:
			seq, runs, full = append(seq, w.keys[step.key]), append(runs, nil), append(full, step.tank > 0)
		}
	}
	d := newDayBook(w.catalogue)
	d.full = full
	d.carryOut(seq, runs, plan)
}

// The heap of steps, least first.

func (w *wholeDay) Len() int { return len(w.queue) }

func (w *wholeDay) Less(i, j int) bool { return w.steps[w.queue[i]].least < w.steps[w.queue[j]].least }
func (w *wholeDay) Swap(i, j int)      { w.queue[i], w.queue[j] = w.queue[j], w.queue[i] }
func (w *wholeDay) Push(x any)         { w.queue = append(w.queue, x.(int)) }
func (w *wholeDay) Pop() any {
	last := len(w.queue) - 1
	x := w.queue[last]
	w.queue = w.queue[:last]
	return x
}
