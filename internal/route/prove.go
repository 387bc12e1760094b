package route

import (
	"slices"
)

// How many steps of the subgradient method are made at the root and after each
// decision.
const (
	startRounds = 40
	rootRounds  = 150
	nodeRounds  = 30
	orderRounds = 12
)

// node is a part of all plans: those that use some keys for certain, and of
// the rest only what the pool has. share are the shares that bound it.
type node struct {
	// spots and in are the spots, numbered by the tour, and the keys that are used
	// for certain.
	spots int
	in    uint64
	pool  *pool
	share []float64
	bound ticks
	// seq are the first blocks, once they are decided on, and all blocks where it
	// is whole. left are the keys that must still come, and day what the whole day
	// costs at the least.
	seq   []blockKey
	whole bool
	left  uint64
	day   ticks
	// doors tells, by block and access, what is decided of an opening, and paid
	// what those cost that are made in any case.
	doors []door
	paid  ticks
}

// start makes a first plan of the keys that the relaxed problem uses.
func (s *search) start() {
	if s.relax == nil {
		return
	}
	s.root = &node{pool: s.pool, share: make([]float64, s.shares)}
	s.relax.priceDay(0, 0)
	s.relax.begin(s.pool)
	s.relax.bound(s.ctx, 0, startRounds)
	copy(s.root.share, s.relax.share)
	s.share(s.root)
	s.assemble(s.relax.usedKeys(), descentWork)
}

// share has the sequences of a node's pool charge its shares.
func (s *search) share(n *node) {
	copy(s.relax.share, n.share)
	s.pool = s.newPool(s.relax.shared(slices.Clone(n.pool.choices)))
	clear(s.known)
}

// run improves a first plan of a searchable catalogue and bounds it; it reports
// whether the best found is proved to be the cheapest.
func (s *search) run() bool {
	root := s.root
	s.evaluate(root, rootRounds)
	s.bound = min(root.bound, s.best.cost)
	s.report()
	s.share(root)
	s.assemble(root.pool.used(), 5*descentWork)
	s.evaluate(root, rootRounds)
	s.bound = max(s.bound, min(s.branch(root), s.best.cost))
	s.report()
	return s.bound >= s.best.cost
}

// evaluate bounds a node and takes out of its pool what no better plan uses.
func (s *search) evaluate(n *node, rounds int) {
	r := s.relax
	s.load(n)
	n.bound = max(n.bound, r.bound(s.ctx, s.best.cost, rounds))
	if n.bound >= s.best.cost {
		return
	}
	n.share = slices.Clone(r.share)
	if n.whole {
		s.take(n)
	}
	n.pool = s.newPool(r.fix(s.best.cost))
	if left := n.pool.used(); n.in&^left != 0 || n.spots&^s.tour.spotsOf(s.problem, left) != 0 {
		n.bound = unreachable // what is used for certain is of no use
	}
}

// branch bounds a node by deciding on one spot after the other, then on keys.
func (s *search) branch(n *node) ticks {
	if n.bound >= s.best.cost || s.spent() {
		return n.bound
	}
	left := n.pool.used()
	spots := s.tour.spotsOf(s.problem, left) &^ n.spots
	if spots == 0 && left == n.in {
		return max(n.bound, s.order(n))
	}
	if spots == 0 && n.in == 0 {
		s.share(n)
		s.assemble(left, descentWork)
	}
	with, without := *n, *n
	var out func(key int) bool
	if spots != 0 {
		spot := s.mostUsed(n, func(k int) int {
			if at := s.tour.of[s.keys[k].spot]; spots>>at&1 != 0 {
				return at
			}
			return -1
		})
		with.spots |= 1 << spot
		out = func(k int) bool { return s.tour.of[s.keys[k].spot] == spot }
	} else {
		key := s.mostUsed(n, func(k int) int {
			if (left&^n.in)>>k&1 != 0 {
				return k
			}
			return -1
		})
		with.in |= 1 << key
		out = func(k int) bool { return k == key }
	}
	without.pool = s.newPool(slices.DeleteFunc(slices.Clone(n.pool.choices), func(ch choice) bool { return out(int(ch.key)) }))
	s.evaluate(&with, nodeRounds)
	s.evaluate(&without, nodeRounds)
	return max(n.bound, min(s.branch(&with), s.branch(&without)))
}

// mostUsed is the group of keys that cleans most in the relaxed solution; group
// is negative for keys that are in none.
func (s *search) mostUsed(n *node, group func(key int) int) int {
	r := s.relax
	s.load(n)
	r.value()
	uses := make([]int, max(len(s.keys), s.tour.number))
	for k := range s.keys {
		if g := group(k); g >= 0 {
			uses[g] += len(n.pool.keyed[k].choices)
		}
	}
	for ch := range r.visitPicks() {
		for at := ch.span; at >= 0; at = s.spans[at].prev {
			if g := group(int(ch.key)); g >= 0 {
				uses[g] += len(n.pool.choices)
			}
		}
	}
	best := 0
	for g := range uses {
		if uses[g] > uses[best] {
			best = g
		}
	}
	return best
}

// order looks at all sequences with all keys of a node.
func (s *search) order(n *node) ticks {
	from := *n
	from.left = n.in
	if !s.extend(&from) {
		return n.bound
	}
	return s.best.cost
}

// extend ends the sequence of a node, where it may, and goes on with it in every
// way. It is false where the work ran out.
func (s *search) extend(n *node) bool {
	if len(n.seq) > 0 && n.left == 0 {
		end := *n
		end.whole = true
		if s.evaluate(&end, orderRounds); end.bound < s.best.cost && !s.finish(&end) {
			return false
		}
	}
	if len(n.seq) == len(s.targets) { // each block cleans something
		return true
	}
	for k, key := range s.keys {
		if n.in>>k&1 == 0 || len(n.seq) > 0 && n.seq[len(n.seq)-1] == key {
			continue
		}
		next := *n
		next.seq, next.left = append(slices.Clip(n.seq), key), n.left&^(1<<k)
		if next.day = s.dayCost(next.seq) + s.tour.rest(s.problem, k, next.left); next.day >= s.best.cost {
			continue
		}
		if s.spent() {
			return false
		}
		s.tried++
		if s.evaluate(&next, orderRounds); next.bound < s.best.cost && !s.extend(&next) {
			return false
		}
	}
	return true
}

// load sets the relaxation to a node.
func (s *search) load(n *node) {
	r := s.relax
	switch {
	case n.seq == nil:
		r.priceDay(n.spots, n.in)
	case n.whole:
		r.priceMore(n.day+n.paid, 0)
	default:
		r.priceMore(n.day, n.in&^n.left)
	}
	copy(r.share, n.share)
	r.begin(n.pool)
	switch {
	case n.whole:
		r.inOrder(n.seq, 0)
	case n.seq != nil:
		r.inOrder(n.seq, n.in)
	}
	r.doors = n.doors
}
