package label

import (
	"cmp"
	"math"
	"slices"

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

// Prices of a leader that crosses something.
const (
	leaderOverLeader = 40
	leaderOverWall   = 0.15 // share of the wall's own price
	leaderOverMark   = 20   // a wall whose touch is taboo
)

// How near to a mark a label seems to name it, in millimetres, and the price.
const (
	besideMark      = 1.2
	besideMarkPrice = 1.6
)

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
	return t.chosen
}

// place is a candidate with its standing price, under its own index.
type place struct {
	Candidate
	index  int
	bounds drawing.Box // of the box and its leader
}

// table is the state of the search.
type table struct {
	items  []Item
	places [][]place // by item, cheapest first
	at     []int     // index into places, Dropped for none
	chosen []int
	taken  grid
}

func newTable(items []Item, walls []Wall, bounds drawing.Box) *table {
	t := &table{items: items, places: make([][]place, len(items)), at: make([]int, len(items)), chosen: make([]int, len(items)), taken: newGrid(bounds, len(items))}
	fixed := newGrid(bounds, len(walls))
	for i, w := range walls {
		fixed.add(i, span(w.A, w.B, w.Half))
	}
	for i, it := range items {
		t.at[i], t.chosen[i] = Dropped, Dropped
		for k, c := range it.Candidates {
			p := place{Candidate: c, index: k, bounds: c.Box.Bounds()}
			if len(c.Leader) == 2 {
				p.bounds = union(p.bounds, span(c.Leader[0], c.Leader[1], 0))
			}
			if !c.Box.inside(bounds) {
				p.Cost += Taboo
			}
			fixed.near(p.bounds, func(j int) bool {
				p.Cost += p.against(walls[j])
				return true
			})
			t.places[i] = append(t.places[i], p)
		}
		slices.SortStableFunc(t.places[i], func(a, b place) int { return cmp.Compare(a.Cost, b.Cost) })
	}
	return t
}

// against returns the price of a wall that the place covers.
func (p *place) against(w Wall) float64 {
	cost := 0.0
	if long, hit := p.Box.cut(w.A, w.B, w.Half); hit {
		cost = w.Touch + w.PerMM*long
	} else if w.Touch >= Taboo {
		// Next to a mark of another label it would seem to name that one.
		if _, next := p.Box.cut(w.A, w.B, w.Half+besideMark); next {
			cost = besideMarkPrice
		}
	}
	switch {
	case len(p.Leader) != 2:
	case w.Touch >= Taboo:
		const own = 0.1 // a leader starts at the edge of its own mark
		if distance(p.Leader[0], p.Leader[1], w.A, w.B) < w.Half-own {
			cost += leaderOverMark
		}
	case cross(p.Leader[0], p.Leader[1], w.A, w.B):
		cost += leaderOverWall * (w.Touch + w.PerMM)
	}
	return cost
}

// clash returns the price of two labels standing where they do.
func clash(a, b *place) float64 {
	if apart(a.bounds, b.bounds) {
		return 0
	}
	cost := 0.0
	if a.Box.Overlaps(b.Box) {
		cost += Taboo
	}
	if len(a.Leader) == 2 {
		if _, hit := b.Box.cut(a.Leader[0], a.Leader[1], 0); hit {
			cost += Taboo / 4
		}
	}
	if len(b.Leader) == 2 {
		if _, hit := a.Box.cut(b.Leader[0], b.Leader[1], 0); hit {
			cost += Taboo / 4
		}
	}
	if len(a.Leader) == 2 && len(b.Leader) == 2 && cross(a.Leader[0], a.Leader[1], b.Leader[0], b.Leader[1]) {
		cost += leaderOverLeader
	}
	return cost
}

// cost returns the price of place k for item i as the others stand. It stops
// counting at enough.
func (t *table) cost(i, k int, enough float64) float64 {
	p := &t.places[i][k]
	cost := p.Cost
	t.taken.near(p.bounds, func(j int) bool {
		if j != i {
			cost += clash(p, &t.places[j][t.at[j]])
		}
		return cost < enough
	})
	return cost
}

// best returns the cheapest place for item i as the others stand.
func (t *table) best(i int) int {
	best, least := Dropped, math.Inf(1)
	if t.items[i].Optional {
		least = min(t.items[i].Drop, Taboo/4)
	}
	for k := range t.places[i] {
		if t.places[i][k].Cost >= least {
			break
		}
		if c := t.cost(i, k, least); c < least {
			best, least = k, c
		}
	}
	return best
}

// put moves item i to place k.
func (t *table) put(i, k int) {
	if old := t.at[i]; old != Dropped {
		t.taken.remove(i, t.places[i][old].bounds)
	}
	t.at[i], t.chosen[i] = k, Dropped
	if k != Dropped {
		t.chosen[i] = t.places[i][k].index
		t.taken.add(i, t.places[i][k].bounds)
	}
}

// sweep lets each item in turn move to its best place until none wants to.
func (t *table) sweep() {
	for range sweeps {
		moved := false
		for i := range t.items {
			if k := t.best(i); k != t.at[i] {
				t.put(i, k)
				moved = true
			}
		}
		if !moved {
			return
		}
	}
}
