package route

import (
	"cmp"
	"math"
	"slices"

	"linemap/internal/unit"
)

// sweep is a first guess at a long day: every spot once with all its hoses, in
// the order in which a walk up the drains passes by. It may not clean everything.
func (l *lineup) sweep() (seq []blockKey) {
	pass := l.walkUp()
	nearest := make([]unit.Length, len(l.spots))
	by := make([]int, len(l.spots)) // the place in the walk of the target nearest to the spot
	for s := range nearest {
		nearest[s] = unit.Length(math.Inf(1))
	}
	for _, p := range l.targets {
		for _, at := range l.placesOf[p] {
			place := &l.places[at]
			for _, n := range l.access[place.access].near {
				if far := n.lay + place.length; far < nearest[n.spot] {
					nearest[n.spot], by[n.spot] = far, pass[p]
				}
			}
		}
	}
	hoses := len(l.site.Rig.Hoses)
	for key, reels := range l.reels {
		if len(reels) > 0 {
			seq = append(seq, blockKey{key / hoses, key % hoses})
		}
	}
	slices.SortStableFunc(seq, func(a, b blockKey) int {
		return cmp.Or(by[a.spot]-by[b.spot], a.spot-b.spot)
	})
	return seq
}

// walkUp numbers the targets as a walk up the drains comes to them that goes up
// the smaller branches first.
func (c *catalogue) walkUp() []int {
	size := make([]int, len(c.pipes))
	for _, p := range slices.Backward(c.targets) {
		size[p]++
		if q := c.parent[p]; q >= 0 {
			size[q] += size[p]
		}
	}
	pass := make([]int, len(c.pipes))
	var stack []int
	later := func(targets []int) {
		from := len(stack)
		stack = append(stack, targets...)
		slices.SortStableFunc(stack[from:], func(a, b int) int { return size[b] - size[a] })
	}
	later(c.roots)
	for n := 0; len(stack) > 0; n++ {
		p := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		pass[p] = n
		later(c.children[p])
	}
	return pass
}

// scheduler puts the runs of a relaxed solution into a day in which every run
// comes after the one that cleans the target below it.
type scheduler struct {
	*catalogue
	runs  []chosen // the block is an index into keys
	keys  []blockKey
	byKey [][]int
	// A run's gate is the nearest run below with another key: once that is done,
	// the run can be made in any visit. -1 for none. opens is the inverse.
	gate  []int
	opens [][]int
	// By key, how many runs are still to be made, and how many of those have a
	// gate that is shut.
	open, shut []int
}

// schedule lists visits in which the runs that a relaxation chose last can all be
// made.
func (r *relaxation) schedule() (seq []blockKey) {
	s := &scheduler{catalogue: r.catalogue}
	number := map[blockKey]int{}
	r.visitChosen(func(column, bit int) {
		end := &r.places[r.columns[column].end]
		key := blockKey{r.access[end.access].near[bit].spot, end.hose}
		g, known := number[key]
		if !known {
			g = len(s.keys)
			number[key], s.keys = g, append(s.keys, key)
		}
		s.runs = append(s.runs, chosen{column, g})
	})
	s.findGates()
	done := make([]bool, len(s.runs))
	for last := s.next(-1); last >= 0; last = s.next(last) {
		seq = append(seq, s.keys[last])
		s.visit(last, done)
	}
	return seq
}

// findGates finds every run's gate. The runs come with lower ones first.
func (s *scheduler) findGates() {
	s.byKey = make([][]int, len(s.keys))
	s.gate, s.opens = make([]int, len(s.runs)), make([][]int, len(s.runs))
	s.open, s.shut = make([]int, len(s.keys)), make([]int, len(s.keys))
	by := make([]int, len(s.pipes))
	for i, r := range s.runs {
		for _, p := range s.chain(r.column) {
			by[p] = i
		}
		s.gate[i] = -1
		if below := s.parent[s.columns[r.column].low]; below >= 0 {
			if s.gate[i] = by[below]; s.runs[by[below]].block == r.block {
				s.gate[i] = s.gate[by[below]]
			}
		}
		if gate := s.gate[i]; gate >= 0 {
			s.opens[gate] = append(s.opens[gate], i)
			s.shut[r.block]++
		}
		s.open[r.block]++
		s.byKey[r.block] = append(s.byKey[r.block], i)
	}
}

// visit makes all the runs of a key that can be made.
func (s *scheduler) visit(key int, done []bool) {
	var rest, made []int
	for _, i := range s.byKey[key] {
		if gate := s.gate[i]; gate >= 0 && !done[gate] {
			rest = append(rest, i)
		} else {
			made = append(made, i)
		}
	}
	s.byKey[key] = rest
	for _, i := range made {
		done[i] = true
		s.open[key]--
		for _, j := range s.opens[i] {
			s.shut[s.runs[j].block]--
		}
	}
}

// next picks the key to visit after another: of those that leave the least to
// come back for, the nearest. -1 when all is done.
func (s *scheduler) next(last int) int {
	best, cost := -1, ticks(0)
	for g, key := range s.keys {
		if s.open[g] == s.shut[g] {
			continue
		}
		move := ticks(0)
		if last >= 0 {
			move = s.moveCost(s.keys[last], key)
		}
		if best < 0 || s.shut[g] < s.shut[best] || s.shut[g] == s.shut[best] && move < cost {
			best, cost = g, move
		}
	}
	return best
}
