package route

import (
	"maps"
	"slices"
)

// solution is a set of runs in a sequence of blocks, with its dry cost.
type solution struct {
	seq  []blockKey
	runs []chosen
	cost ticks
}

func (s *solution) feasible() bool { return s.cost < unreachable }

// quick finds a good solution in a fixed sequence. Runs that share an opening
// share its charge, which the dynamic program cannot see; so it is solved
// again with the openings of the last answer free, as long as that helps.
func (v *cover) quick(seq []blockKey) solution {
	v.begin(seq)
	s := solution{seq: seq, cost: v.solve()}
	if !s.feasible() {
		return s
	}
	s.runs, _ = v.runs()
	s.cost = v.price(s.runs)
	for {
		v.setFree(v.openings(s.runs))
		v.solve()
		runs, _ := v.runs()
		cost := v.price(runs)
		if cost >= s.cost {
			break
		}
		s.runs, s.cost = runs, cost
	}
	s.cost += v.dayCost(seq)
	return s
}

// setFree charges nothing for the given openings and the rest in full.
func (v *cover) setFree(free map[opening]bool) {
	k := len(v.seq)
	for j, b := range v.seq {
		for a := range v.access {
			v.charge[a*k+j] = v.openCost(a, b.spot)
			if free[opening{a, j}] {
				v.charge[a*k+j] = 0
			}
		}
	}
}

// doWithout solves a solution's sequence again without one of its openings; ok
// is false where that is not cheaper.
func (v *cover) doWithout(s solution, o opening) (next solution, ok bool) {
	v.begin(s.seq)
	free := v.openings(s.runs)
	delete(free, o)
	v.setFree(free)
	v.charge[o.access*len(v.seq)+o.block] = unreachable
	if v.solve() >= unreachable {
		return s, false
	}
	runs, _ := v.runs()
	cost := v.price(runs) + v.dayCost(s.seq)
	return solution{seq: s.seq, runs: runs, cost: cost}, cost < s.cost
}

func sortedOpenings(set map[opening]bool) []opening {
	return slices.SortedFunc(maps.Keys(set), func(a, b opening) int {
		if a.block != b.block {
			return a.block - b.block
		}
		return a.access - b.access
	})
}

// exact finds the cheapest solution in a fixed sequence that is cheaper than
// upper, by branch and bound over the openings. An opening that is still open
// to choice charges every run its share only, which bounds the cost from below;
// one that is decided is paid and free, or not to be had. It spends the budget
// by one for each bound; proven is false where the budget ran out.
func (v *cover) exact(seq []blockKey, upper ticks, budget *int) (best solution, proven bool) {
	v.begin(seq)
	best = solution{seq: seq, cost: upper}
	day := v.dayCost(seq)
	proven = true
	for i := range v.sharing {
		v.sharing[i], v.charge[i] = true, 0
	}
	var branch func(paid ticks)
	branch = func(paid ticks) {
		if *budget <= 0 {
			proven = false
			return
		}
		*budget--
		if day+paid+v.solve() >= best.cost {
			return
		}
		runs, _ := v.runs()
		if cost := day + v.price(runs); cost < best.cost {
			best.cost, best.runs = cost, runs
		}
		at, price, ok := v.mostUndercharged(runs)
		if !ok {
			return
		}
		v.sharing[at], v.charge[at] = false, 0
		branch(paid + price)
		v.charge[at] = unreachable
		branch(paid)
		v.sharing[at], v.charge[at] = true, 0
	}
	branch(0)
	return best, proven
}

// mostUndercharged is the opening whose price most exceeds the shares that runs
// paid for it; ok is false where none does.
func (v *cover) mostUndercharged(runs []chosen) (at int, price ticks, ok bool) {
	k := len(v.seq)
	paid := map[int]ticks{}
	for _, r := range runs {
		paid[v.accessOf(r.column)*k+r.block] += v.share[r.column]
	}
	most := ticks(0)
	for o := range v.openings(runs) {
		i := o.access*k + o.block
		open := v.openCost(o.access, v.seq[o.block].spot)
		if lack := open - paid[i]; v.sharing[i] && (lack > most || lack == most && ok && i < at) {
			at, price, ok, most = i, open, true, lack
		}
	}
	return at, price, ok
}
