package route

import (
	"context"
	"slices"
)

// visit is one block of a long day. Visits are numbered as they come.
type visit struct {
	key        blockKey
	out        bool // left out of the day
	prev, next int  // in the day, -1 for none
}

// turn is one visit as a reel at an access sees it.
type turn struct {
	visit int32
	bit   uint8 // of the visit's spot, among the access's near spots
	free  bool  // the access is opened in this visit, and that is paid for
	open  ticks
}

// step is a stretch of a target's cost: by how much more than at the least the
// target and all above it cost where the target below became clean in this visit
// at the latest, which is also the one in which the target itself is cleaned, by
// this column.
type step struct {
	cost          ticks
	column, visit int32
}

// lineup finds, as a cover does, the cheapest runs in a fixed sequence of visits,
// but for long days and in a time that grows with the network alone. The cost of
// a target as a function of when the target below became clean is a staircase
// that has steps only at visits from which some run reaches the target, and those
// are few. Stairs tell only the excess over the least that the target costs, so
// that a change in the day asks again only for the targets whose stairs it
// touches and those not far below them.
//
// Each opening in use is paid for on its own and free to the runs; a run through
// any other pays for it in full. So the sum is what a real plan costs, or more.
type lineup struct {
	*catalogue
	ctx    context.Context
	visits []visit
	// turns lists, by access and hose, the visits that can use it, in order.
	turns [][]turn
	// By place: the turns' costs of what hangs off its pipe, and of the pipe
	// itself, each when clean below at that turn.
	sum, own [][]ticks
	hang     [][]ticks // by column and turn, what hangs off the column's targets
	stairs   [][]step  // by target, in the order of the day
	// By target, the least that it and all above it cost, beyond the same of the
	// targets above; so the sum over all is what the day costs.
	base  []ticks
	total ticks // of all targets
	paid  ticks // for openings in use
	day   ticks // set-ups, moves, hose changes and pack-ups

	fetch    []float64 // by spot without inflow, ticks to fetch a unit of water
	placesOf [][]int32 // by target, the places where a run may clean it
	reels    [][]int32 // by key (spot times hoses, plus hose), the reels at accesses near it
	covered  [][]int32 // by reel, the targets in its reach
	height   []int32   // by target, its place in targets: lower ones first
	lowest   []int32   // by target, the height of the lowest that a run through it cleans

	best    []step  // by visit, the best choice for the target in hand
	touched []int32 // the visits with one
	stale   []int32 // targets that may have to be asked again
	marked  []bool  // by target, whether it is one of them
	dirty   []bool  // by target, whether it is to be asked again
	was     []step  // the stairs of a target before it was asked, reused
	work    int     // targets asked so far
}

func newLineup(ctx context.Context, c *catalogue) *lineup {
	hoses := len(c.site.Rig.Hoses)
	l := &lineup{
		catalogue: c, ctx: ctx,
		turns: make([][]turn, len(c.access)*hoses), covered: make([][]int32, len(c.access)*hoses),
		sum: make([][]ticks, len(c.places)), own: make([][]ticks, len(c.places)),
		hang: make([][]ticks, len(c.columns)), stairs: make([][]step, len(c.pipes)),
		placesOf: make([][]int32, len(c.pipes)), reels: make([][]int32, len(c.spots)*hoses),
		height: make([]int32, len(c.pipes)), marked: make([]bool, len(c.pipes)), dirty: make([]bool, len(c.pipes)),
		base: make([]ticks, len(c.pipes)), lowest: make([]int32, len(c.pipes)),
	}
	for s := range c.spots {
		l.fetch = append(l.fetch, c.fetchRate(s))
	}
	for i, p := range c.targets {
		l.height[p], l.lowest[p] = int32(i), int32(i)
	}
	seen := make([]bool, len(c.places))
	for i := range c.columns {
		for j := i; j >= 0; j = c.columns[j].prev {
			l.lowest[c.columns[j].last] = min(l.lowest[c.columns[j].last], l.height[c.columns[i].low])
		}
		at := c.columns[i].end
		if seen[at] || !c.reachable[c.places[at].pipe] {
			continue
		}
		seen[at] = true
		p, reel := c.places[at].pipe, l.reelOf(at)
		l.placesOf[p] = append(l.placesOf[p], int32(at))
		l.covered[reel] = append(l.covered[reel], int32(p))
	}
	for a := range c.access {
		for _, n := range c.access[a].near {
			for h := range hoses {
				if reel := a*hoses + h; len(l.covered[reel]) > 0 {
					l.reels[n.spot*hoses+h] = append(l.reels[n.spot*hoses+h], int32(reel))
				}
			}
		}
	}
	return l
}

// reelOf is the reel, an access and a hose, that leads to a place.
func (l *lineup) reelOf(place int) int {
	return l.places[place].access*len(l.site.Rig.Hoses) + l.places[place].hose
}

// set begins a new day of visits, with no opening in use.
func (l *lineup) set(seq []blockKey) {
	l.visits, l.paid, l.day = l.visits[:0], 0, l.dayCost(seq)
	for reel := range l.turns {
		l.turns[reel] = l.turns[reel][:0]
	}
	for j, key := range seq {
		l.visits = append(l.visits, visit{key: key, prev: j - 1, next: j + 1})
		l.addTurns(j)
	}
	if n := len(l.visits); n > 0 {
		l.visits[n-1].next = -1
	}
	l.best = grow(l.best, len(seq))
	for v := range l.best {
		l.best[v].cost = unreachable
	}
	l.askAll()
}

