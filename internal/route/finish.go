package route

import (
	"cmp"
	"slices"
)

// door is what is decided of an opening: of an access in a stint.
type door byte

const (
	undecided door = iota
	paidFor        // it is made, and free to all runs
	shut           // it is not made
)

// partDay parts a node with an outline by what its relaxed solution does worst.
func (s *search) partDay(n *node) (parts []*node, last bool) {
	s.load(n)
	n.bound = max(n.bound, roundUp(s.relax.value()))
	if n.ended {
		return s.vary(n), false
	}
	e := s.look(n)
	j := e.idle(n.day)
	if j < 0 {
		j = mostOf(e.hoses)
	}
	if j >= 0 {
		with, without := *n, *n
		with.day = n.day.clone()
		with.day.stints[j].sure = true
		without.drop(j, len(s.access))
		return []*node{&with, &without}, false
	}
	if a, b, ok := e.conflict(n.day); ok {
		return s.partOrder(n, a, b), false
	}
	at := mostOf(e.lacks)
	if at < 0 {
		s.take(n)
		return nil, true
	}
	with, without := *n, *n
	if n.doors == nil {
		n.doors = make([]door, len(e.lacks))
	}
	with.doors, without.doors = slices.Clone(n.doors), slices.Clone(n.doors)
	with.doors[at], without.doors[at] = paidFor, shut
	with.paid += s.openPrice(at%len(s.access), n.day.stints[at/len(s.access)].key)
	return []*node{&with, &without}, false
}

// drop leaves out a stint.
func (n *node) drop(stint, accesses int) {
	n.day = n.day.without(stint)
	if n.doors != nil {
		n.doors = slices.Delete(slices.Clone(n.doors), stint*accesses, (stint+1)*accesses)
	}
}

// partOrder parts a node by the order of two stints: the one comes first, or the
// other, or there is more of one of them afterwards.
func (s *search) partOrder(n *node, a, b int) []*node {
	var out []*node
	add := func(day *outline, parted int) {
		if day == nil {
			return
		}
		next := *n
		next.day = day
		if parted >= 0 && n.doors != nil { // what is decided of a stint holds for both of its parts
			next.doors = append(slices.Clone(n.doors), n.doors[parted*len(s.access):][:len(s.access)]...)
		}
		out = append(out, &next)
	}
	add(n.day.ordered(a, b), -1)
	add(n.day.ordered(b, a), -1)
	add(n.day.returned(a, b), a)
	add(n.day.returned(b, a), b)
	return out
}

// take keeps the relaxed solution of an outline where a day can do what it does
// and, with all it does paid in full, it is the best plan; and else the best that
// is found in the order of its stints.
func (s *search) take(n *node) {
	r := s.relax
	r.value()
	e := s.look(n)
	order := n.day.sequence(e.used, e.follows)
	var seq []blockKey
	block := make([]int, len(n.day.stints))
	for _, j := range order {
		key := s.keys[n.day.stints[j].key]
		if len(seq) == 0 || seq[len(seq)-1] != key {
			seq = append(seq, key)
		}
		block[j] = len(seq) - 1
	}
	if _, _, cannot := e.conflict(n.day); cannot {
		if s.least(seq) < s.best.cost {
			s.try(seq)
		}
		return
	}
	var runs []chosen
	for ch, j := range r.visitStints() {
		runs = append(runs, chosen{int(ch.column), block[j]})
	}
	s.keep(solution{seq: seq, runs: runs, cost: s.dryCost(seq, runs)})
}

// vary parts a node at its end by the runs of its relaxed solution: into days
// without the first of them, without the second, and so on, those that draw most
// first. No bound comes of it, but perhaps a day that waits less.
func (s *search) vary(n *node) (parts []*node) {
	var runs []*choice
	for ch := range s.relax.visitStints() {
		if ch.water > 0 && !slices.Contains(n.settled, ch.number) {
			runs = append(runs, ch)
		}
	}
	slices.SortStableFunc(runs, func(a, b *choice) int { return cmp.Compare(b.water, a.water) })
	settled := n.settled
	for _, ch := range runs {
		next := *n
		next.settled, next.ended = settled, false
		next.pool = s.newPool(slices.DeleteFunc(slices.Clone(n.pool.choices), func(o choice) bool { return o.number == ch.number }))
		parts = append(parts, &next)
		settled = append(slices.Clip(settled), ch.number)
	}
	return parts
}
