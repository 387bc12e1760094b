package route

import (
	"math/bits"
	"slices"
)

// outline is what is decided of a day: the stays in order, the stints in each,
// and of those some that come before others. All days with these stays, with no
// work but in the stints, and in that order, are within it.
type outline struct {
	stays  []int // spots
	stints []stint
	// before tells by stint, as a bit mask, which others of the same stay come
	// after it in any case; with a and b it has all that follows of two.
	before []uint64
}

// stint is all work that is done in one stay with one hose, in one block or more.
type stint struct {
	key  int32 // anyKey for one that stands for all that may be done, in any order
	stay int32
	sure bool // it is paid for in any case
}

const (
	anyKey = -1
	// mostStints is how many fit a bit mask.
	mostStints = 64
)

// anyDay are the stints of a day of which nothing is decided.
var anyDay = []stint{{key: anyKey}}

// addStints gives each stay a stint for each of some keys at its spot.
func (s *search) addStints(o *outline, keys uint64) {
	for t, spot := range o.stays {
		for k, key := range s.keys {
			if keys>>k&1 != 0 && key.spot == spot {
				o.stints = append(o.stints, stint{key: int32(k), stay: int32(t)})
			}
		}
	}
	o.before = make([]uint64, len(o.stints))
}

// after tells by stint in which others a target may be cleaned when the one below
// it is cleaned in that stint.
func (o *outline) after() []uint64 {
	out := make([]uint64, len(o.stints))
	for i := range o.stints {
		for j := range o.stints {
			if o.stints[j].stay > o.stints[i].stay || o.stints[j].stay == o.stints[i].stay && o.before[j]>>i&1 == 0 {
				out[i] |= 1 << j
			}
		}
	}
	return out
}

func (o *outline) clone() *outline {
	return &outline{stays: o.stays, stints: slices.Clone(o.stints), before: slices.Clone(o.before)}
}

// ordered is the outline with one stint before another of the same stay.
func (o *outline) ordered(first, then int) *outline {
	out := o.clone()
	for i := range out.before {
		if i == first || o.before[i]>>first&1 != 0 {
			out.before[i] |= 1<<then | o.before[then]
		}
	}
	return out
}

// returned is the outline with a stint parted in two: some of it comes before
// another, and then there is more of either. It is nil where there are too many.
func (o *outline) returned(again, other int) *outline {
	if len(o.stints) >= mostStints {
		return nil
	}
	out := o.clone()
	out.stints[again].sure, out.stints[other].sure = true, true
	first := len(out.stints)
	out.stints = append(out.stints, out.stints[again])
	out.before = append(out.before, o.before[again])
	for i := range o.before {
		if o.before[i]>>again&1 != 0 {
			out.before[i] |= 1 << first
		}
	}
	out.before[first] |= 1<<again | 1<<other | o.before[other]
	return out
}

// without is the outline without a stint.
func (o *outline) without(stint int) *outline {
	out := &outline{stays: o.stays, stints: slices.Delete(slices.Clone(o.stints), stint, stint+1)}
	low := uint64(1)<<stint - 1
	for i, m := range o.before {
		if i != stint {
			out.before = append(out.before, m&low|m>>1&^low)
		}
	}
	return out
}

// idle tells whether there is a stay without a stint.
func (o *outline) idle() bool {
	busy := make([]bool, len(o.stays))
	for _, st := range o.stints {
		busy[st.stay] = true
	}
	return slices.Contains(busy, false)
}

// unordered tells whether nothing is decided of two stints of one stay.
func (o *outline) unordered(a, b int) bool {
	return a != b && o.stints[a].stay == o.stints[b].stay && o.before[a]>>b&1 == 0 && o.before[b]>>a&1 == 0
}

// dayOf is what a day of an outline costs in itself, but for the hoses of stints
// that are not sure.
func (s *search) dayOf(o *outline) ticks {
	cost := s.movesOf(o)
	hoses := -len(o.stays)
	for _, st := range o.stints {
		if st.sure {
			hoses++
		}
	}
	return cost + ticks(hoses)*s.hoseChange()
}

// movesOf is what a day of an outline costs without any change of hose.
func (s *search) movesOf(o *outline) ticks {
	seq := make([]blockKey, len(o.stays))
	for t, spot := range o.stays {
		seq[t].spot = spot
	}
	return s.catalogue.dayCost(seq)
}

// hoseChange is what a change of hose costs.
func (p *problem) hoseChange() ticks {
	return toTicks(minutes(p.site.Rig.Crew.HoseChange))
}

// sequence puts stints in an order that an outline allows, those that most follows
// come first; follows counts by stint and stint what is done in the second right
// above what is done in the first.
func (o *outline) sequence(used uint64, follows [][]int) (order []int) {
	for left := used; left > 0; {
		best, most := -1, 0
		for rest := left; rest > 0; rest &= rest - 1 {
			i := bits.TrailingZeros64(rest)
			n := 0
			for other := left; other > 0; other &= other - 1 {
				j := bits.TrailingZeros64(other)
				switch {
				case o.stints[j].stay < o.stints[i].stay || o.before[j]>>i&1 != 0:
					n -= 1 << 30
				case j != i && o.stints[j].stay == o.stints[i].stay:
					n += follows[i][j] - follows[j][i]<<10
				}
			}
			if best < 0 || n > most {
				best, most = i, n
			}
		}
		order = append(order, best)
		left &^= 1 << best
	}
	return order
}