// addTurns lets every reel near the last visit of the day know of it.
func (l *lineup) addTurns(v int) {
	key := l.visits[v].key
	hoses := len(l.site.Rig.Hoses)
	for _, reel := range l.reels[key.spot*hoses+key.hose] {
		t := turn{visit: int32(v)}
		for bit, n := range l.access[int(reel)/hoses].near {
			if n.spot == key.spot {
				t.bit, t.open = uint8(bit), n.open
			}
		}
		l.turns[reel] = append(l.turns[reel], t)
	}
}

// cost is what the day costs with its runs, at the most.
func (l *lineup) cost() ticks { return l.total + l.paid + l.day }

// costAt is what a target costs beyond the least where the one below is clean from
// a visit on.
func (l *lineup) costAt(target int, visit int32) ticks { return costFrom(l.stairs[target], visit) }

func costFrom(stairs []step, visit int32) ticks {
	for i := range stairs {
		if s := &stairs[i]; s.visit >= visit {
			return s.cost
		}
	}
	return unreachable
}

// ask works out the stairs of a target from those above it, and tells whether they
// are others than before.
func (l *lineup) ask(p int) bool {
	l.work++
	l.was = append(l.was[:0], l.stairs[p]...)
	old := l.base[p]
	for _, at := range l.placesOf[p] {
		sum := l.sum[at][:0]
		for _, t := range l.turns[l.reelOf(int(at))] {
			var cost ticks
			for _, q := range l.children[p] {
				cost += l.costAt(q, t.visit)
			}
			sum = append(sum, cost)
		}
		l.sum[at] = sum
	}
	for _, i := range l.byLow[p] {
		l.askColumn(i)
	}
	slices.Sort(l.touched)
	stairs := l.stairs[p][:0]
	least := unreachable
	for _, v := range slices.Backward(l.touched) {
		if s := l.best[v]; s.cost < least {
			least = s.cost
			stairs = append(stairs, s)
		}
		l.best[v].cost = unreachable
	}
	slices.Reverse(stairs)
	l.stairs[p], l.touched = stairs, l.touched[:0]
	if l.base[p] = 0; len(stairs) > 0 {
		l.base[p] = least
	}
	for i := range stairs {
		stairs[i].cost -= least
	}
	l.total += l.base[p] - old
	if l.parent[p] < 0 && (len(stairs) == 0) != (len(l.was) == 0) {
		l.total += l.costAt(p, 0) - costFrom(l.was, 0)
	}
	for _, at := range l.placesOf[p] {
		own := l.own[at][:0]
		for _, t := range l.turns[l.reelOf(int(at))] {
			own = append(own, l.costAt(p, t.visit))
		}
		l.own[at] = own
	}
	same := func(a, b step) bool { return a.cost == b.cost && a.visit == b.visit }
	return l.base[p] != old || !slices.EqualFunc(stairs, l.was, same)
}

// askColumn offers one candidate run to the target in hand, in each of its turns.
func (l *lineup) askColumn(i int) {
	col := &l.columns[i]
	if !l.reachable[col.last] {
		return
	}
	var before, off []ticks
	var base ticks
	if col.prev >= 0 {
		before, off, base = l.hang[col.prev], l.own[col.end], l.base[col.last]
		if prev := &l.columns[col.prev]; l.places[col.end].down {
			off, base = l.own[prev.end], l.base[prev.low]
		}
	}
	hang := l.hang[i][:0]
	for k, t := range l.turns[l.reelOf(col.end)] {
		h := l.sum[col.end][k]
		if before != nil {
			h += before[k] - off[k] - base
		}
		hang = append(hang, h)
		if h >= unreachable/2 || col.spots&(1<<t.bit) == 0 || l.visits[t.visit].out {
			continue
		}
		cost := col.cost + h + l.thirst(i, l.visits[t.visit].key.spot)
		if !t.free {
			cost += t.open
		}
		if b := &l.best[t.visit]; cost < b.cost {
			if b.cost == unreachable {
				l.touched = append(l.touched, t.visit)
			}
			*b = step{cost, int32(i), t.visit}
		}
	}
	l.hang[i] = hang
}

// thirst is about what a run has to wait for water at a spot, the tank filling
// during the run itself. The day that is carried out knows it exactly.
func (l *lineup) thirst(column, spot int) ticks {
	col := &l.columns[column]
	if inflow := l.spots[spot].inflow; inflow > 0 {
		return max(0, ticks(float64(col.water)/float64(inflow)/Tick.Seconds())-col.cost)
	}
	return ticks(float64(col.water) * l.fetch[spot])
}

// askAll asks for every target.
func (l *lineup) askAll() {
	for _, p := range slices.Backward(l.targets) {
		l.ask(p)
	}
	l.total = 0
	for _, p := range l.targets {
		l.total += l.base[p]
	}
	for _, r := range l.roots {
		l.total += l.costAt(r, 0)
	}
}

// runs lists what the day chooses, each with its visit as the block, and every
// run after the one that cleans the target below.
func (l *lineup) runs() (out []chosen) {
	type todo struct {
		target int
		visit  int32
	}
	var stack []todo
	for _, r := range l.roots {
		stack = append(stack, todo{r, 0})
	}
	for len(stack) > 0 {
		t := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		i := slices.IndexFunc(l.stairs[t.target], func(s step) bool { return s.visit >= t.visit })
		s := l.stairs[t.target][i]
		out = append(out, chosen{int(s.column), int(s.visit)})
		chain := l.chain(int(s.column))
		for n, p := range chain {
			for _, q := range l.children[p] {
				if n+1 == len(chain) || q != chain[n+1] {
					stack = append(stack, todo{q, s.visit})
				}
			}
		}
	}
	return out
}
