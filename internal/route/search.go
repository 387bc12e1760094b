package route

import (
	"cmp"
	"context"
	"encoding/binary"
	"math/rand/v2"
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
	improveWork = 250_000_000
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
	known    map[string]ticks // cost of the sequences tried
}

func newSearch(ctx context.Context, c *catalogue, progress func(Progress)) *search {
	s := &search{cover: newCover(c), ctx: ctx, progress: progress, known: map[string]ticks{}}
	s.best = s.quick(nil)
	s.keys = c.keys()
	return s
}

// keys lists every spot and hose that some run can use.
func (c *catalogue) keys() (out []blockKey) {
	used := map[blockKey]bool{}
	for i := range c.columns {
		col := &c.columns[i]
		end := &c.places[col.end]
		for bit, n := range c.access[end.access].near {
			if key := (blockKey{n.spot, end.hose}); col.spots&(1<<bit) != 0 && !used[key] {
				used[key] = true
				out = append(out, key)
			}
		}
	}
	slices.SortFunc(out, func(a, b blockKey) int { return cmp.Or(a.spot-b.spot, a.hose-b.hose) })
	return out
}

// size is the work of one solve of a sequence.
func (s *search) size(blocks int) int { return (len(s.columns) + len(s.targets) + 1) * (blocks + 1) }

func (s *search) stopped() bool { return s.ctx.Err() != nil }

// over tells whether to make do with the best so far.
func (s *search) over() bool { return s.stopped() || s.work > improveWork }

func (s *search) report() {
	if s.progress != nil && s.best.feasible() {
		s.progress(Progress{Cost: s.best.cost.duration(), Bound: s.bound.duration(), Tried: s.tried})
	}
}

// cheaper solves a sequence and reports whether it costs less than limit.
func (s *search) cheaper(seq []blockKey, limit ticks) (solution, bool) {
	name := make([]byte, 0, 3*len(seq))
	for _, b := range seq {
		name = binary.AppendUvarint(name, uint64(b.spot))
		name = append(name, byte(b.hose))
	}
	if cost, tried := s.known[string(name)]; tried && cost >= limit {
		return solution{}, false
	}
	s.tried++
	s.work += 3 * s.size(len(seq))
	got := s.quick(seq)
	s.known[string(name)] = got.cost
	if got.cost < s.best.cost {
		s.best = got
		s.report()
	}
	return got, got.cost < limit
}

// descend changes a sequence as long as that makes it cheaper.
func (s *search) descend(from solution) solution {
	for better := true; better; {
		better = false
		for next := range neighbours(from.seq, s.keys) {
			if s.over() {
				return from
			}
			if got, ok := s.cheaper(next, from.cost); ok {
				from, better = got, true
				break
			}
		}
	}
	return from
}

// construct finds a first sequence that cleans every reachable target, by
// descent from an empty day. Where no single change helps (one hose before and
// after another), or time is short, it adds every block once: each such round
// cleans at least the lowest target still dirty, so it ends.
func (s *search) construct() {
	for rounds := 0; !s.best.feasible() && rounds <= len(s.targets); rounds++ {
		all := slices.Clone(s.descend(s.best).seq)
		if s.best.feasible() {
			return
		}
		for _, key := range s.keys {
			if len(all) == 0 || all[len(all)-1] != key {
				all = append(all, key)
			}
		}
		s.best = s.quick(all)
	}
}

// improve descends from the best sequence, then again and again from the best
// with a few blocks shaken up, until the work is done.
func (s *search) improve() {
	s.descend(s.best)
	random := rand.New(rand.NewPCG(uint64(len(s.pipes)), uint64(len(s.columns))))
	for idle := 0; idle < 12 && !s.over(); idle++ {
		cost := s.best.cost
		seq := s.best.seq
		for range 2 {
			seq = shake(seq, s.keys, random)
		}
		if start, _ := s.cheaper(seq, 0); start.feasible() {
			s.descend(start)
		}
		if s.best.cost < cost {
			idle = -1
		}
	}
	s.best = s.fewer(s.best)
}

// fewer tries to do without each opening of a solution in turn.
func (s *search) fewer(from solution) solution {
	for again := true; again; {
		again = false
		for _, o := range sortedOpenings(s.openings(from.runs)) {
			if s.over() {
				return from
			}
			s.work += s.size(len(from.seq))
			if got, ok := s.doWithout(from, o); ok {
				from, again = got, true
				break
			}
		}
	}
	return from
}

// prove looks at every sequence that could still be cheaper, each one before
// those that go on from it, and reports whether it got through them all. runs is a
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

// leftOut lists the targets that the best sequence cannot clean.
func (s *search) leftOut() []int {
	s.begin(s.best.seq)
	s.solve()
	_, left := s.runs()
	return left
}
