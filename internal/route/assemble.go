package route

import "math/rand/v2"

// coreChoices is of how many choices plans are made at first.
const coreChoices = 6000

// assemble makes a plan of some keys, of the choices that cost least beyond the
// relaxed solution at first.
func (s *search) assemble(keys uint64, work int) {
	if keys == 0 || s.seen[keys] {
		return
	}
	s.seen[keys] = true
	var list []blockKey
	for k, key := range s.keys {
		if keys>>k&1 != 0 {
			list = append(list, key)
		}
	}
	before, tried, was := s.cover.work, s.tried, s.best.cost
	cost := s.wander(list, work)
	s.debug("assembled %d keys: %d (best %d -> %d) work %d tried %d", len(list), cost, was, s.best.cost, s.cover.work-before, s.tried-tried)
}

// wander descends from an empty day, and again and again from the best with a few
// blocks shaken up.
func (s *search) wander(keys []blockKey, work int) ticks {
	random := rand.New(rand.NewPCG(uint64(len(s.pipes)), uint64(len(s.columns))))
	end := s.cover.work + work
	best, least := s.descend(nil, keys, work)
	for idle := 0; idle < 12 && s.cover.work < end && !s.stopped(); idle++ {
		seq := best
		for range 2 {
			seq = shake(seq, keys, random)
		}
		if got, cost := s.descend(seq, keys, end-s.cover.work); cost < least {
			best, least, idle = got, cost, -1
		}
	}
	return least
}
