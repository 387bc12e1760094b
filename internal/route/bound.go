package route

import (
	"context"
	"math"
	"slices"

	"linemap/internal/rig"
	"linemap/internal/unit"
)

// relaxation bounds the cost of every plan from below. It forgets in which
// order blocks come, and charges each thing that is paid once (an opening, a
// stay at a spot, a hose at a spot) not to the first run that needs it but in
// shares to the targets that runs clean with it. Shares of one thing sum to its
// price, so no plan pays more in shares than it pays in truth: Lagrangian cost
// splitting of x(run cleaning p with thing) <= z(thing). A subgradient method
// moves the shares to where they bind.
type relaxation struct {
	*catalogue
	fixed  float64
	shares shares
	// By target: cost of it and all above, and the column and the near spot
	// chosen.
	f, sum []float64
	pick   []struct{ column, bit int }
	// By column: what hangs off it, and from share[at[i]] on its shares by near
	// spot.
	hang  []float64
	share []float64
	at    []int
	// opening is, by column, its shares of its opening's price in the round
	// with the best bound, rounded down.
	opening []ticks
}

// endless stands for a cost that no plan has, small enough that sums of it
// still hold single ticks.
const endless = 1e9

func newRelaxation(c *catalogue, withDay bool) *relaxation {
	r := &relaxation{
		catalogue: c,
		f:         make([]float64, len(c.pipes)), sum: make([]float64, len(c.pipes)),
		pick: make([]struct{ column, bit int }, len(c.pipes)),
		hang: make([]float64, len(c.columns)), at: make([]int, len(c.columns)),
	}
	n := 0
	for i := range c.columns {
		r.at[i] = n
		n += len(c.access[c.accessOf(i)].near)
	}
	r.share = make([]float64, n)
	prices := make([]float64, len(c.access)+len(c.spots)*(1+len(c.site.Rig.Hoses)))
	for a := range c.access {
		cheapest := unreachable
		for _, n := range c.access[a].near {
			cheapest = min(cheapest, n.open)
		}
		prices[a] = float64(cheapest)
	}
	if withDay {
		r.priceDay(prices[len(c.access):][:len(c.spots)], prices[len(c.access)+len(c.spots):])
	}
	r.spread(prices)
	return r
}

// priceDay sets the prices of spots and of hoses at them. A day costs at least
// one set-up and pack-up, a move to each of its spots but the first, and at each
// spot a change for each of its hoses but one.
func (r *relaxation) priceDay(spots, hoses []float64) {
	crew := &r.site.Rig.Crew
	change := float64(toTicks(minutes(crew.HoseChange)))
	ends := float64(toTicks(minutes(crew.SetUp)) + toTicks(minutes(crew.PackUp)))
	for s := range r.spots {
		spots[s] = ends + r.leastTow(s)
	}
	if len(spots) == 1 {
		spots[0] = change
	}
	r.fixed = ends - slices.Max(spots)
	if len(spots) < fewSpots { // the farthest of few may be one that no plan uses
		least := slices.Min(spots)
		r.fixed = ends - least
		for s := range spots {
			spots[s] = least
		}
	}
	change = min(change, slices.Min(spots))
	for s := range spots {
		spots[s] -= change
	}
	for i := range hoses {
		hoses[i] = change
	}
}

// fewSpots is below how many spots all moves count as long as the shortest one.
const fewSpots = 20

// leastTow is the least time to tow to a spot from another one; 0 where there
// is no other.
func (r *relaxation) leastTow(to int) float64 {
	if len(r.spots) < 2 {
		return 0
	}
	nearest := unit.Length(math.Inf(1))
	for from := range r.spots {
		if from != to {
			nearest = min(nearest, r.spots[from].spot.At.Distance(r.spots[to].spot.At))
		}
	}
	return float64(toTicks(minutes(r.site.Rig.Crew.Move) + rig.Over(nearest, r.site.Rig.Crew.TowSpeed)))
}

