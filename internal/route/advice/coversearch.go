package advice

import (
	"math"
	"slices"
)

// How many choices the exact search may look at in all, and in one part at the
// least.
const (
	coverWork = 100_000
	leastWork = 1_000
)

// search covers one part by branch and bound.
type search struct {
	*cover
	items []int // of the part
	held  []int // by item, how many of the sets taken hold it
	taken []int
	best  []int
	work  int // left; 0 where it was broken off
	// most is how many items a set holds, cheapest the least price of any.
	most     int
	cheapest float64
	// beside marks, by the stamp of the present bound, the items that are in a
	// set with one that counts.
	beside []int
	stamp  int
}

func newSearch(c *cover, items []int, work int) *search {
	s := &search{cover: c, items: items, held: make([]int, len(c.in)), beside: make([]int, len(c.in)), work: work}
	s.cheapest = math.Inf(1)
	for _, item := range items {
		for _, set := range c.in[item] {
			s.most, s.cheapest = max(s.most, len(c.sets[set].items)), min(s.cheapest, c.sets[set].price)
		}
	}
	return s
}

// exact tells whether the search came to its end.
func (s *search) exact() bool { return s.work > 0 }

// greedy takes the set with most that is not held yet, the cheapest of equals,
// again and again.
func (s *search) greedy() (chosen []int) {
	held, left := make([]bool, len(s.in)), len(s.items)
	for left > 0 {
		best, most := -1, 0
		for _, item := range s.items {
			for _, set := range s.in[item] {
				n := 0
				for _, i := range s.sets[set].items {
					if !held[i] {
						n++
					}
				}
				if n > most || n == most && best >= 0 && s.sets[set].price < s.sets[best].price {
					best, most = set, n
				}
			}
		}
		chosen, left = append(chosen, best), left-most
		for _, item := range s.sets[best].items {
			held[item] = true
		}
	}
	return chosen
}

// branch takes one after another of the sets that hold the item that fewest hold:
// one of them must be taken. It ends where the work does.
func (s *search) branch(taken load) {
	if s.work--; s.work <= 0 {
		s.work = 0
		return
	}
	item := -1
	for _, i := range s.items {
		if s.held[i] == 0 && (item < 0 || len(s.in[i]) < len(s.in[item])) {
			item = i
		}
	}
	best := s.load(s.best)
	if item < 0 {
		if taken.less(best) {
			s.best = slices.Clone(s.taken)
		}
		return
	}
	if !taken.plus(s.atLeast()).less(best) {
		return
	}
	for _, set := range s.in[item] {
		s.taken = append(s.taken, set)
		for _, i := range s.sets[set].items {
			s.held[i]++
		}
		s.branch(taken.plus(load{1, s.sets[set].price}))
		for _, i := range s.sets[set].items {
			s.held[i]--
		}
		s.taken = s.taken[:len(s.taken)-1]
	}
}

// atLeast bounds what the items not held yet take: of items no two of which are
// in one set, each takes a set of its own, at the price of its cheapest or more;
// and no set holds more than most.
func (s *search) atLeast() (l load) {
	s.stamp++
	left := 0
	for _, item := range s.items {
		if s.held[item] > 0 {
			continue
		}
		left++
		if s.beside[item] == s.stamp {
			continue
		}
		l = l.plus(load{1, s.sets[s.in[item][0]].price})
		for _, set := range s.in[item] {
			for _, other := range s.sets[set].items {
				s.beside[other] = s.stamp
			}
		}
	}
	if more := (left+s.most-1)/s.most - l.count; more > 0 {
		l = l.plus(load{more, float64(more) * s.cheapest})
	}
	return l
}
