package route

// solution is a set of runs in a sequence of blocks, with its dry cost.
type solution struct {
	seq  []blockKey
	runs []chosen
	cost ticks
}

func (s *solution) feasible() bool { return s.cost < unreachable }

// least is a lower bound on what a sequence costs: every run pays its share of
// its opening and no more.
func (v *cover) least(seq []blockKey) ticks {
	v.begin(seq)
	v.sharing = true
	return v.solve() + v.dayCost(seq)
}

// quick finds a good solution in a fixed sequence. Runs that share an opening
// share its charge, which the dynamic program cannot see; so it is solved with
// shares, and again with the openings of the last answer free, as long as that
// helps.
func (v *cover) quick(seq []blockKey) solution {
	v.begin(seq)
	v.sharing = true
	s := solution{seq: seq, cost: v.solve()}
	if !s.feasible() {
		return s
	}
	v.trace()
	s.cost = v.price()
	s.runs = v.runs()
	v.settle(&s)
	s.cost += v.dayCost(seq)
	return s
}

// settle solves again with the openings of the last answer free, as long as
// that makes the runs of a solution cheaper.
func (v *cover) settle(s *solution) {
	for {
		v.chargeAll()
		v.solve()
		v.trace()
		cost := v.price()
		if cost >= s.cost {
			return
		}
		s.cost, s.runs = cost, v.runs()
	}
}

// doWithout solves a solution's sequence again without one of its openings; ok
// is false where that is not cheaper.
func (v *cover) doWithout(s solution, access, block int) (next solution, ok bool) {
	v.begin(s.seq)
	for _, r := range s.runs {
		v.isOpen[r.block*len(v.access)+v.accessOf(r.column)] = true
	}
	v.chargeAll()
	clear(v.isOpen)
	v.charge[block*len(v.access)+access] = unreachable
	if v.solve() >= unreachable {
		return s, false
	}
	v.trace()
	cost := v.price() + v.dayCost(s.seq)
	return solution{seq: s.seq, runs: v.runs(), cost: cost}, cost < s.cost
}