// value solves the relaxed problem under the present shares.
func (r *relaxation) value() float64 {
	for i := len(r.targets) - 1; i >= 0; i-- {
		p := r.targets[i]
		r.f[p], r.sum[p] = endless, 0
		for _, q := range r.children[p] {
			r.sum[p] += r.f[q]
		}
		for _, i := range r.byLow[p] {
			r.valueColumn(p, i)
		}
	}
	total := r.fixed
	for _, root := range r.roots {
		total += r.f[root]
	}
	return total
}

func (r *relaxation) valueColumn(p, i int) {
	col := &r.columns[i]
	if !r.reachable[col.last] {
		return
	}
	near := len(r.access[r.accessOf(i)].near)
	mine := r.share[r.at[i]:][:near]
	stay := r.shares.stay[r.shares.first[col.end]:][:near]
	of := r.shares.of
	entry := of[r.shares.entry[col.end]]
	for s := range mine {
		mine[s] = entry + of[stay[s].spot] + of[stay[s].hose]
	}
	h := r.sum[col.last]
	if col.prev >= 0 {
		off := col.last
		if r.places[col.end].down {
			off = r.columns[col.prev].low
		}
		h += r.hang[col.prev] - r.f[off]
		for s, v := range r.share[r.at[col.prev]:][:near] {
			mine[s] += v
		}
	}
	r.hang[i] = h
	for s := range mine {
		if col.spots&(1<<s) == 0 {
			continue
		}
		if v := float64(col.cost) + mine[s] + h; v < r.f[p] {
			r.f[p] = v
			r.pick[p] = struct{ column, bit int }{i, s}
		}
	}
}

// bound runs the subgradient method and returns the best bound found. upper is
// the cost of a known plan, or of its runs.
func (r *relaxation) bound(ctx context.Context, upper ticks, rounds int) ticks {
	if len(r.targets) == 0 {
		return 0
	}
	best, theta, idle := math.Inf(-1), 1.0, 0
	for range rounds {
		v := r.value()
		if v > best+1e-9 {
			best, idle = v, 0
			r.keepShares()
		} else if idle++; idle >= 8 {
			theta, idle = theta/2, 0
		}
		if ctx.Err() != nil || best >= float64(upper)-1e-6 {
			break
		}
		r.moveShares(theta * (float64(upper) - v))
	}
	return max(0, ticks(math.Ceil(best-1e-4)))
}

// keepShares notes each column's shares of its opening's price.
func (r *relaxation) keepShares() {
	sum := make([]float64, len(r.columns))
	r.opening = grow(r.opening, len(r.columns))
	for i := range r.columns {
		col := &r.columns[i]
		sum[i] = r.shares.of[r.shares.entry[col.end]]
		if col.prev >= 0 {
			sum[i] += sum[col.prev]
		}
		r.opening[i] = ticks(math.Floor(sum[i]))
	}
}

// moveShares shifts shares to the targets that were cleaned with each thing.
func (r *relaxation) moveShares(gap float64) {
	s := &r.shares
	var used []int32
	r.visitChosen(func(column, bit int) {
		for i := column; i >= 0; i = r.columns[i].prev {
			end := r.columns[i].end
			stay := s.stay[int(s.first[end])+bit]
			for _, at := range [...]int32{s.entry[end], stay.spot, stay.hose} {
				if at != 0 {
					used = append(used, at)
				}
			}
		}
	})
	if len(used) == 0 {
		return
	}
	step := gap / float64(len(used))
	for _, at := range used {
		s.of[at] += step
		s.moved[s.by[at]] = true
	}
	for i := range s.paid {
		if s.moved[i] {
			s.moved[i] = false
			s.project(&s.paid[i])
		}
	}
}

// visitChosen goes through the runs of the relaxed solution.
func (r *relaxation) visitChosen(do func(column, bit int)) {
	stack := slices.Clone(r.roots)
	inChain := map[int]bool{}
	for len(stack) > 0 {
		p := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		ch := r.pick[p]
		do(ch.column, ch.bit)
		chain := r.chain(ch.column)
		clear(inChain)
		for _, q := range chain {
			inChain[q] = true
		}
		for _, q := range chain {
			for _, u := range r.children[q] {
				if !inChain[u] {
					stack = append(stack, u)
				}
			}
		}
	}
}
