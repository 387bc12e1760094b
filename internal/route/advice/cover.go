package advice

import (
	"cmp"
	"slices"

	"linemap/internal/network"
)

// cover is a set cover: the fewest sets that hold every item that any holds, and
// of as many sets the cheapest.
type cover struct {
	items map[network.PipeID]int
	sets  []coverSet
	in    [][]int // the sets of an item, cheapest first
}

type coverSet struct {
	items []int
	price float64
}

// load is what sets come to: their number first, then their price.
type load struct {
	count int
	price float64
}

// cent is a difference between prices that is none.
const cent = 1e-6

func (l load) less(than load) bool {
	return l.count < than.count || l.count == than.count && l.price < than.price-cent
}

func (l load) plus(m load) load { return load{l.count + m.count, l.price + m.price} }

// add adds a set; all must be there before the sets are chosen.
func (c *cover) add(ids []network.PipeID, price float64) {
	if c.items == nil {
		c.items = map[network.PipeID]int{}
	}
	n := len(c.sets)
	set := coverSet{price: price}
	for _, id := range ids {
		at, ok := c.items[id]
		if !ok {
			at = len(c.in)
			c.items[id] = at
			c.in = append(c.in, nil)
		}
		set.items = append(set.items, at)
		c.in[at] = append(c.in[at], n)
	}
	c.sets = append(c.sets, set)
}

// choice is a cover: the sets, the least that any cover comes to, and whether
// this one comes to just that.
type choice struct {
	sets  []int
	least load
	exact bool
}

// choose finds the cover part by part: what shares no set is chosen on its own.
func (c *cover) choose() choice {
	c.thin()
	all := choice{exact: true}
	parts := c.parts()
	for _, items := range parts {
		s := newSearch(c, items, max(coverWork/len(parts), leastWork))
		least := s.atLeast()
		s.best = s.greedy()
		s.branch(load{})
		if s.exact() {
			least = c.load(s.best)
		}
		all.sets = append(all.sets, s.best...)
		all.least, all.exact = all.least.plus(least), all.exact && s.exact()
	}
	slices.Sort(all.sets)
	return all
}

// thin takes out of use the sets in whose place another holds as much and more
// for no more, and puts the cheapest set of an item first.
func (c *cover) thin() {
	out := make([]bool, len(c.sets))
	for a := range c.sets {
		if len(c.sets[a].items) > 0 {
			out[a] = slices.ContainsFunc(c.in[c.sets[a].items[0]], func(b int) bool { return c.outdoes(b, a) })
		}
	}
	for item := range c.in {
		c.in[item] = slices.DeleteFunc(c.in[item], func(set int) bool { return out[set] })
		slices.SortStableFunc(c.in[item], func(a, b int) int { return cmp.Compare(c.sets[a].price, c.sets[b].price) })
	}
}

// outdoes tells whether a set does in the place of another, the first of equals
// in that of the others.
func (c *cover) outdoes(one, other int) bool {
	a, b := &c.sets[one], &c.sets[other]
	if one == other || a.price > b.price || len(a.items) < len(b.items) {
		return false
	}
	if a.price == b.price && len(a.items) == len(b.items) && one > other {
		return false
	}
	return !slices.ContainsFunc(b.items, func(item int) bool { return !slices.Contains(a.items, item) })
}

func (c *cover) load(sets []int) (l load) {
	for _, set := range sets {
		l = l.plus(load{1, c.sets[set].price})
	}
	return l
}

// parts groups the items that hang together by the sets that hold them.
func (c *cover) parts() (parts [][]int) {
	seen, used := make([]bool, len(c.in)), make([]bool, len(c.sets))
	for first := range c.in {
		if seen[first] {
			continue
		}
		part := []int{first}
		seen[first] = true
		for i := 0; i < len(part); i++ {
			for _, set := range c.in[part[i]] {
				if used[set] {
					continue
				}
				used[set] = true
				for _, item := range c.sets[set].items {
					if !seen[item] {
						seen[item] = true
						part = append(part, item)
					}
				}
			}
		}
		parts = append(parts, part)
	}
	return parts
}
