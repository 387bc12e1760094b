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
	// fetch is, by spot, what a run pays for each unit of water that it draws.
	fetch []float64
	// By target: cost of it and all above, and the column and the near spot
	// chosen.
	f, sum []float64
	pick   []struct{ column, bit int }
	// By column: what hangs off it, and from share[at[i]] on its shares by near
	// spot.
	hang  []float64
	share []float64
	at    []int
	// heard, where set, is told of every better bound.
	heard func(ticks)
}

// endless stands for a cost that no plan has, small enough that sums of it
// still hold single ticks.
const endless = 1e9

// newRelaxation bounds the minutes of every plan: dry ones, or else with the
// fetching of water.
func newRelaxation(c *catalogue, dry bool) *relaxation {
	r := &relaxation{
		catalogue: c,
		f:         make([]float64, len(c.pipes)), sum: make([]float64, len(c.pipes)),
		pick: make([]struct{ column, bit int }, len(c.pipes)),
		hang: make([]float64, len(c.columns)), at: make([]int, len(c.columns)),
		fetch: make([]float64, len(c.spots)),
	}
	n := 0
	for i := range c.columns {
		r.at[i] = n
		n += len(c.access[c.accessOf(i)].near)
	}
	r.share = make([]float64, n)
	prices := newPrices(c)
	r.priceDay(prices.spots, prices.hoses)
	if !dry {
		r.priceWater(prices.spots)
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

// priceWater charges runs at spots without inflow for fetching their water. A stay
// begins with no more than a full tank, so what it draws above that is fetched; a
// fill brings no more than the tank holds above Stop. That tankful goes off the
// spot's price, and where it is worth more than the spot all is charged less in
// proportion: no stay must gain by drawing less than a tankful.
func (r *relaxation) priceWater(spots []float64) {
	tankful := float64(r.site.Rig.Tank.Volume - r.site.Rig.Tank.Stop)
	for s := range r.spots {
		if rate := r.fetchRate(s); rate > 0 {
			credit := min(rate*tankful, spots[s])
			spots[s] -= credit
			r.fetch[s] = credit / tankful
		}
	}
}

// fetchRate is what it takes at the least to fetch water to a spot, in ticks for
// each unit of volume; 0 where it has inflow, or the site no water.
func (c *catalogue) fetchRate(spot int) float64 {
	tank := &c.site.Rig.Tank
	most := tank.Volume - tank.Stop
	d := &dayBook{catalogue: c, spot: spot, tank: tank.Stop}
	trip, flow, ok := d.nearestWater()
	if c.spots[spot].inflow > 0 || !ok || most <= 0 {
		return 0
	}
	return float64(trip)/float64(most) + 1/(float64(flow)*Tick.Seconds())
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
	r.shares.addUp()
	for _, p := range slices.Backward(r.targets) {
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
	near := r.access[r.accessOf(i)].near
	mine := r.share[r.at[i]:][:len(near)]
	copy(mine, r.shares.pay[r.shares.first[col.end]:])
	h := r.sum[col.last]
	if col.prev >= 0 {
		off := col.last
		if r.places[col.end].down {
			off = r.columns[col.prev].low
		}
		h += r.hang[col.prev] - r.f[off]
		for s, v := range r.share[r.at[col.prev]:][:len(near)] {
			mine[s] += v
		}
	}
	r.hang[i] = h
	for s := range mine {
		if col.spots&(1<<s) == 0 {
			continue
		}
		v := float64(col.cost) + float64(col.water)*r.fetch[near[s].spot] + mine[s] + h
		if v < r.f[p] {
			r.f[p] = v
			r.pick[p] = struct{ column, bit int }{i, s}
		}
	}
}

// without lists the targets that no run cleans beside those above them.
func (r *relaxation) without() (left []int) {
	for _, p := range r.targets {
		if r.f[p] >= endless && r.sum[p] < endless {
			left = append(left, p)
		}
	}
	return left
}

// How the shares are moved: the steps are halved after so many in vain, and a step
// goes on in the direction of the one before it, so much of it.
const (
	inVain = 4
	keep   = 0.8
)

// bound runs the subgradient method and returns the best bound found. upper is
// the cost of a known plan.
func (r *relaxation) bound(ctx context.Context, upper ticks, rounds int) ticks {
	if len(r.targets) == 0 {
		return 0
	}
	best, theta, idle := math.Inf(-1), 1.0, 0
	for range rounds {
		v := r.value()
		if v > best+1e-9 {
			best, idle = v, 0
			if r.heard != nil {
				r.heard(boundOf(best))
			}
		} else if idle++; idle >= inVain {
			theta, idle = theta/2, 0
		}
		if ctx.Err() != nil || best >= float64(upper)-1e-6 {
			break
		}
		r.markUsed()
		if !r.shares.move(theta * (float64(upper) - v)) {
			break
		}
	}
	return boundOf(best)
}

// boundOf is a relaxed value as a bound on whole ticks.
func boundOf(value float64) ticks { return max(0, ticks(math.Ceil(value-1e-4))) }

// markUsed notes the shares that the relaxed solution pays.
func (r *relaxation) markUsed() {
	s := &r.shares
	clear(s.used)
	r.visitChosen(func(column, bit int) {
		for i := column; i >= 0; i = r.columns[i].prev {
			stay := s.stay[int(s.first[r.columns[i].end])+bit]
			s.used[stay.opening], s.used[stay.spot], s.used[stay.hose] = true, true, true
		}
	})
}

// visitChosen goes through the runs of the relaxed solution, lower ones first.
func (r *relaxation) visitChosen(do func(column, bit int)) {
	stack := slices.Clone(r.roots)
	for len(stack) > 0 {
		p := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		ch := r.pick[p]
		do(ch.column, ch.bit)
		chain := r.chain(ch.column)
		for n, q := range chain {
			for _, u := range r.children[q] {
				if n+1 == len(chain) || u != chain[n+1] {
					stack = append(stack, u)
				}
			}
		}
	}
}
