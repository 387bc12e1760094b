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
	// blocks are the keys of the blocks that come first, in order; wild are the
	// keys that may follow in no order, in one last block that stands for all
	// that may come. Each target is cleaned in no earlier block than the one
	// below it.
	blocks []int32
	wild   uint64
	width  int // blocks, the last included
	// doors tells, by block and access, what is decided of an opening.
	doors  []door
	fixed  float64
	prices []float64 // by thing
	share  []float64
	best   []float64 // the shares of the best round

	liveCells []int32
	live      [][]int32 // by thing, its shares that some choice pays
	// By cell, the shares of openings up to it, and all shares: a run in a block
	// that is decided on pays the first, one in the last block the other.
	path, full []float64
	// By target and the block in which the one below is clean: the cost of it and
	// all above, of its kids, what is chosen, and the cost of all else.
	f, sum, out []float64
	pick        []eased
	hang        []float64 // by span and block
	thingOf     []int32   // by share
	moved       []bool    // by thing
	touched     []int32
	stack       []arrival
	sorted      []float64

	work  int // done so far, in steps of the innermost loops
	marks []bool
}

func newEasing(p *problem, t *tour) *easing {
	r := &easing{
		problem: p, tour: t, prices: make([]float64, len(p.things)),
		share: make([]float64, p.shares), best: make([]float64, p.shares),
		live: make([][]int32, len(p.things)), path: make([]float64, len(p.cells)), full: make([]float64, len(p.cells)),
		thingOf: make([]int32, p.shares),
		moved:   make([]bool, len(p.things)), marks: make([]bool, max(p.shares, len(p.cells))),
	}
	for i, t := range p.things {
		for s := t.from; s < t.to; s++ {
			r.thingOf[s] = int32(i)
		}
	}
	return r
}

// priceDay prices all things where some spots and keys are used in any case. The
// day then costs at least the tour of the spots, and more for each further spot
// and hose.
func (r *easing) priceDay(spots int, in uint64) {
	r.priceOpenings()
	for s := range r.spots {
		r.prices[r.stayAt(s)] = float64(r.tour.spot - r.creditAt(s) - r.tour.hose)
	}
	r.fixed = float64(r.tour.ends - r.tour.spot)
	if spots != 0 {
		r.fixed = float64(r.tour.day(r.problem, spots, in))
	}
	for k, key := range r.keys {
		r.prices[r.hoseAt(k)] = float64(r.tour.hose)
		if in>>k&1 != 0 {
			r.prices[r.hoseAt(k)] = 0
		}
		if spots>>r.tour.of[key.spot]&1 != 0 {
			r.prices[r.stayAt(key.spot)] = 0
		}
	}
}

// priceOpenings prices the openings and nothing else.
func (r *easing) priceOpenings() {
	r.fixed = 0
	for i := range r.prices {
		r.prices[i] = float64(r.things[i].price) // 0 for all that is no opening
	}
}

// priceMore prices the openings, and what it takes to come back to some keys,
// where the whole day costs at least fixed.
func (r *easing) priceMore(fixed ticks, again uint64) {
	r.priceOpenings()
	r.fixed = float64(fixed)
	for k := range r.keys {
		if again>>k&1 != 0 {
			r.prices[r.hoseAt(k)] = float64(r.tour.hose)
		}
	}
}

// begin sets the choices in play, and spreads every price over the targets that
// they can serve.
func (r *easing) begin(o *pool) {
	r.pool, r.doors = o, nil
	r.inOrder(nil, ^uint64(0))
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
	clear(r.full)
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

// bound runs the subgradient method and returns the best bound found. upper is
// the cost of a known plan, 0 for none; the method stops where no plan can be
// cheaper.
func (r *easing) bound(ctx context.Context, upper ticks, rounds int) ticks {
	best, theta, idle := math.Inf(-1), 1.0, 0
	copy(r.best, r.share)
	for range rounds {
		v := r.value()
		if v > best+1e-9 {
			best, idle = v, 0
			copy(r.best, r.share)
		} else if idle++; idle >= 6 {
			theta, idle = theta/2, 0
		}
		goal := float64(upper)
		if upper == 0 {
			goal = best * 1.05
		} else if best > goal-1+1e-4 {
			break
		}
		if v >= endless/2 || ctx.Err() != nil {
			break
		}
		r.moveShares(theta * (goal - v))
	}
	copy(r.share, r.best)
	return roundUp(best)
}

// roundUp is the least whole cost that is no less than a bound.
func roundUp(v float64) ticks {
	if v >= endless/2 {
		return unreachable
	}
	return max(0, ticks(math.Ceil(v-1e-4)))
}

// moveShares shifts shares to the targets that were cleaned with each thing.
func (r *easing) moveShares(gap float64) {
	used := r.touched[:0]
	for ch, block := range r.visitBlocks() {
		if r.doors != nil && r.doors[int(block)*len(r.access)+int(ch.access)] != undecided {
			continue
		}
		for c := ch.top; c != ch.below; c = r.cells[c].prev {
			cell := &r.cells[c]
			for i, at := range [...]int32{cell.opening, cell.stay, cell.hosePay} {
				if i > 0 && int(block) < len(r.blocks) {
					break
				}
				if at != 0 && r.prices[r.thingOf[at]] > 0 {
					used = append(used, at)
				}
			}
		}
	}
	r.touched = used
	if len(used) == 0 {
		return
	}
	step := gap / float64(len(used))
	for _, at := range used {
		r.share[at] += step
		r.moved[r.thingOf[at]] = true
	}
	for _, at := range used {
		if t := r.thingOf[at]; r.moved[t] {
			r.moved[t] = false
			r.project(int(t))
		}
	}
}
