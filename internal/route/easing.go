package route

import (
	"context"
	"math"
)

// easing bounds the cost of every plan from below. It forgets in which
// order blocks come, and charges each thing that is paid once (an opening with
// one key, a stay at a spot, a hose at a spot) not to the first run that needs it
// but in shares to the targets that runs clean with it. Shares of one thing sum
// to its price, so no plan pays more in shares than it pays in truth: Lagrangian
// cost splitting of x(run cleaning p with thing) <= z(thing). A subgradient
// method moves the shares to where they bind.
type easing struct {
	*problem
	tour *tour
	pool *pool
	// stints are those of the day, and after by stint, as a bit mask, in which of
	// them a target may be cleaned when the one below it is cleaned in that stint.
	stints []stint
	after  []uint64
	// doors tells, by stint and access, what is decided of an opening.
	doors []door
	// water is by stay, and atSpot by spot what is charged where nothing is decided
	// of the stays; both nil in the dry.
	water, atSpot []stayWater
	fixed         float64
	prices        []float64 // by thing
	share         []float64
	best          []float64 // the shares of the best round

	liveCells []int32
	live      [][]int32 // by thing, its shares that some choice pays
	// By cell, the shares of openings up to it, and those of stays and hoses.
	path, hold []float64
	// By target and the stint in which the one below is clean: the cost of it and
	// all above, of its kids, what is chosen, and the cost of all else. Targets with
	// none below go by stint 0.
	f, sum, out []float64
	pick        []eased
	hang        []float64 // by span and stint
	raw         []eased   // the best choice in each stint
	least       []float64 // and its cost
	thingOf     []int32   // by share
	touched     []int32
	count       []int32 // by thing
	stack       []arrival
	sorted      []float64

	work  int // done so far, in steps of the innermost loops
	marks []bool
}

func newEasing(p *problem, t *tour) *easing {
	r := &easing{
		problem: p, tour: t, prices: make([]float64, len(p.things)),
		share: make([]float64, p.shares), best: make([]float64, p.shares),
		live: make([][]int32, len(p.things)), path: make([]float64, len(p.cells)), hold: make([]float64, len(p.cells)),
		thingOf: make([]int32, p.shares),
		count:   make([]int32, len(p.things)), marks: make([]bool, max(p.shares, len(p.cells))),
	}
	for i, t := range p.things {
		for s := t.from; s < t.to; s++ {
			r.thingOf[s] = int32(i)
		}
	}
	return r
}

// priceDay prices all things where some spots are used in any case. The day then
// costs at least the tour of the spots, and more for each further spot and hose.
func (r *easing) priceDay(spots int) {
	r.priceOpenings()
	for s := range r.spots {
		if at := r.tour.of[s]; at >= 0 && spots>>at&1 == 0 {
			r.prices[r.stayAt(s)] = float64(r.tour.spot - r.creditAt(s) - r.tour.hose)
		}
	}
	r.fixed = float64(r.tour.ends - r.tour.spot)
	if spots != 0 {
		r.fixed = float64(r.tour.day(spots))
	}
	for k := range r.keys {
		r.prices[r.hoseAt(k)] = float64(r.tour.hose)
	}
}

// priceStints prices the openings, and the hoses of stints that may be left out.
func (r *easing) priceStints(stints []stint, fixed float64) {
	r.priceOpenings()
	r.fixed = fixed
	for _, st := range stints {
		if !st.sure {
			r.prices[r.hoseAt(int(st.key))] = float64(r.hoseChange())
		}
	}
}

// priceOpenings prices the openings and nothing else.
func (r *easing) priceOpenings() {
	for i := range r.prices {
		r.prices[i] = float64(r.things[i].price) // 0 for all that is no opening
	}
}

