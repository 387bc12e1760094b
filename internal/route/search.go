package route

import (
	"context"
	"encoding/binary"
	"slices"
	"time"
)

// Progress is how far a search has come.
type Progress struct {
	// Cost and Bound are dry, without waiting for water, until the search goes on in
	// the wet with the whole cost of the best plan.
	Cost, Bound time.Duration
	// Tried counts the sequences of blocks looked at.
	Tried int
}

// Effort of the search, in steps of its innermost loops, so that the same site
// always gets the same plan however fast the machine.
const (
	maxWork     = 150_000_000
	descentWork = 2_000_000
	roughWork   = 40_000 // by target
)

// mostKeys is how many keys fit a bit mask.
const mostKeys = 64

// search looks for the cheapest sequence of blocks and the runs in it.
type search struct {
	*cover
	relax    *easing
	tour     *tour
	root     *node
	ctx      context.Context
	progress func(Progress)
	best     solution
	bound    ticks
	tried    int
	most     int              // work that may be done
	limit    int              // work at which the descent under way is to end
	known    map[string]ticks // cost of the sequences tried
	// wet tells whether plans count with their water; then plan is the best one.
	wet  bool
	plan *Plan
}

func newSearch(ctx context.Context, c *catalogue, progress func(Progress)) *search {
	p := newProblem(c)
	s := &search{
		cover: newCover(p), ctx: ctx, progress: progress, most: maxWork,
		known: map[string]ticks{},
	}
	if p.searchable() {
		s.tour = newTour(p)
		s.relax = newEasing(p, s.tour)
	}
	s.best = s.quick(nil)
	return s
}

func (s *search) stopped() bool { return s.ctx.Err() != nil }

// over tells whether to leave a descent.
func (s *search) over() bool { return s.stopped() || s.cover.work > s.limit }

// spent tells whether all work is done that may be.
func (s *search) spent() bool {
	return s.stopped() || s.cover.work+s.relax.work > s.most
}

func (s *search) report() {
	if s.progress != nil && s.best.feasible() {
		s.progress(Progress{Cost: s.best.cost.duration(), Bound: s.bound.duration(), Tried: s.tried})
	}
}

// least bounds what a sequence costs, and remembers it.
func (s *search) least(seq []blockKey) ticks {
	name := make([]byte, 0, 3*len(seq))
	for _, b := range seq {
		name = binary.AppendUvarint(name, uint64(b.spot))
		name = append(name, byte(b.hose))
	}
	cost, tried := s.known[string(name)]
	if !tried {
		s.tried++
		cost = s.cover.least(seq)
		s.known[string(name)] = cost
	}
	return cost
}

// descend changes a sequence by one of some keys as long as that makes its bound
// lower, and takes the best solution in the last.
func (s *search) descend(seq []blockKey, keys []blockKey, work int) {
	s.limit = s.cover.work + work
	cost := s.least(seq)
	for better := true; better; {
		better = false
		for next := range neighbours(seq, keys) {
			if s.over() {
				break
			}
			if got := s.least(next); got < cost {
				seq, cost, better = next, got, true
				break
			}
		}
	}
	if cost < s.best.cost || !s.best.feasible() {
		s.try(seq)
	}
}

// try finds a good solution in a sequence, and keeps it where it is the best.
func (s *search) try(seq []blockKey) {
	if got := s.quick(seq); s.keep(got) {
		s.keep(s.fewer(got))
	}
}

// construct finds a first sequence that cleans every reachable target: a rough one,
// or else by descent from that. Where no single change helps (one hose before and
// after another), or time is short, it adds every block once, and again: each such
// round cleans at least the lowest target still dirty, so it ends.
func (s *search) construct() {
	if s.relax != nil {
		s.root = &node{pool: s.pool, share: make([]float64, s.shares)}
		s.try(s.rough(roughWork))
	}
	if s.best.feasible() {
		return
	}
	s.descend(s.best.seq, s.keys, descentWork)
	all := slices.Clone(s.best.seq)
	for rounds := 0; !s.best.feasible() && rounds <= len(s.targets); rounds++ {
		for _, key := range s.keys {
			if len(all) == 0 || all[len(all)-1] != key {
				all = append(all, key)
			}
		}
		s.best = s.quick(slices.Clone(all))
	}
}

// fewer tries to do without each opening of a solution in turn.
func (s *search) fewer(from solution) solution {
	s.limit = s.cover.work + descentWork
	for again := true; again; {
		again = false
		tried := map[[2]int]bool{}
		for _, r := range from.runs {
			o := [2]int{s.accessOf(r.column), r.block}
			if tried[o] {
				continue
			}
			tried[o] = true
			if s.over() {
				return from
			}
			if got, ok := s.doWithout(from, o[0], o[1]); ok {
				from, again = got, true
				break
			}
		}
	}
	return from
}

// leftOut lists the targets that the best sequence cannot clean.
func (s *search) leftOut() []int {
	s.begin(s.best.seq)
	s.chargeAll(nil)
	s.solve()
	s.trace()
	return s.left
}
