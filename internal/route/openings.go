package route

import "slices"

// solution is a set of runs in a sequence of blocks, with its dry cost.
type solution struct {
	seq  []blockKey
	runs []chosen
	cost ticks
}

func (s *solution) feasible() bool { return s.cost < unreachable }

// dryCost is what runs in a sequence of blocks cost.
func (p *problem) dryCost(seq []blockKey, runs []chosen) ticks {
	cost, open := p.catalogue.dayCost(seq), map[[2]int]bool{}
	for _, r := range runs {
		cost += p.columns[r.column].cost
		if at := [2]int{p.accessOf(r.column), r.block}; !open[at] {
			open[at] = true
			cost += p.openPrice(at[0], p.keyIndex(seq[r.block]))
		}
	}
	return cost
}

// tidied is a solution without the blocks in which nothing is done; those that then
// follow each other with one key are one.
func (p *problem) tidied(s solution) solution {
	made, block := make([]bool, len(s.seq)), make([]int, len(s.seq))
	for _, r := range s.runs {
		made[r.block] = true
	}
	if !s.feasible() || !slices.Contains(made, false) {
		return s
	}
	var seq []blockKey
	for j, key := range s.seq {
		if made[j] && (len(seq) == 0 || seq[len(seq)-1] != key) {
			seq = append(seq, key)
		}
		block[j] = len(seq) - 1
	}
	runs := slices.Clone(s.runs)
	for i := range runs {
		runs[i].block = block[runs[i].block]
	}
	return solution{seq: seq, runs: runs, cost: p.dryCost(seq, runs)}
}

// least is a lower bound on what a sequence costs: every run pays its share of
// its opening and no more.
func (v *cover) least(seq []blockKey) ticks {
	v.begin(seq)
	v.sharing = true
	return v.solve() + v.dayCost(seq)
}

// quick finds a good solution in a fixed sequence. Runs that share an opening
// share its charge, which the dynamic program cannot see; so it is solved with
// shares, then with what the shares would have been in the last answer, and again
// with the openings of the best answer free, as long as that helps.
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
	v.spread(&s)
	v.settle(&s)
	s.cost += v.dayCost(seq)
	return s
}

// spread charges each opening in equal parts to the runs that came through it in
// the last answer, and solves again, a few times: slope scaling (Kim and Pardalos
// 1999). What came through none yet is charged as in a typical plan.
func (v *cover) spread(s *solution) {
	v.chargeAll(nil)
	for i := range v.charge {
		v.charge[i] /= sharedBy
	}
	clear(v.users)
	for round, idle := 0, 0; round < spreadRounds && idle < spreadIdle; round++ {
		for _, p := range v.picks {
			v.users[v.opening(p)]++
		}
		for _, i := range v.opened {
			v.charge[i] = v.openPrice(i%len(v.access), v.key[i/len(v.access)]) / v.users[i]
			v.users[i] = 0
		}
		v.solve()
		v.trace()
		if cost := v.price(); cost < s.cost {
			s.cost, s.runs, idle = cost, v.runs(), 0
		} else {
			idle++
		}
	}
}

// How often slope scaling solves again, and how often in vain.
const (
	spreadRounds = 8
	spreadIdle   = 3
)

// settle solves again with the openings of a solution free, as long as that makes
// its runs cheaper.
func (v *cover) settle(s *solution) {
	for {
		v.chargeAll(s.runs)
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
	v.chargeAll(s.runs)
	v.charge[block*len(v.access)+access] = unreachable
	if v.solve() >= unreachable {
		return s, false
	}
	v.trace()
	cost := v.price() + v.dayCost(s.seq)
	return solution{seq: s.seq, runs: v.runs(), cost: cost}, cost < s.cost
}
