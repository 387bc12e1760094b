package route

import (
	"cmp"
	"iter"
	"slices"
)

// problem is a catalogue laid out flat for the search: no pointers to follow
// and no sets to ask, so that one pass over it takes microseconds. Targets go by
// their place in catalogue.targets, lower ones first.
type problem struct {
	*catalogue
	index []int32 // by pipe, the place of a target; -1 for none
	up    []int32 // the target below, -1 for none
	kids  [][]int32
	// keys are the blocks that some run can use, in order of spot and hose.
	keys  []blockKey
	keyAt []int32 // by spot and hose, the place in keys; -1 for none
	spans []span
	// spansOf[p] are the spans whose lowest target is p, each after its prev.
	spansOf []bounds
	cells   []cell
	things  []thing
	shares  int      // how many things share out over targets, summed
	all     []choice // every choice, by low target and span
	// What is paid for water, by spot: for each unit that a run draws, off all
	// other time there as a part of it, and off each stay; nil in the dry. See
	// priceWater.
	fetch, saved []float64
	credit       []ticks
}

// bounds are a stretch of a list.
type bounds struct{ from, to int32 }

// span is a set of targets that one run cleans: all from a low one to a top one
// above it. prev is the span without the top; -1 for a single target.
type span struct{ low, top, prev int32 }

// choice is a candidate run made in blocks of one key.
type choice struct {
	cost   ticks
	span   int32
	low    int32 // of the span
	key    int32
	access int32
	// Shares that are paid along the way are those at the cell top without
	// those at the cell below; see [easing].
	top, below int32
	column     int32
	share      ticks // its share of its opening's price, rounded down
}

// cell is a target on the way of a hose from an access, as it lies at one spot.
// The shares of what the run needs there are summed along the way: prev is the
// cell of the target before it. Cell 0 is at no target.
type cell struct {
	prev, target  int32
	opening       int32 // the share of the opening, by key
	stay, hosePay int32 // of the spot, and of the hose at the spot
}

// thing is one thing that is paid once for any number of runs, and where its
// shares lie.
type thing struct {
	price ticks
	bounds
}

// newProblem lays a catalogue out: in the dry where waits is nil, else with a
// price on water; see priceWater.
func newProblem(c *catalogue, waits []bool) *problem {
	p := &problem{catalogue: c}
	if waits != nil {
		p.priceWater(waits)
	}
	p.index = make([]int32, len(c.pipes))
	for i := range p.index {
		p.index[i] = -1
	}
	for i, t := range c.targets {
		p.index[t] = int32(i)
	}
	p.kids, p.up = make([][]int32, len(c.targets)), make([]int32, len(c.targets))
	for i, t := range c.targets {
		if p.up[i] = -1; c.parent[t] >= 0 {
			p.up[i] = p.index[c.parent[t]]
		}
		for _, q := range c.children[t] {
			p.kids[i] = append(p.kids[i], p.index[q])
		}
	}
	p.numberKeys()
	usable := p.usable()
	spanOf := p.addSpans(usable)
	p.addChoices(usable, spanOf, p.addCells(usable))
	return p
}

// usable tells which columns can be made and clean nothing that is given up.
func (p *problem) usable() []bool {
	whole := make([]bool, len(p.columns))
	out := make([]bool, len(p.columns))
	for i := range p.columns {
		col := &p.columns[i]
		whole[i] = p.reachable[col.last] && (col.prev < 0 || whole[col.prev])
		out[i] = whole[i] && col.spots != 0
	}
	return out
}

// keys lists every spot and hose that some run can use, in order.
func (c *catalogue) keys() (out []blockKey) {
	hoses := len(c.site.Rig.Hoses)
	used := make([]bool, len(c.spots)*hoses)
	for i := range c.columns {
		col := &c.columns[i]
		end := &c.places[col.end]
		for bit, n := range c.access[end.access].near {
			if col.spots&(1<<bit) != 0 {
				used[n.spot*hoses+end.hose] = true
			}
		}
	}
	for i, is := range used {
		if is {
			out = append(out, blockKey{i / hoses, i % hoses})
		}
	}
	return out
}

