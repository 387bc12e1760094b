package route

import (
	"cmp"
	"slices"
)

// settle pays for the openings that the runs in hand use and asks again, as long
// as that makes the day cheaper and nobody cancels. At the end the runs' openings are in use, no
// others, and the cost is what the day really costs.
func (l *lineup) settle() {
	runs := l.runs()
	for {
		l.use(runs)
		cost := l.price(runs)
		l.askAll()
		next := l.runs()
		if l.price(next) >= cost || l.ctx.Err() != nil {
			l.use(runs)
			l.askAll()
			return
		}
		runs = next
	}
}

// price is what runs cost with their openings.
func (l *lineup) price(runs []chosen) (sum ticks) {
	opened := make(map[*turn]bool, len(runs))
	for _, r := range runs {
		sum += l.columns[r.column].cost + l.thirst(r.column, l.visits[r.block].key.spot)
		if t := l.turnOf(l.reelOf(l.columns[r.column].end), r.block); !opened[t] {
			opened[t] = true
			sum += t.open
		}
	}
	return sum
}

// use pays for the openings of runs, and no others.
func (l *lineup) use(runs []chosen) {
	for _, turns := range l.turns {
		for k := range turns {
			l.pay(&turns[k], false)
		}
	}
	for _, r := range runs {
		l.pay(l.turnOf(l.reelOf(l.columns[r.column].end), r.block), true)
	}
}

// pay pays for an opening, or takes it out of use.
func (l *lineup) pay(t *turn, free bool) {
	switch {
	case free && !t.free:
		l.paid += t.open
	case !free && t.free:
		l.paid -= t.open
	}
	t.free = free
}

// turnOf is a visit's turn at a reel.
func (l *lineup) turnOf(reel, visit int) *turn {
	turns := l.turns[reel]
	at, _ := slices.BinarySearchFunc(turns, visit, func(t turn, visit int) int { return int(t.visit) - visit })
	return &turns[at]
}

// omission is a visit left out of the day on trial.
type omission struct {
	visit         int
	day           ticks // what the day cost with it, runs apart
	closed, moved []*turn
	asked         []int32
}

// leaveOut leaves a visit out of the day where that is cheaper: its openings are
// given up, or else moved to the cheapest other visit that can make them. lost is
// what else it costs to do without the visit.
func (l *lineup) leaveOut(v int, lost ticks) bool {
	cost := l.cost() - lost
	for _, moving := range []bool{false, true} {
		o := l.omit(v, moving)
		if l.cost() < cost {
			return true
		}
		l.restore(o)
	}
	return false
}

func (l *lineup) omit(v int, moving bool) *omission {
	o := &omission{visit: v, day: l.day}
	for _, reel := range l.reelsOf(v) {
		l.markChoices(int(reel), v)
		if t := l.turnOf(int(reel), v); t.free {
			o.closed = append(o.closed, t)
			if to := l.cheapestTurn(int(reel), v); moving && to != nil && !to.free {
				o.moved = append(o.moved, to)
				for _, p := range l.covered[reel] {
					l.mark(p)
				}
			}
		}
	}
	l.day += l.unlink(v)
	l.pays(o, true)
	o.asked = slices.Clone(l.stale)
	l.refresh()
	return o
}

// restore takes a trial back.
func (l *lineup) restore(o *omission) {
	l.relink(o.visit)
	l.day = o.day
	l.pays(o, false)
	for _, p := range o.asked {
		l.mark(p)
	}
	l.refresh()
}

func (l *lineup) pays(o *omission, omitted bool) {
	for _, t := range o.closed {
		l.pay(t, !omitted)
	}
	for _, t := range o.moved {
		l.pay(t, omitted)
	}
}

// shutOne does without an opening where that is cheaper: what was cleaned through
// it is cleaned through others, or what of it is not pays for it in full.
func (l *lineup) shutOne(reel int, t *turn) bool {
	cost := l.cost()
	l.markChoices(reel, int(t.visit))
	asked := slices.Clone(l.stale)
	l.pay(t, false)
	l.refresh()
	if l.cost() < cost {
		return true
	}
	l.pay(t, true)
	for _, p := range asked {
		l.mark(p)
	}
	l.refresh()
	return false
}

// reelsOf are the reels near a visit.
func (l *lineup) reelsOf(v int) []int32 {
	key := l.visits[v].key
	return l.reels[key.spot*len(l.site.Rig.Hoses)+key.hose]
}

// cheapestTurn is the cheapest turn of a reel but one visit's; nil for none.
func (l *lineup) cheapestTurn(reel, but int) (best *turn) {
	for k := range l.turns[reel] {
		t := &l.turns[reel][k]
		if int(t.visit) != but && !l.visits[t.visit].out && (best == nil || t.open < best.open) {
			best = t
		}
	}
	return best
}

// unlink takes a visit out of the day and tells by how much the day gets dearer.
func (l *lineup) unlink(v int) (dearer ticks) {
	one := &l.visits[v]
	one.out = true
	switch {
	case one.prev >= 0 && one.next >= 0:
		before, after := &l.visits[one.prev], &l.visits[one.next]
		dearer = -l.moveCost(before.key, one.key) - l.moveCost(one.key, after.key)
		if before.key != after.key {
			dearer += l.moveCost(before.key, after.key)
		}
		before.next, after.prev = one.next, one.prev
	case one.prev >= 0:
		dearer = -l.moveCost(l.visits[one.prev].key, one.key)
		l.visits[one.prev].next = -1
	case one.next >= 0:
		dearer = -l.moveCost(one.key, l.visits[one.next].key)
		l.visits[one.next].prev = -1
	}
	return dearer
}

// relink puts the visit back that was taken out last.
func (l *lineup) relink(v int) {
	one := &l.visits[v]
	one.out = false
	if one.prev >= 0 {
		l.visits[one.prev].next = v
	}
	if one.next >= 0 {
		l.visits[one.next].prev = v
	}
}

// mark notes that a target is to be asked again.
func (l *lineup) mark(p int32) {
	l.dirty[p] = true
	if !l.marked[p] {
		l.marked[p] = true
		l.stale = append(l.stale, p)
	}
}

// markChoices notes the targets that may be cleaned by a reel in a visit.
func (l *lineup) markChoices(reel, v int) {
	for _, p := range l.covered[reel] {
		for _, s := range l.stairs[p] {
			if int(s.visit) == v && l.reelOf(l.columns[s.column].end) == reel {
				l.mark(p)
				break
			}
		}
	}
}

// refresh asks again for the targets that were noted, the higher ones first, and
// for those below one that changes, as far down as runs lead that pass it or the
// target that it hangs on.
func (l *lineup) refresh() {
	for _, p := range slices.Clone(l.stale) {
		for q := l.parent[p]; q >= 0 && !l.marked[q]; q = l.parent[q] {
			l.marked[q] = true
			l.stale = append(l.stale, int32(q))
		}
	}
	slices.SortFunc(l.stale, func(a, b int32) int { return cmp.Compare(l.height[b], l.height[a]) })
	for _, p := range l.stale {
		l.marked[p] = false
		if !l.dirty[p] {
			continue
		}
		l.dirty[p] = false
		below := l.parent[p]
		if !l.ask(int(p)) || below < 0 {
			continue
		}
		for q := below; q >= 0 && l.height[q] >= l.lowest[below]; q = l.parent[q] {
			l.dirty[q] = true
		}
	}
	l.stale = l.stale[:0]
}
