package route

import (
	"context"
	"fmt"
	"slices"
	"time"
)

// Progress is how far a search has come.
type Progress struct {
	// Cost and Bound are dry: without waiting for water.
	Cost, Bound time.Duration
	// Tried counts the sequences of blocks looked at.
	Tried int
}

// Effort of the search, in solves of the dynamic program weighed by its size,
// so that the same site always gets the same plan however fast the machine.
const (
	improveWork = 120_000_000
	proveWork   = 60_000_000
)

// search looks for the cheapest sequence of blocks and the runs in it.
type search struct {
	*cover
	ctx      context.Context
	progress func(Progress)
	keys     []blockKey // every block that some run can use
	best     solution
	bound    ticks
	tried    int
	work     int
	seen     map[string]bool
}

func newSearch(ctx context.Context, c *catalogue, progress func(Progress)) *search {
	s := &search{cover: newCover(c), ctx: ctx, progress: progress, seen: map[string]bool{}}
	s.best.cost = 2 * unreachable * ticks(len(c.pipes)+1)
	for spot := range c.spots {
		for hose := range c.site.Rig.Hoses {
			for i := range c.columns {
				col := &c.columns[i]
				if c.places[col.end].hose == hose && col.spots&(1<<spot) != 0 {
					s.keys = append(s.keys, blockKey{spot, hose})
					break
				}
			}
		}
	}
	return s
}

// size is the work of one solve of a sequence.
func (s *search) size(blocks int) int { return (len(s.columns) + len(s.targets) + 1) * (blocks + 1) }

func (s *search) stopped() bool { return s.ctx.Err() != nil }

func (s *search) report() {
	if s.progress != nil && s.best.feasible() {
		s.progress(Progress{Cost: s.best.cost.duration(), Bound: s.bound.duration(), Tried: s.tried})
	}
}

// try solves a sequence and keeps it where it is the best so far.
func (s *search) try(seq []blockKey) bool {
	for i := 1; i < len(seq); i++ {
		if seq[i] == seq[i-1] {
			return false
		}
	}
	key := fmt.Sprint(seq)
	if s.seen[key] {
		return false
	}
	s.seen[key] = true
	s.tried++
	s.work += 3 * s.size(len(seq))
	got := s.quick(seq)
	if got.cost >= s.best.cost {
		return false
	}
	s.best = got
	s.report()
	return true
}

// construct adds the most useful block, where it is most useful, until every
// reachable target is clean. Where no single block helps (one hose before and
// after another) it adds every block once: each such round cleans at least the
// lowest target still dirty, so it ends.
func (s *search) construct() {
	for rounds := 0; !s.best.feasible() && rounds <= len(s.targets); {
		if s.insert(s.best.seq) {
			continue
		}
		rounds++
		all := slices.Clone(s.best.seq)
		for _, key := range s.keys {
			if len(all) == 0 || all[len(all)-1] != key {
				all = append(all, key)
			}
		}
		s.best = s.quick(all)
	}
}

// improve changes the sequence as long as that makes it cheaper: one block
// out, another in its place, two swapped, one moved, one more.
func (s *search) improve() {
	moves := []func([]blockKey) bool{s.remove, s.replace, s.swap, s.shift, s.insert}
	for i := 0; i < len(moves); i++ {
		if moves[i](s.best.seq) {
			i = -1
		}
	}
	if s.best.feasible() {
		s.best = s.fewer(s.best)
	}
}

func (s *search) over() bool {
	return s.best.feasible() && (s.stopped() || s.work > improveWork)
}

func (s *search) insert(seq []blockKey) bool {
	better := false
	for at := len(seq); at >= 0; at-- {
		for _, key := range s.keys {
			if s.over() {
				return better
			}
			better = s.try(slices.Insert(slices.Clone(seq), at, key)) || better
		}
	}
	return better
}

func (s *search) remove(seq []blockKey) bool {
	better := false
	for at := range seq {
		if s.over() {
			return better
		}
		next := slices.Delete(slices.Clone(seq), at, at+1)
		if at > 0 && at < len(next) && next[at] == next[at-1] {
			next = slices.Delete(next, at, at+1)
		}
		better = s.try(next) || better
	}
	return better
}

func (s *search) replace(seq []blockKey) bool {
	better := false
	for at := range seq {
		for _, key := range s.keys {
			if s.over() {
				return better
			}
			next := slices.Clone(seq)
			next[at] = key
			better = s.try(next) || better
		}
	}
	return better
}

func (s *search) swap(seq []blockKey) bool {
	better := false
	for a := range seq {
		for b := a + 1; b < len(seq); b++ {
			if s.over() {
				return better
			}
			next := slices.Clone(seq)
			next[a], next[b] = next[b], next[a]
			better = s.try(next) || better
		}
	}
	return better
}

func (s *search) shift(seq []blockKey) bool {
	better := false
	for from := range seq {
		rest := slices.Delete(slices.Clone(seq), from, from+1)
		for to := 0; to <= len(rest); to++ {
			if s.over() {
				return better
			}
			better = s.try(slices.Insert(slices.Clone(rest), to, seq[from])) || better
		}
	}
	return better
}

// prove looks at every sequence that could still be cheaper, shortest day
// first at each length, and reports whether it got through them all. runs is a
// lower bound on what the runs of any plan cost.
func (s *search) prove(runs ticks) bool {
	budget := proveWork
	var extend func(seq []blockKey) bool
	extend = func(seq []blockKey) bool {
		for _, key := range s.keys {
			if len(seq) > 0 && seq[len(seq)-1] == key {
				continue
			}
			next := append(slices.Clone(seq), key)
			if s.dayCost(next)+runs >= s.best.cost {
				continue
			}
			if budget <= 0 || s.stopped() {
				return false
			}
			solves := budget/s.size(len(next)) + 1
			left := solves
			got, proven := s.exact(next, s.best.cost, &left)
			budget -= (solves - left) * s.size(len(next))
			s.tried++
			if got.runs != nil {
				s.best = got
				s.report()
			}
			if !proven || !extend(next) {
				return false
			}
		}
		return true
	}
	return extend(nil)
}
