package route

import (
	"cmp"
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
				water: col.water,
			}
			ch.share = p.openPrice(end.access, ch.key) / sharedBy
			if bottom > 0 {
				ch.below = p.cells[bottom+int32(bit)].prev
			}
			p.all = append(p.all, ch)
		}
	}
	slices.SortStableFunc(p.all, func(a, b choice) int {
		return cmp.Or(cmp.Compare(a.span, b.span), cmp.Compare(a.key, b.key), cmp.Compare(a.cost, b.cost), cmp.Compare(a.water, b.water))
	})
	kept := p.all[:0:0]
	for i, from := 0, 0; i < len(p.all); i++ {
		ch := p.all[i]
		if i == 0 || p.all[i-1].span != ch.span || p.all[i-1].key != ch.key {
			from = len(kept)
		}
		if !slices.ContainsFunc(kept[from:], func(o choice) bool {
			return o.water <= ch.water && (o.access == ch.access || o.cost+p.openPrice(int(o.access), o.key) <= ch.cost)
		}) {
			kept = append(kept, ch)
		}
	}
	p.all = kept
}