// numberKeys finds the keys and numbers them.
func (p *problem) numberKeys() {
	p.keys = p.catalogue.keys()
	p.keyAt = make([]int32, len(p.spots)*len(p.site.Rig.Hoses))
	for i := range p.keyAt {
		p.keyAt[i] = -1
	}
	for i, b := range p.keys {
		p.keyAt[b.spot*len(p.site.Rig.Hoses)+b.hose] = int32(i)
	}
}

func (p *problem) keyIndex(b blockKey) int32 { return p.keyAt[b.spot*len(p.site.Rig.Hoses)+b.hose] }

// addSpans finds the spans of all usable columns, and returns them by column.
func (p *problem) addSpans(usable []bool) []int32 {
	// Spans of one low target form a tree as the targets do, so that they are
	// known by their top.
	tops := make([]map[int32]bool, len(p.targets))
	ends := make([][2]int32, len(p.columns))
	for i := range p.columns {
		if !usable[i] {
			continue
		}
		col := &p.columns[i]
		low, top := p.index[col.low], p.index[col.last]
		if p.places[col.end].down {
			for j := i; j >= 0; j = p.columns[j].prev {
				top = p.index[p.columns[j].last]
			}
		}
		ends[i] = [2]int32{low, top}
		if tops[low] == nil {
			tops[low] = map[int32]bool{}
		}
		for t := top; t != low && !tops[low][t]; t = p.index[p.parent[p.targets[t]]] {
			tops[low][t] = true
		}
	}
	spanOf := make([]int32, len(p.columns))
	at := make([]map[int32]int32, len(p.targets))
	for low := range p.targets {
		first := int32(len(p.spans))
		p.spans = append(p.spans, span{int32(low), int32(low), -1})
		at[low] = map[int32]int32{int32(low): first}
		sorted := make([]int32, 0, len(tops[low]))
		for t := range tops[low] {
			sorted = append(sorted, t)
		}
		slices.Sort(sorted) // lower targets come first
		for _, t := range sorted {
			at[low][t] = int32(len(p.spans))
			p.spans = append(p.spans, span{int32(low), t, at[low][p.index[p.parent[p.targets[t]]]]})
		}
		p.spansOf = append(p.spansOf, bounds{first, int32(len(p.spans))})
	}
	for i := range p.columns {
		if usable[i] {
			spanOf[i] = at[ends[i][0]][ends[i][1]]
		}
	}
	return spanOf
}

// addCells lays out what runs share, and returns the first cell by place, of
// which there is one for each spot near the access; 0 for none.
func (p *problem) addCells(usable []bool) []int32 {
	ends := make([]bool, len(p.places)) // a usable column goes to or through here
	for i := range p.columns {
		if usable[i] {
			ends[p.columns[i].end] = true
		}
	}
	for i := len(p.places) - 1; i >= 0; i-- {
		if prev := p.places[i].prev; ends[i] && prev >= 0 {
			ends[prev] = true
		}
	}
	p.cells = []cell{{}}
	first := make([]int32, len(p.places))
	before := make([]int32, len(p.places)) // first cell of the last target before
	for i := range p.places {
		pl := &p.places[i]
		if pl.prev >= 0 {
			if before[i] = first[pl.prev]; before[i] == 0 {
				before[i] = before[pl.prev]
			}
		}
		t := p.index[pl.pipe]
		if !ends[i] || t < 0 {
			continue
		}
		first[i] = int32(len(p.cells))
		for bit := range p.access[pl.access].near {
			c := cell{target: t}
			if before[i] > 0 {
				c.prev = before[i] + int32(bit)
			}
			p.cells = append(p.cells, c)
		}
	}
	p.addThings(first)
	return first
}

// The things are the openings by access and key, the spots, and the keys.
func (p *problem) openingOfKey(access, key int) int { return access*len(p.keys) + key }
func (p *problem) stayAt(spot int) int              { return len(p.access)*len(p.keys) + spot }
func (p *problem) hoseAt(key int) int               { return len(p.access)*len(p.keys) + len(p.spots) + key }

