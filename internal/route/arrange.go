package route

import (
	"math/bits"
	"slices"
)

// mostDays is how many days of one number of stays are looked at in one part.
const mostDays = 4096

// arrange parts a node in which the spots are decided on by the order of the
// stays: into days of so many stays, and one part of all that have more. last tells
// that there are too many, or too many stints in one.
func (s *search) arrange(n *node) (parts []*node, last bool) {
	keys := n.pool.used()
	// Of what all but the day costs this much at the most is for hoses; a day of
	// many stays needs no change of hose to use them all.
	hoses := ticks(bits.OnesCount64(keys)) * s.tour.hose
	spots := bits.OnesCount(uint(n.spots))
	n.stays = max(n.stays, spots)
	var extend func(stays []int, seen int) bool
	extend = func(stays []int, seen int) bool {
		o := &outline{stays: slices.Clone(stays)}
		rest := n.rest
		for _, spot := range stays {
			rest -= s.creditAt(spot)
		}
		moves := rest - hoses + s.movesOf(o)
		if moves >= s.best.cost || spots-bits.OnesCount(uint(seen)) > n.stays-len(stays) {
			return true
		}
		if len(stays) == n.stays {
			s.addStints(o, keys)
			s.relax.work += dayWork * len(o.stints)
			if len(o.stints) > mostStints {
				return false
			}
			if least := max(n.bound, moves, rest+s.dayOf(o)); least < s.best.cost {
				parts = append(parts, &node{pool: n.pool, share: n.share, bound: least, day: o})
			}
			return len(parts) < mostDays && !s.spent()
		}
		for spot, at := range s.tour.of {
			if at >= 0 && n.spots>>at&1 != 0 && (len(stays) == 0 || stays[len(stays)-1] != spot) {
				if !extend(append(stays, spot), seen|1<<at) {
					return false
				}
			}
		}
		return true
	}
	if !extend(nil, 0) {
		return nil, true
	}
	more := *n
	more.stays++
	more.bound = max(n.bound, n.rest-hoses+s.tour.more(n.spots, more.stays))
	if spots > 1 && more.stays <= len(s.targets) { // each stay cleans something
		parts = append(parts, &more)
	}
	return parts, false
}

// dayWork is the work that it counts for to look at a day, by stint.
const dayWork = 100
