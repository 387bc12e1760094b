package label

import (
	"math"

	"linemap/internal/export/drawing"
)

// Candidate is a place that a label may take.
type Candidate struct {
	Box Box
	// Align is the end of the label's lines that is next to what they name.
	Align drawing.Align
	// Leader is the line from the named place to the label, empty where the
	// label stands next to it.
	Leader []Point
	// Cost is the price of the place by itself, lower for a better one.
	Cost float64
}

// Item is one label.
type Item struct {
	Candidates []Candidate
	// Optional labels are dropped rather than laid over something, and when
	// their place would cost more than Drop.
	Optional bool
	Drop     float64
}

// Wall is something on the paper that labels should not cover: a line from A
// to B, Half wide to either side.
type Wall struct {
	A, B Point
	Half float64
	// Touch is the price of touching it, PerMM that of each millimetre hidden.
	Touch, PerMM float64
}

// Taboo is the price of what must not be: a label over another label or over
// a symbol.
const Taboo = 1e4

// Dropped is what [Place] returns for an optional item left out.
const Dropped = -1

// sweeps bounds how often every item looks for a better place.
const sweeps = 6

// Place returns the index of the candidate chosen for each item, or [Dropped].
// Items that come first choose first. An item without a candidate is dropped.
func Place(items []Item, walls []Wall, bounds drawing.Box) []int {
	t := newTable(items, walls, bounds)
	for i := range items {
		t.put(i, t.best(i))
	}
	t.sweep()
	left := pushes
	for i := range items {
		left -= t.push(i, left)
	}
	t.sweep()
	chosen := make([]int, len(items))
	for i := range chosen {
		chosen[i] = Dropped
		if p := t.stands[i]; p != nil {
			chosen[i] = p.index
		}
	}
	return chosen
}

// table is the state of the search.
type table struct {
	items  []Item
	queues []queue
	stands []*place // by item, nil for none
	taken  *grid
	around *ground
}

func newTable(items []Item, walls []Wall, bounds drawing.Box) *table {
	t := &table{
		items: items, queues: make([]queue, len(items)), stands: make([]*place, len(items)),
		taken: newGrid(bounds, len(items)), around: newGround(walls, bounds),
	}
	for i := range items {
		t.queues[i] = newQueue(&items[i], bounds)
	}
	return t
}

// cost returns the price of a place for item i as the others stand. It stops
// counting at enough.
func (t *table) cost(i int, p *place, enough float64) float64 {
	cost := p.cost
	t.taken.near(p.bounds, func(j int) bool {
		if j != i {
			cost += clash(p, t.stands[j])
		}
		return cost < enough
	})
	return cost
}

// best returns the cheapest place for item i as the others stand.
func (t *table) best(i int) *place {
	var best *place
	least := t.items[i].most()
	for n := 0; ; n++ {
		p := t.queues[i].nth(n, t.around)
		if p == nil || p.cost >= least {
			return best
		}
		if c := t.cost(i, p, least); c < least {
			best, least = p, c
		}
	}
}

// most is the price from which on an item is left out.
func (it *Item) most() float64 {
	if it.Optional {
		return min(it.Drop, Taboo/4)
	}
	return math.Inf(1)
}

// put moves item i to a place, nil for none.
func (t *table) put(i int, p *place) {
	if old := t.stands[i]; old != nil {
		t.taken.remove(i, old.bounds)
	}
	if t.stands[i] = p; p != nil {
		t.taken.add(i, p.bounds)
	}
}

// sweep lets each item in turn move to its best place until none wants to.
func (t *table) sweep() {
	for range sweeps {
		moved := false
		for i := range t.items {
			if p := t.best(i); p != t.stands[i] {
				t.put(i, p)
				moved = true
			}
		}
		if !moved {
			return
		}
	}
}
