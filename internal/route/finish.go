package route

import "slices"

// openRounds is how many steps of the subgradient method are made after each
// decision on an opening.
const openRounds = 12

// door is what is decided of an opening: of an access in a block.
type door byte

const (
	undecided door = iota
	paidFor        // it is made, and free to all runs
	shut           // it is not made
)

// finish solves a whole sequence. It is false where the work ran out.
func (s *search) finish(n *node) bool {
	s.share(n)
	s.try(n.seq)
	n.doors = make([]door, len(n.seq)*len(s.access))
	return s.open(n)
}

// open decides opening by opening which of them are made in a whole sequence. It
// is false where the work ran out.
func (s *search) open(n *node) bool {
	if n.bound >= s.best.cost {
		return true
	}
	if s.spent() {
		return false
	}
	s.load(n)
	s.relax.value()
	at, price, ok := s.relax.mostUndercharged()
	if !ok { // then the relaxed solution is a true one, and was taken
		return true
	}
	with, without := *n, *n
	with.doors, without.doors = slices.Clone(n.doors), slices.Clone(n.doors)
	with.doors[at], without.doors[at] = paidFor, shut
	with.paid += price
	s.evaluate(&with, openRounds)
	s.evaluate(&without, openRounds)
	if without.bound < with.bound {
		with, without = without, with
	}
	return s.open(&with) && s.open(&without)
}

// take keeps the relaxed solution of a whole sequence where, with its openings
// paid in full, it is the best plan.
func (s *search) take(n *node) {
	r := s.relax
	r.value()
	cost := n.day
	open := map[[2]int32]bool{}
	var runs []chosen
	for ch, block := range r.visitBlocks() {
		runs = append(runs, chosen{int(ch.column), int(block)})
		if at := [2]int32{ch.access, block}; !open[at] {
			open[at] = true
			cost += s.openPrice(int(ch.access), ch.key)
		}
		cost += ch.cost
	}
	if cost < s.best.cost {
		s.best = solution{seq: n.seq, runs: runs, cost: cost}
		s.report()
	}
}

// mostUndercharged is the undecided opening, by block and access, whose price
// most exceeds the shares that the relaxed solution paid for it; ok is false where
// none does by as much as a rounding error.
func (r *easing) mostUndercharged() (at int, price ticks, ok bool) {
	lack, used := make([]float64, len(r.doors)), make([]bool, len(r.doors))
	for ch, block := range r.visitBlocks() {
		i := int(block)*len(r.access) + int(ch.access)
		if r.doors[i] != undecided {
			continue
		}
		if !used[i] {
			used[i], lack[i] = true, float64(r.openPrice(int(ch.access), ch.key))
		}
		lack[i] -= r.path[ch.top] - r.path[ch.below]
	}
	most := 1e-3
	for i, v := range lack {
		if v > most {
			at, most, ok = i, v, true
		}
	}
	if ok {
		price = r.openPrice(at%len(r.access), r.blocks[at/len(r.access)])
	}
	return at, price, ok
}