// begin sets the choices in play and the stints, and spreads every price over the
// targets that the choices can serve.
func (r *easing) begin(o *pool, stints []stint, after []uint64) {
	r.pool, r.doors = o, nil
	r.setStints(stints, after)
	r.work += len(o.choices) + len(r.cells) + r.shares + len(r.things)
	cells, shares := r.marks[:len(r.cells)], make([]bool, r.shares)
	clear(cells)
	for i := range o.choices {
		for c := o.choices[i].top; c != o.choices[i].below; c = r.cells[c].prev {
			cells[c] = true
		}
	}
	// What is below the cells in play is the same in all sums, and drops out.
	r.liveCells = r.liveCells[:0]
	clear(r.path)
	clear(r.hold)
	for c, live := range cells {
		if cell := &r.cells[c]; live {
			r.liveCells = append(r.liveCells, int32(c))
			shares[cell.opening], shares[cell.stay], shares[cell.hosePay] = true, true, true
		}
	}
	for i, t := range r.things {
		r.live[i] = r.live[i][:0]
		for s := t.from; s < t.to; s++ {
			if s > 0 && shares[s] {
				r.live[i] = append(r.live[i], s)
			} else {
				r.share[s] = 0
			}
		}
		r.project(i)
	}
}

// The step of the subgradient method, as a multiple of Polyak's (1969), and after
// how many rounds in vain it is halved. It begins far beyond the 2 up to which the
// method closes in for sure, as the projection takes most of a long step back: on
// buildings of 300 pipes it gets as far in 60 rounds as one of 1 does in 1,000.
const (
	firstStep = 12
	patience  = 8
)

// bound runs the subgradient method and returns the best bound found. upper is
// the cost of a known plan; the method stops where no plan can be cheaper.
func (r *easing) bound(ctx context.Context, upper ticks, rounds int) ticks {
	best, theta, idle := math.Inf(-1), float64(firstStep), 0
	copy(r.best, r.share)
	weights := r.weights()
	for range rounds {
		v := r.value()
		if v > best+1e-9 {
			best, idle = v, 0
			copy(r.best, r.share)
			weights = r.weights()
		} else if idle++; idle >= patience {
			theta, idle = theta/2, 0
		}
		gap := float64(upper) - v
		if best > float64(upper)-1+1e-4 || v >= endless/2 || ctx.Err() != nil {
			break
		}
		r.weigh(min(1, theta) * gap)
		r.moveShares(theta * gap)
	}
	copy(r.share, r.best)
	for t := range r.water {
		r.water[t].weight = weights[t]
	}
	return roundUp(best)
}

// roundUp is the least whole cost that is no less than a bound.
func roundUp(v float64) ticks {
	if v >= endless/2 {
		return unreachable
	}
	return max(0, ticks(math.Ceil(v-1e-4)))
}

// moveShares shifts shares to the targets that were cleaned with each thing. The
// length of the step goes by the part of the subgradient that keeps the sums of
// shares as they are.
func (r *easing) moveShares(gap float64) {
	used := r.touched[:0]
	for ch, stint := range r.visitStints() {
		paid := r.doors != nil && r.doors[int(stint)*len(r.access)+int(ch.access)] != undecided
		sure := r.stints[stint].sure
		if paid && sure {
			continue
		}
		for c := ch.top; c != ch.below; c = r.cells[c].prev {
			cell := &r.cells[c]
			if at := cell.opening; !paid && at != 0 && r.prices[r.thingOf[at]] > 0 {
				used = append(used, at)
			}
			for _, at := range [...]int32{cell.stay, cell.hosePay} {
				if !sure && at != 0 && r.prices[r.thingOf[at]] > 0 {
					used = append(used, at)
				}
			}
		}
	}
	r.touched = used
	for _, at := range used {
		r.count[r.thingOf[at]]++
	}
	square := 0.0
	for _, at := range used {
		t := r.thingOf[at]
		square += 1 - float64(r.count[t])/float64(len(r.live[t]))
	}
	if square > 1e-9 {
		for _, at := range used {
			r.share[at] += gap / square
		}
	}
	for _, at := range used {
		if t := r.thingOf[at]; r.count[t] > 0 {
			r.count[t] = 0
			r.project(int(t))
		}
	}
}