// addThings finds out what each cell shares, and numbers the shares. Share 0 is
// of nothing.
func (p *problem) addThings(first []int32) {
	type slot struct {
		thing, target int32
		at            *int32
	}
	var slots []slot
	for i := range p.places {
		if first[i] == 0 {
			continue
		}
		pl := &p.places[i]
		for bit, n := range p.access[pl.access].near {
			key := p.keyIndex(blockKey{n.spot, pl.hose})
			if pl.set&(1<<bit) == 0 || key < 0 {
				continue
			}
			c := &p.cells[int(first[i])+bit]
			slots = append(slots,
				slot{int32(p.openingOfKey(pl.access, int(key))), c.target, &c.opening},
				slot{int32(p.stayAt(n.spot)), c.target, &c.stay},
				slot{int32(p.hoseAt(int(key))), c.target, &c.hosePay})
		}
	}
	slices.SortFunc(slots, func(a, b slot) int {
		return cmp.Or(cmp.Compare(a.thing, b.thing), cmp.Compare(a.target, b.target))
	})
	p.things = make([]thing, p.hoseAt(len(p.keys)))
	n := int32(1)
	for i, s := range slots {
		t := &p.things[s.thing]
		if i == 0 || slots[i-1].thing != s.thing {
			t.bounds = bounds{n, n}
		}
		if t.from == t.to || slots[i-1].target != s.target {
			t.to++
			n++
		}
		*s.at = n - 1
	}
	p.shares = int(n)
	for a := range p.access {
		for k, key := range p.keys {
			p.things[p.openingOfKey(a, k)].price = p.timeAt(p.openCost(a, key.spot), key.spot)
		}
	}
}

// addChoices lists the choices by low target, and leaves out those that another
// one replaces at no more cost: the same targets cleaned with the same key
// through another access, that opening included.
func (p *problem) addChoices(usable []bool, spanOf, first []int32) {
	for i := range p.columns {
		if !usable[i] {
			continue
		}
		col := &p.columns[i]
		end := &p.places[col.end]
		bottom := int32(0) // the cell of its lowest target, going up
		if !end.down {
			j := i
			for p.columns[j].prev >= 0 {
				j = p.columns[j].prev
			}
			bottom = first[p.columns[j].end]
		}
		for bit, n := range p.access[end.access].near {
			if col.spots&(1<<bit) == 0 {
				continue
			}
			ch := choice{
				cost: p.costIn(i, n.spot), span: spanOf[i], low: p.index[col.low], access: int32(end.access), column: int32(i),
				key: p.keyIndex(blockKey{n.spot, end.hose}), top: first[col.end] + int32(bit),
			}
			if bottom > 0 {
				ch.below = p.cells[bottom+int32(bit)].prev
			}
			p.all = append(p.all, ch)
		}
	}
	slices.SortStableFunc(p.all, func(a, b choice) int {
		return cmp.Or(cmp.Compare(a.span, b.span), cmp.Compare(a.key, b.key), cmp.Compare(a.cost, b.cost))
	})
	kept := p.all[:0:0]
	for i, from := 0, 0; i < len(p.all); i++ {
		ch := p.all[i]
		if i == 0 || p.all[i-1].span != ch.span || p.all[i-1].key != ch.key {
			from = len(kept)
		}
		if !slices.ContainsFunc(kept[from:], func(o choice) bool {
			return o.access == ch.access || o.cost+p.openPrice(int(o.access), o.key) <= ch.cost
		}) {
			kept = append(kept, ch)
		}
	}
	p.all = kept
}

// hanging are the targets that hang off those of a span.
func (p *problem) hanging(s int32) iter.Seq[int32] {
	return func(yield func(int32) bool) {
		for above := int32(-1); s >= 0; s = p.spans[s].prev {
			top := p.spans[s].top
			for _, q := range p.kids[top] {
				if q != above && !yield(q) {
					return
				}
			}
			above = top
		}
	}
}
