package route

import "slices"

// How many steps of the subgradient method are made at the root and after each
// decision.
const (
	rootRounds  = 60
	nodeRounds  = 30
	stintRounds = 30
	openRounds  = 10
)

// node is a part of all plans: those that come to some spots for certain, in
// the order of an outline once there is one, and that use what the pool has. share
// are the shares that bound it.
type node struct {
	spots int // numbered by the tour
	stays int // there are no fewer, where no outline tells
	pool  *pool
	share []float64
	bound ticks
	rest  ticks // what all but the day itself costs at the least
	day   *outline
	// doors tells, by stint and access, what is decided of an opening, and paid
	// what those cost that are made in any case.
	doors []door
	paid  ticks
	// weights are those of the water of the stays; nil in the dry.
	weights []float64
	packed  packed
	// ended tells that there is nothing left to decide, and settled are choices that
	// are not varied any more.
	ended   bool
	settled []int32
}

// share has the sequences of a node's pool charge its shares.
func (s *search) share(n *node) {
	copy(s.relax.share, n.share)
	s.pool = s.newPool(s.priced(s.relax.shared(slices.Clone(n.pool.choices))))
	clear(s.known)
}

// run improves a first plan of a searchable catalogue and bounds it; it reports
// whether the best found is proved to be the cheapest.
func (s *search) run() bool {
	root := s.root
	s.evaluate(root, rootRounds)
	s.rise(root.bound)
	s.share(root)
	s.try(s.rough(roughWork))
	s.evaluate(root, rootRounds)
	s.branch(root)
	return s.bound >= s.best.cost
}

// rise tells of a bound.
func (s *search) rise(bound ticks) {
	if bound = min(bound, s.best.cost); bound > s.bound {
		s.bound = bound
		s.report()
	}
}

// evaluate bounds a node, looks for a better plan in its outline, and takes out of
// its pool what no better plan uses.
func (s *search) evaluate(n *node, rounds int) {
	if s.ease(n, rounds); n.bound >= s.best.cost {
		return
	}
	if n.day != nil {
		s.take(n)
	}
	s.strike(n)
}

// ease bounds a node by some rounds of the subgradient method.
func (s *search) ease(n *node, rounds int) {
	s.load(n)
	bound := s.relax.bound(s.ctx, s.best.cost, rounds)
	n.bound, n.rest = max(n.bound, bound), bound-ticks(s.relax.fixed)
	n.share, n.weights = slices.Clone(s.relax.share), s.relax.weights()
}

// strike takes out of the pool of a node that was just bounded what no better plan
// uses.
func (s *search) strike(n *node) {
	n.pool = s.newPool(s.relax.fix(s.best.cost))
	s.relax.work += len(n.pool.choices)
	left := n.pool.used()
	if n.spots&^s.tour.spotsOf(s.problem, left) != 0 {
		n.bound = unreachable // a spot that is used for certain is of no use
	}
	if n.day == nil {
		return
	}
	for j := 0; j < len(n.day.stints); j++ {
		switch st := n.day.stints[j]; {
		case left>>st.key&1 != 0:
		case st.sure:
			n.bound = unreachable
		default:
			n.drop(j, len(s.access))
			j--
		}
	}
	if n.day.idle() {
		n.bound = unreachable
	}
}

// branch bounds a node by deciding on one thing after the other, always in the
// part that has the lowest bound.
func (s *search) branch(root *node) {
	open := s.newAgenda()
	for n := root; n.bound < s.best.cost; {
		s.rise(min(n.bound, open.lowest))
		parts, last := s.part(n)
		for _, p := range parts {
			if s.spent() {
				return
			}
			s.tried++
			s.evaluate(p, p.rounds())
		}
		if s.spent() {
			return
		}
		if last {
			open.leave(n)
		}
		for _, p := range parts {
			if p.bound < s.best.cost {
				open.add(p)
			}
		}
		if n = open.next(); n == nil {
			break
		}
	}
	s.rise(min(open.lowest, s.best.cost))
}

func (n *node) rounds() int {
	switch {
	case n.doors != nil:
		return openRounds
	case n.day != nil:
		return stintRounds
	}
	return nodeRounds
}

// part parts a node by a decision. last tells that there is none left to make: then
// the relaxed solution is a true one, and was taken; in the wet it may take longer
// than its bound.
func (s *search) part(n *node) (parts []*node, last bool) {
	if n.day != nil {
		return s.partDay(n)
	}
	left := n.pool.used()
	spots := s.tour.spotsOf(s.problem, left) &^ n.spots
	if spots == 0 {
		if n.stays == 0 {
			s.share(n)
			s.try(s.rough(roughWork / 5))
		}
		return s.arrange(n)
	}
	spot := s.mostUsed(n, spots)
	with, without := *n, *n
	with.spots |= 1 << spot
	without.pool = s.newPool(slices.DeleteFunc(slices.Clone(n.pool.choices), func(ch choice) bool {
		return s.tour.of[s.keys[ch.key].spot] == spot
	}))
	return []*node{&with, &without}, false
}

// mostUsed is the spot of some from which most is cleaned in the relaxed solution.
func (s *search) mostUsed(n *node, of int) int {
	s.load(n)
	s.relax.value()
	uses := make([]int, s.tour.number)
	for k := range n.pool.keyed {
		uses[s.tour.of[s.keys[k].spot]] += len(n.pool.keyed[k].choices)
	}
	for ch := range s.relax.visitStints() {
		for at := ch.span; at >= 0; at = s.spans[at].prev {
			uses[s.tour.of[s.keys[ch.key].spot]] += len(n.pool.choices)
		}
	}
	best := -1
	for at := range uses {
		if of>>at&1 != 0 && (best < 0 || uses[at] > uses[best]) {
			best = at
		}
	}
	return best
}

// load sets the relaxation to a node.
func (s *search) load(n *node) {
	r := s.relax
	copy(r.share, n.share)
	if n.day == nil {
		r.water = nil
		r.priceDay(n.spots)
		r.begin(n.pool, anyDay, []uint64{1})
		return
	}
	r.priceStints(n.day.stints, float64(s.dayOf(n.day)+n.paid))
	r.begin(n.pool, n.day.stints, n.day.after())
	r.doors = n.doors
	s.setWater(n)
}
