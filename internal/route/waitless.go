package route

import "linemap/internal/unit"

// In which order the runs of a block are made costs nothing in the dry, but the
// tank feels it: with a frugal run at a full tank the inflow goes to waste, and
// thirsty runs one after another are waited for, where frugal ones between them
// would have let the tank fill.

// mostTurns is how many turns are tried in all, far beyond what a building asks
// for.
const mostTurns = 2_000_000

// waitLess puts the runs of blocks in another order where that has the crew wait
// less for water, or fetch less, or pack up sooner: one run after the other is put
// where most is won by it, as long as any is. No run comes before the one that
// cleans the pipe below it. turned counts the runs looked at.
func (c *catalogue) waitLess(seq []blockKey, runs [][]int) (turned int) {
	t := turns{dayBook: newDayBook(c), left: mostTurns}
	var blocks []int // but those in which nothing is made
	for j := range seq {
		if len(runs[j]) > 0 {
			blocks = append(blocks, j)
		}
	}
	for len(blocks) > 0 {
		spot, n := seq[blocks[0]].spot, 1
		for n < len(blocks) && seq[blocks[n]].spot == spot {
			n++
		}
		next := -1
		if n < len(blocks) {
			next = seq[blocks[n]].spot
		}
		t.begin(spot, next)
		for _, j := range blocks[:n] {
			t.lineUp(runs[j])
		}
		t.shorten()
		for k, j := range blocks[:n] {
			for i, r := range t.blocks[k].order {
				runs[j][i] = r.column
			}
		}
		blocks = blocks[n:]
	}
	return mostTurns - t.left
}

// turns is a stay at a spot with the order of its runs.
type turns struct {
	*dayBook
	next   int         // the spot of the stay after it, -1 for none
	begun  unit.Volume // in the tank when the stay begins
	blocks []turnBlock
	tries  int
	left   int // how many more turns may be tried
}

// turnBlock is a block of a stay. opened tells by access, as its runs number them,
// the last try in which it was opened.
type turnBlock struct {
	order  []*thirst
	opened []int
}

// thirst is a run as the tank feels it.
type thirst struct {
	column, access int
	opens          ticks
	draughts       []draught
	below          *thirst // the run of the block that has to come before; nil for none
}

// begin begins a stay.
func (t *turns) begin(spot, next int) {
	t.spot, t.next, t.begun, t.blocks = spot, next, t.tank, t.blocks[:0]
}

// lineUp adds a block with its runs in an order.
func (t *turns) lineUp(columns []int) {
	var b turnBlock
	number, by := map[int]int{}, map[int]*thirst{}
	for _, column := range columns {
		access := t.accessOf(column)
		if _, known := number[access]; !known {
			number[access] = len(number)
		}
		r := &thirst{column: column, access: number[access], opens: t.openCost(access, t.spot), draughts: t.draughts(column)}
		b.order = append(b.order, r)
		for _, p := range t.chain(column) {
			by[p] = r
		}
	}
	for _, r := range b.order {
		r.below = by[t.parent[t.columns[r.column].low]]
	}
	b.opened = make([]int, len(number))
	t.blocks = append(t.blocks, b)
}

// shorten puts the runs in their best turns.
func (t *turns) shorten() {
	least := t.loses()
	for better := true; better; {
		better = false
		for j := range t.blocks {
			order := t.blocks[j].order
			for i := range order {
				if least == 0 || t.left < 0 {
					break
				}
				got := t.place(order, i, least)
				better = better || got < least
				least = got
			}
		}
	}
	t.loses() // for the tank that the next stay begins with
}

// place puts one run in its best turn, and returns what the stay loses then.
func (t *turns) place(order []*thirst, i int, least ticks) ticks {
	at, now := i, i
	swap := func(to int) {
		order[now], order[to] = order[to], order[now]
		now = to
	}
	try := func() {
		if got := t.loses(); got < least {
			least, at = got, now
		}
	}
	for now+1 < len(order) && order[now+1].below != order[now] {
		swap(now + 1)
		try()
	}
	for now > i {
		swap(now - 1)
	}
	for now > 0 && order[now].below != order[now-1] {
		swap(now - 1)
		try()
	}
	for now < at {
		swap(now + 1)
	}
	return least
}

// loses is the time that the stay takes for its water: what is waited for, fetched,
// filled and drained.
func (t *turns) loses() (lost ticks) {
	t.tank = t.begun
	t.tries++
	for j := range t.blocks {
		b := &t.blocks[j]
		if j > 0 {
			t.goBy(toTicks(minutes(t.site.Rig.Crew.HoseChange)), 0)
		}
		for _, r := range b.order {
			if b.opened[r.access] != t.tries {
				b.opened[r.access] = t.tries
				t.goBy(r.opens, 0)
			}
			lost += t.drink(r.draughts)
		}
		t.left -= len(b.order)
	}
	over, full := t.packing(t.next)
	t.tank = 0
	if full {
		t.tank = t.site.Rig.Tank.Volume
	} else if t.next >= 0 {
		lost += t.beyond(t.site.Rig.Tank.Start, t.spots[t.next].inflow, 0)
	}
	return lost + over
}
