package route

import (
	"iter"
	"slices"
)

// neighbours are the sequences one change away from a sequence: one block
// less, one more, one replaced, one moved, two swapped. Sequences with two
// equal blocks in a row are merged or left out.
func neighbours(seq, keys []blockKey) iter.Seq[[]blockKey] {
	return func(yield func([]blockKey) bool) {
		send := func(next []blockKey) bool {
			next = slices.Compact(next)
			return yield(next)
		}
		for at := range seq {
			if !send(without(seq, at)) {
				return
			}
		}
		for at := len(seq); at >= 0; at-- {
			for _, key := range keys {
				if !touches(seq, at, key) && !send(slices.Insert(slices.Clone(seq), at, key)) {
					return
				}
			}
		}
		for at := range seq {
			for _, key := range keys {
				next := slices.Clone(seq)
				next[at] = key
				if key != seq[at] && !send(next) {
					return
				}
			}
		}
		for from := range seq {
			rest := without(seq, from)
			for to := 0; to <= len(rest); to++ {
				if to != from && !send(slices.Insert(slices.Clone(rest), to, seq[from])) {
					return
				}
			}
		}
		for a := range seq {
			for b := a + 2; b < len(seq); b++ { // neighbours swap when one moves
				next := slices.Clone(seq)
				next[a], next[b] = next[b], next[a]
				if !send(next) {
					return
				}
			}
		}
	}
}

func without(seq []blockKey, at int) []blockKey {
	return slices.Delete(slices.Clone(seq), at, at+1)
}

// touches tells whether a block put in at a place would stand beside its like.
func touches(seq []blockKey, at int, key blockKey) bool {
	return at < len(seq) && seq[at] == key || at > 0 && seq[at-1] == key
}
