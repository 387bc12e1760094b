package route

import (
	"context"
	"math"
	"slices"
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
	access []shares   // by access
	spot   []shares   // by spot
	hose   [][]shares // by spot and hose
	// By target: cost of it and all above, and the column and spot chosen.
	f, sum []float64
	pick   []struct{ column, spot int }
	// By column: what hangs off it, and its shares by spot.
	hang  []float64
	share [][]float64
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
		pick: make([]struct{ column, spot int }, len(c.pipes)),
		hang: make([]float64, len(c.columns)), share: make([][]float64, len(c.columns)),
		access: make([]shares, len(c.access)), spot: make([]shares, len(c.spots)),
		hose: make([][]shares, len(c.spots)),
	}
	for i := range r.share {
		r.share[i] = make([]float64, len(c.spots))
	}
	for a := range c.access {
		cheapest := c.spots[0].open[a]
		for s := range c.spots {
			cheapest = min(cheapest, c.spots[s].open[a])
		}
		r.access[a].price = float64(cheapest)
	}
	for s := range c.spots {
		r.hose[s] = make([]shares, len(c.site.Rig.Hoses))
	}
	if withDay {
		r.priceDay()
	}
	r.spread()
	return r
}

// priceDay sets the prices of spots and hoses. A day with nS spots and nSH
// pairs of spot and hose costs at least one set-up and pack-up, nS-1 moves and
// nSH-nS further changes.
func (r *relaxation) priceDay() {
	crew := &r.site.Rig.Crew
	change := float64(toTicks(minutes(crew.HoseChange)))
	ends := float64(toTicks(minutes(crew.SetUp)) + toTicks(minutes(crew.PackUp)))
	move := math.Inf(1)
	for a := range r.spots {
		for b := range r.spots {
			if a != b {
				move = min(move, ends+float64(r.tow(r.spots[a].spot.At, r.spots[b].spot.At)))
			}
		}
	}
	if len(r.spots) == 1 {
		move = change
	}
	change = min(change, move)
	r.fixed = ends - move
	for s := range r.spot {
		r.spot[s].price = move - change
		for h := range r.hose[s] {
			r.hose[s][h].price = change
		}
	}
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
	end := &r.places[col.end]
	h := r.sum[col.last]
	mine := r.share[i]
	entry := r.access[end.access].at(col.last)
	for s := range mine {
		mine[s] = entry + r.spot[s].at(col.last) + r.hose[s][end.hose].at(col.last)
	}
	if col.prev >= 0 {
		off := col.last
		if end.down {
			off = r.columns[col.prev].low
		}
		h += r.hang[col.prev] - r.f[off]
		for s, v := range r.share[col.prev] {
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
			r.pick[p] = struct{ column, spot int }{i, s}
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
		sum[i] = r.access[r.accessOf(i)].at(col.last)
		if col.prev >= 0 {
			sum[i] += sum[col.prev]
		}
		r.opening[i] = ticks(math.Floor(sum[i]))
	}
}

// moveShares shifts shares to the targets that were cleaned with each thing.
func (r *relaxation) moveShares(gap float64) {
	used := map[*shares][]int{}
	var steps int
	r.visitChosen(func(col *column, spot int, chain []int) {
		end := &r.places[col.end]
		for _, s := range []*shares{&r.access[end.access], &r.spot[spot], &r.hose[spot][end.hose]} {
			if s.of != nil {
				used[s] = append(used[s], chain...)
				steps += len(chain)
			}
		}
	})
	if steps == 0 {
		return
	}
	step := gap / float64(steps)
	r.each(func(s *shares) {
		if targets := used[s]; len(targets) > 0 {
			for _, p := range targets {
				s.of[p] += step
			}
			s.project()
		}
	})
}

// visitChosen goes through the runs of the relaxed solution.
func (r *relaxation) visitChosen(do func(col *column, spot int, chain []int)) {
	stack := slices.Clone(r.roots)
	inChain := map[int]bool{}
	for len(stack) > 0 {
		p := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		ch := r.pick[p]
		chain := r.chain(ch.column)
		do(&r.columns[ch.column], ch.spot, chain)
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
