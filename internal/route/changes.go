package route

import (
	"iter"
	"slices"
)

// changes are the sequences with one block more, with one less, with all blocks at
// one spot made at another, and with one stay at another time of the day.
func (o *rough) changes() iter.Seq[[]blockKey] {
	return func(yield func([]blockKey) bool) {
		for at := len(o.seq); at >= 0; at-- {
			for _, key := range o.keys {
				if !touches(o.seq, at, key) && !yield(slices.Insert(slices.Clone(o.seq), at, key)) {
					return
				}
			}
		}
		for at := range o.seq {
			if !yield(slices.Compact(without(o.seq, at))) {
				return
			}
		}
		if o.elsewhere(yield) {
			o.moved(yield)
		}
	}
}

// elsewhere are the sequences with all blocks at one spot made at another; it is
// false where yield was.
func (o *rough) elsewhere(yield func([]blockKey) bool) bool {
	for at, from := range o.seq {
		if slices.ContainsFunc(o.seq[:at], func(b blockKey) bool { return b.spot == from.spot }) {
			continue
		}
		for to := range o.spots {
			next := slices.Clone(o.seq)
			known := to != from.spot
			for i := range next {
				if next[i].spot == from.spot {
					next[i].spot = to
					known = known && o.keyIndex(next[i]) >= 0
				}
			}
			if known && !yield(slices.Compact(next)) {
				return false
			}
		}
	}
	return true
}

// moved are the sequences with one stay at another time of the day.
func (o *rough) moved(yield func([]blockKey) bool) bool {
	from := 0
	for to := 1; to <= len(o.seq); to++ {
		if to < len(o.seq) && o.seq[to].spot == o.seq[from].spot {
			continue
		}
		rest := slices.Delete(slices.Clone(o.seq), from, to)
		for at := 0; at <= len(rest); at++ {
			if at != from && !yield(slices.Compact(slices.Insert(slices.Clone(rest), at, o.seq[from:to]...))) {
				return false
			}
		}
		from = to
	}
	return true
}
