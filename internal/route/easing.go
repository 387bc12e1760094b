package route

import (
	"context"
	"iter"
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

// eased is a choice made in a block, by its place among those of the block.
type eased struct{ choice, block int32 }

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

// inOrder sets the blocks.
func (r *easing) inOrder(seq []blockKey, wild uint64) {
	r.blocks, r.wild = r.blocks[:0], wild
	for _, b := range seq {
		r.blocks = append(r.blocks, r.keyIndex(b))
	}
	r.width = len(seq)
	if wild != 0 {
		r.width++
	}
	n := len(r.targets) * r.width
	r.f, r.sum, r.out, r.pick = grow(r.f, n), grow(r.sum, n), grow(r.out, n), grow(r.pick, n)
	r.hang = grow(r.hang, len(r.spans)*r.width)
}

// stock are the choices of a block, and the keys of which they count.
func (r *easing) stock(block int) (*stock, uint64) {
	if block < len(r.blocks) {
		return &r.pool.keyed[r.blocks[block]], ^uint64(0)
	}
	return &r.pool.stock, r.wild
}

// value solves the relaxed problem under the present shares.
func (r *easing) value() float64 {
	for _, c := range r.liveCells {
		cell := &r.cells[c]
		r.path[c] = r.path[cell.prev] + r.share[cell.opening]
		r.full[c] = r.full[cell.prev] + r.share[cell.opening] + r.share[cell.stay] + r.share[cell.hosePay]
	}
	r.work += 2 * (len(r.liveCells) + len(r.targets)*r.width)
	for j := range r.width {
		o, _ := r.stock(j)
		r.work += len(o.needed) + len(o.choices)
	}
	total := r.fixed
	for p := len(r.targets) - 1; p >= 0; p-- {
		r.valueTarget(p)
		if r.up[p] < 0 {
			total += r.f[p*r.width]
		}
	}
	return total
}

func (r *easing) valueTarget(p int) {
	w := r.width
	f, sum, picked := r.f[p*w:][:w], r.sum[p*w:][:w], r.pick[p*w:][:w]
	clear(sum)
	for _, q := range r.kids[p] {
		for j, v := range r.f[int(q)*w:][:w] {
			sum[j] += v
		}
	}
	for j := range w {
		o, keys := r.stock(j)
		r.hangSpans(o, p, j)
		best, at := endless, int32(-1)
		for i := o.byLow[p].from; i < o.byLow[p].to; i++ {
			ch := &o.choices[i]
			if v := r.valueOf(ch, j); v < best && keys>>ch.key&1 != 0 {
				best, at = v, i
			}
		}
		f[j], picked[j] = best, eased{at, int32(j)}
	}
	for j := w - 2; j >= 0; j-- {
		if f[j+1] < f[j] {
			f[j], picked[j] = f[j+1], picked[j+1]
		}
	}
}

// hangSpans finds what hangs in a block off the targets of the spans with a low
// target that some choices need.
func (r *easing) hangSpans(of *stock, low, block int) {
	w := r.width
	for _, s := range of.needed[of.neededOf[low].from:of.neededOf[low].to] {
		sp := &r.spans[s]
		top := int(sp.top)*w + block
		if sp.prev < 0 {
			r.hang[int(s)*w+block] = r.sum[top]
		} else {
			r.hang[int(s)*w+block] = r.hang[int(sp.prev)*w+block] - r.f[top] + r.sum[top]
		}
	}
}

func (r *easing) valueOf(ch *choice, block int) float64 {
	v := float64(ch.cost) + r.hang[int(ch.span)*r.width+block]
	if r.doors != nil {
		switch r.doors[block*len(r.access)+int(ch.access)] {
		case paidFor:
			return v
		case shut:
			return endless
		}
	}
	if block < len(r.blocks) {
		return v + r.path[ch.top] - r.path[ch.below]
	}
	return v + r.full[ch.top] - r.full[ch.below]
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

// visitPicks goes through the choices of the relaxed solution.
func (r *easing) visitPicks() iter.Seq[*choice] {
	return func(yield func(*choice) bool) {
		for ch := range r.visitBlocks() {
			if !yield(ch) {
				return
			}
		}
	}
}

// visitBlocks goes through the choices of the relaxed solution and their blocks.
func (r *easing) visitBlocks() iter.Seq2[*choice, int32] {
	return func(yield func(*choice, int32) bool) {
		r.stack = r.stack[:0]
		for p, q := range r.up {
			if q < 0 {
				r.stack = append(r.stack, arrival{int32(p), 0})
			}
		}
		for len(r.stack) > 0 {
			at := r.stack[len(r.stack)-1]
			r.stack = r.stack[:len(r.stack)-1]
			got := r.pick[int(at.target)*r.width+int(at.block)]
			if got.choice < 0 {
				continue
			}
			o, _ := r.stock(int(got.block))
			ch := &o.choices[got.choice]
			for q := range r.hanging(ch.span) {
				r.stack = append(r.stack, arrival{q, got.block})
			}
			if !yield(ch, got.block) {
				return
			}
		}
	}
}

// usedKeys are the keys of the relaxed solution.
func (r *easing) usedKeys() (mask uint64) {
	for ch := range r.visitPicks() {
		mask |= 1 << ch.key
	}
	return mask
}

// completions are, by choice of the pool, what the relaxed solution costs at the
// present shares with that choice in it: what the choice and all above it costs
// and, at the least, all else.
func (r *easing) completions() []float64 {
	total := r.value()
	w := r.width
	with := make([]float64, len(r.pool.choices))
	for i := range with {
		with[i] = endless
	}
	for p := range r.targets {
		f, out := r.f[p*w:][:w], r.out[p*w:][:w]
		if r.up[p] < 0 {
			for j := range out {
				out[j] = endless
			}
			out[0] = total - f[0]
		}
		for j := range out {
			// What is below may be clean before.
			if j > 0 {
				out[j] = min(out[j], out[j-1])
			}
			r.completeBlock(p, j, out[j], with)
		}
	}
	return with
}

// completeBlock completes the choices for a target in a block, where all else
// costs out.
func (r *easing) completeBlock(p, j int, out float64, with []float64) {
	w := r.width
	o, keys := r.stock(j)
	for i := o.byLow[p].from; i < o.byLow[p].to; {
		// Choices of one span stand together.
		s, least := o.choices[i].span, endless
		for ; i < o.byLow[p].to && o.choices[i].span == s; i++ {
			ch := &o.choices[i]
			if keys>>ch.key&1 == 0 {
				continue
			}
			at := i
			if o.source != nil {
				at = o.source[i]
			}
			v := out + r.valueOf(ch, j)
			with[at], least = min(with[at], v), min(least, v)
		}
		for q := range r.hanging(s) {
			at := int(q)*w + j
			r.out[at] = min(r.out[at], least-r.f[at])
		}
	}
}

// fix returns the choices that a plan cheaper than upper may still use.
func (r *easing) fix(upper ticks) (left []choice) {
	for p := range r.targets {
		for j := range r.width {
			r.out[p*r.width+j] = endless
		}
	}
	for i, v := range r.completions() {
		if roundUp(v) < upper {
			left = append(left, r.pool.choices[i])
		}
	}
	return left
}

// shared returns the choices of a pool with their shares of their openings.
func (r *easing) shared(choices []choice) []choice {
	clear(r.path)
	for c := 1; c < len(r.cells); c++ {
		r.path[c] = r.path[r.cells[c].prev] + r.share[r.cells[c].opening]
	}
	for i := range choices {
		ch := &choices[i]
		ch.share = max(0, ticks(r.path[ch.top]-r.path[ch.below]-1e-6))
	}
	return choices
}
