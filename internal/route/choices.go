package route

import (
	"cmp"
	"math/bits"
	"slices"

	"linemap/internal/unit"
)

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
	// share is its part of its opening's price, rounded down: as in a typical plan,
	// until [easing] knows better.
	share ticks
	water unit.Volume
}

// sharedBy is by how many runs an opening is shared in a typical plan.
const sharedBy = 4

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

// addChoices lists the choices by low target, and leaves out those that another
// one replaces at no more cost and with no more water: the same targets cleaned with
// the same key through another access, that opening included. Water counts for
// itself, so that what is left is enough whatever it costs.
func (p *problem) addChoices(usable []bool, spanOf, first []int32) {
	from := make([]int32, len(p.spans)+1) // of a span's choices
	for i := range p.columns {
		if usable[i] {
			from[spanOf[i]+1] += int32(bits.OnesCount64(p.columns[i].spots))
		}
	}
	for s := range p.spans {
		from[s+1] += from[s]
	}
	p.all = make([]choice, from[len(p.spans)])
	next := slices.Clone(from)
	bottom := make([]int32, len(p.columns)) // the first cell of its lowest target, going up
	for i := range p.columns {
		col := &p.columns[i]
		if end := &p.places[col.end]; !end.down {
			if bottom[i] = first[col.end]; col.prev >= 0 {
				bottom[i] = bottom[col.prev]
			}
		}
		if usable[i] {
			s := spanOf[i]
			next[s] += int32(p.addChoicesOf(i, p.all[next[s]:from[s+1]], choice{span: s, top: first[col.end], below: bottom[i]}))
		}
	}
	kept := p.all[:0]
	for s := range p.spans {
		kept = p.keepBest(kept, p.all[from[s]:from[s+1]])
	}
	p.all = kept
}

// addChoicesOf writes the choices that a column gives, one for each spot that it can
// be made from, and tells how many there are. like has its span, and the first of
// the cells at its ends.
func (p *problem) addChoicesOf(column int, out []choice, like choice) (n int) {
	col := &p.columns[column]
	end := &p.places[col.end]
	like.column, like.access, like.low, like.water = int32(column), int32(end.access), p.index[col.low], col.water
	for bit, near := range p.access[end.access].near {
		if col.spots&(1<<bit) == 0 {
			continue
		}
		ch := &out[n]
		n++
		*ch = like
		ch.cost, ch.key = p.costIn(column, near.spot), p.keyIndex(blockKey{near.spot, end.hose})
		ch.share = p.openPrice(end.access, ch.key) / sharedBy
		ch.top += int32(bit)
		if ch.below > 0 {
			ch.below = p.cells[ch.below+int32(bit)].prev
		}
	}
	return n
}

// keepBest adds to a list the choices of a span, by key, that none before them
// replaces.
func (p *problem) keepBest(kept, of []choice) []choice {
	slices.SortStableFunc(of, func(a, b choice) int {
		if a.key != b.key {
			return int(a.key - b.key)
		}
		return cmp.Or(cmp.Compare(a.cost, b.cost), cmp.Compare(a.water, b.water))
	})
	from, key := len(kept), int32(-1)
	for _, ch := range of {
		if ch.key != key {
			from, key = len(kept), ch.key
		}
		if !slices.ContainsFunc(kept[from:], func(o choice) bool {
			return o.water <= ch.water && (o.access == ch.access || o.cost+p.openPrice(int(o.access), o.key) <= ch.cost)
		}) {
			kept = append(kept, ch)
		}
	}
	return kept
}
