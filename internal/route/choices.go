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
	number     int32 // its place among all choices
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

// stand is a column made from one of the spots near its access, by their bit.
type stand struct{ column, bit int32 }

// addChoices lists the choices by low target, and leaves out those that another
// one replaces at no more cost and with no more water: the same targets cleaned with
// the same key through another access, that opening included. Water counts for
// itself, so that what is left is enough whatever it costs.
func (p *problem) addChoices(usable []bool, spanOf, first []int32) {
	all, keys := p.stands(usable)
	keyed := byNumber(keys, len(p.keys))
	spans := make([]int32, len(keyed))
	for i, at := range keyed {
		spans[i] = spanOf[all[at].column]
	}
	bottom := p.bottoms(first)
	p.all = make([]choice, 0, len(all))
	from := 0 // where the choices begin that have the same span and key as the last
	for _, i := range byNumber(spans, len(p.spans)) {
		at := keyed[i]
		if from < len(p.all) && (p.all[from].span != spans[i] || p.all[from].key != keys[at]) {
			p.keepBest(from)
			from = len(p.all)
		}
		c := all[at]
		col := &p.columns[c.column]
		ch := choice{
			cost: col.cost, water: col.water,
			span: spans[i], low: p.index[col.low], key: keys[at], access: int32(p.places[col.end].access),
			top: first[col.end] + c.bit, column: c.column,
		}
		ch.share = p.openPrice(int(ch.access), ch.key) / sharedBy
		if b := bottom[c.column]; b > 0 {
			ch.below = p.cells[b+c.bit].prev
		}
		p.all = append(p.all, ch)
	}
	p.keepBest(from)
	for i := range p.all {
		p.all[i].number = int32(i)
	}
}

// stands lists the stands of the usable columns, and their keys.
func (p *problem) stands(usable []bool) (all []stand, keys []int32) {
	n := 0
	for i, ok := range usable {
		if ok {
			n += bits.OnesCount64(p.columns[i].spots)
		}
	}
	all, keys = make([]stand, 0, n), make([]int32, 0, n)
	for i, ok := range usable {
		if !ok {
			continue
		}
		col := &p.columns[i]
		end := &p.places[col.end]
		for bit, near := range p.access[end.access].near {
			if col.spots&(1<<bit) != 0 {
				all = append(all, stand{int32(i), int32(bit)})
				keys = append(keys, p.keyIndex(blockKey{near.spot, end.hose}))
			}
		}
	}
	return all, keys
}

// bottoms finds by column the first cell of its lowest target, where it goes up;
// first is by place.
func (p *problem) bottoms(first []int32) []int32 {
	bottom := make([]int32, len(p.columns))
	for i := range p.columns {
		col := &p.columns[i]
		if p.places[col.end].down {
			continue
		}
		if bottom[i] = first[col.end]; col.prev >= 0 {
			bottom[i] = bottom[col.prev]
		}
	}
	return bottom
}

// keepBest keeps those of the choices from a place on that no cheaper one replaces.
func (p *problem) keepBest(from int) {
	of := p.all[from:]
	slices.SortStableFunc(of, func(a, b choice) int {
		return cmp.Or(cmp.Compare(a.cost, b.cost), cmp.Compare(a.water, b.water))
	})
	kept := of[:0]
	for _, ch := range of {
		if !slices.ContainsFunc(kept, func(o choice) bool {
			return o.water <= ch.water && (o.access == ch.access || o.cost+p.openPrice(int(o.access), o.key) <= ch.cost)
		}) {
			kept = append(kept, ch)
		}
	}
	p.all = p.all[:from+len(kept)]
}
