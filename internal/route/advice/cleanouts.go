package advice

import (
	"context"
	"slices"

	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

// Cleanouts is a set of new cleanouts that lets runs reach all that a new
// cleanout can.
type Cleanouts struct {
	Set []route.Cleanout `json:"set"`
	// Price is that of the set in the prices by which cures are compared.
	Price float64 `json:"price"`
	// Least is the least number that any such set has; Exact says that the set
	// has no more.
	Least int  `json:"least"`
	Exact bool `json:"exact"`
	// Beyond are the pipes that no one new cleanout reaches.
	Beyond []network.PipeID `json:"beyond,omitzero"`
	// With is the plan with the set put in.
	With Row `json:"with"`
}

// Accesses finds the fewest new cleanouts that reach all pipe that cleanouts
// can, and plans the site with them.
func Accesses(ctx context.Context, s *site.Site, t *site.Tables, base Outcome) (Cleanouts, error) {
	all, err := route.Cleanouts(s, t)
	if err != nil {
		return Cleanouts{}, err
	}
	var c cover
	for i := range all {
		c.add(all[i].Reaches)
	}
	chosen := c.least()
	out := Cleanouts{Price: float64(len(chosen)) * t.Cures.NewCleanout, Least: c.bound(), Exact: c.exact}
	if c.exact {
		out.Least = len(chosen)
	}
	with := s.Clone()
	for _, i := range chosen {
		out.Set = append(out.Set, all[i])
		e, err := edit.AddCleanout(with, all[i].Pipe, all[i].At)
		if err != nil {
			return Cleanouts{}, err
		}
		e.Do(with)
	}
	for i := range base.Plan.Shortfalls {
		if id := base.Plan.Shortfalls[i].Pipe; !c.known(id) {
			out.Beyond = append(out.Beyond, id)
		}
	}
	o := base
	if len(chosen) > 0 {
		if o, err = Weigh(ctx, with, t); err != nil {
			return Cleanouts{}, err
		}
	}
	out.With = rowOf(unit.Count(len(chosen), "new cleanout"), o, base)
	return out, nil
}

// cover is a set cover: the fewest sets that hold every item that any holds.
type cover struct {
	items map[network.PipeID]int
	sets  [][]int
	in    [][]int // the sets of an item
	exact bool
}

func (c *cover) add(ids []network.PipeID) {
	if c.items == nil {
		c.items = map[network.PipeID]int{}
	}
	n := len(c.sets)
	var set []int
	for _, id := range ids {
		at, ok := c.items[id]
		if !ok {
			at = len(c.in)
			c.items[id] = at
			c.in = append(c.in, nil)
		}
		set = append(set, at)
		c.in[at] = append(c.in[at], n)
	}
	c.sets = append(c.sets, set)
}

func (c *cover) known(id network.PipeID) bool {
	_, ok := c.items[id]
	return ok
}

// greedy takes the set with most that is not held yet, again and again.
func (c *cover) greedy() (chosen []int) {
	held, left := make([]bool, len(c.in)), len(c.in)
	for left > 0 {
		best, most := -1, 0
		for i, set := range c.sets {
			if n := c.fresh(set, held); n > most {
				best, most = i, n
			}
		}
		chosen, left = append(chosen, best), left-most
		for _, item := range c.sets[best] {
			held[item] = true
		}
	}
	return chosen
}

func (c *cover) fresh(set []int, held []bool) (n int) {
	for _, item := range set {
		if !held[item] {
			n++
		}
	}
	return n
}

// coverWork is how many choices the exact search may look at.
const coverWork = 100_000

// least finds the fewest sets by branch and bound: of the item that is in the
// fewest sets, one must be taken. Beyond the work it may do it makes do with the
// best so far, and exact is false.
func (c *cover) least() []int {
	best, work := c.greedy(), 0
	count := make([]int, len(c.in))
	var taken []int
	var branch func()
	branch = func() {
		if work++; work > coverWork {
			return
		}
		item := -1
		most, left := 0, 0
		for i := range c.in {
			if count[i] == 0 {
				if left++; item < 0 || len(c.in[i]) < len(c.in[item]) {
					item = i
				}
			}
		}
		if item < 0 {
			if len(taken) < len(best) {
				best = slices.Clone(taken)
			}
			return
		}
		for _, set := range c.sets {
			most = max(most, len(set))
		}
		if len(taken)+(left+most-1)/most >= len(best) {
			return
		}
		for _, set := range c.in[item] {
			taken = append(taken, set)
			for _, i := range c.sets[set] {
				count[i]++
			}
			branch()
			for _, i := range c.sets[set] {
				count[i]--
			}
			taken = taken[:len(taken)-1]
		}
	}
	branch()
	c.exact = work <= coverWork
	slices.Sort(best)
	return best
}

// bound counts items that no two of which are in one set: each takes a set of
// its own.
func (c *cover) bound() (n int) {
	used := make([]bool, len(c.sets))
	for item := range c.in {
		if slices.ContainsFunc(c.in[item], func(set int) bool { return used[set] }) {
			continue
		}
		n++
		for _, set := range c.in[item] {
			for _, other := range c.sets[set] {
				for _, s := range c.in[other] {
					used[s] = true
				}
			}
		}
	}
	return n
}
