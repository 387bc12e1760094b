package route

import "math/rand/v2"

// assemble makes plans of some keys, once.
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
	s.wander(list, work)
}

// wander descends from an empty day, and again and again from the best with a few
// blocks shaken up.
func (s *search) wander(keys []blockKey, work int) {
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
}
