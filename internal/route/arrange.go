package route

import (
	"cmp"
	"math/bits"
	"slices"
)

// arrange parts a node in which the spots are decided on by the order of the
// stays, those that cost least first.
func (s *search) arrange(n *node) []*node {
	keys := n.pool.used()
	// Of what all but the day costs this much at the most is for hoses; a day of
	// many stays needs no change of hose to use them all.
	hoses := ticks(bits.OnesCount64(keys)) * s.tour.hose
	var out []*node
	var extend func(stays []int, seen int)
	extend = func(stays []int, seen int) {
		s.relax.work += len(s.spots)
		o := &outline{stays: slices.Clone(stays)}
		moves := n.rest - hoses + s.movesOf(o)
		if s.spent() || moves >= s.best.cost || len(stays) > len(s.targets) {
			return
		}
		if seen == n.spots {
			s.addStints(o, keys)
			if least := max(n.bound, moves, n.rest+s.dayOf(o)); least < s.best.cost {
				out = append(out, &node{pool: n.pool, share: n.share, bound: least, day: o})
			}
		}
		for spot, at := range s.tour.of {
			if at >= 0 && n.spots>>at&1 != 0 && (len(stays) == 0 || stays[len(stays)-1] != spot) {
				extend(append(stays, spot), seen|1<<at)
			}
		}
	}
	extend(nil, 0)
	slices.SortStableFunc(out, func(a, b *node) int { return cmp.Compare(a.bound, b.bound) })
	return out
}
