package route

import "slices"

// rough finds a good sequence of blocks in little time. It charges every run a
// part of its opening, and knows by target what the last blocks of its sequence cost
// it, so that a change near the front of the day is cheap to look at.
type rough struct {
	*problem
	keys []blockKey   // that there are choices for
	runs [][]roughRun // by key, by low target
	of   [][]bounds   // by key and low target
	seq  []blockKey
	// ends[i][p] is the cost of target p and all above it with the last i blocks of
	// the sequence, where the target below is clean before.
	ends         [][]ticks
	total        ticks
	f, sum, hang []ticks // of a change looked at
	work         int     // in steps of the innermost loops
}

// roughRun is a span with the least cost of cleaning it in blocks of one key;
// prev is the place of the span without the top, -1 for none.
type roughRun struct {
	cost      ticks
	prev, top int32
}

func newRough(p *problem, all *pool) *rough {
	o := &rough{
		problem: p, runs: make([][]roughRun, len(p.keys)), of: make([][]bounds, len(p.keys)),
		f: make([]ticks, len(p.targets)), sum: make([]ticks, len(p.targets)),
	}
	place := make([]int32, len(p.spans))
	most := 0
	for k := range p.keys {
		stock := &all.keyed[k]
		if len(stock.choices) > 0 {
			o.keys = append(o.keys, p.keys[k])
		}
		o.of[k] = stock.neededOf
		runs := make([]roughRun, len(stock.needed))
		for i, s := range stock.needed {
			place[s] = int32(i)
			runs[i] = roughRun{cost: unreachable, prev: -1, top: p.spans[s].top}
			if prev := p.spans[s].prev; prev >= 0 {
				runs[i].prev = place[prev]
			}
		}
		for i := range stock.choices {
			ch := &stock.choices[i]
			at := &runs[place[ch.span]]
			at.cost = min(at.cost, ch.cost+ch.share)
		}
		o.runs[k] = runs
		most = max(most, len(runs))
	}
	o.hang = make([]ticks, most)
	none := make([]ticks, len(p.targets))
	for q := len(none) - 1; q >= 0; q-- {
		none[q] = p.priceLeft(q)
		for _, kid := range p.kids[q] {
			none[q] += none[kid]
		}
	}
	o.ends = [][]ticks{none}
	o.total = o.totalOf(nil, none)
	return o
}

// totalOf is the cost of a whole day.
func (o *rough) totalOf(seq []blockKey, f []ticks) ticks {
	total := o.dayCost(seq)
	for p, below := range o.up {
		if below < 0 {
			total += f[p]
		}
	}
	return total
}

// before puts a block of a key before the blocks that f knows of.
func (o *rough) before(key int32, f []ticks) {
	runs, of := o.runs[key], o.of[key]
	o.work += len(runs) + 2*len(f)
	for p := len(f) - 1; p >= 0; p-- {
		var sum ticks
		for _, q := range o.kids[p] {
			sum += f[q]
		}
		o.sum[p] = sum
		best := min(f[p], o.priceLeft(p)+sum)
		for i := of[p].from; i < of[p].to; i++ {
			r := &runs[i]
			hang := sum
			if r.prev >= 0 {
				hang = o.hang[r.prev] - f[r.top] + o.sum[r.top]
			}
			o.hang[i] = hang
			best = min(best, r.cost+hang)
		}
		f[p] = best
	}
}

// cost is what a sequence costs.
func (o *rough) cost(seq []blockKey) ticks {
	same, front := 0, 0 // blocks at the end and at the front that are as they are
	for same < min(len(seq), len(o.seq)) && seq[len(seq)-1-same] == o.seq[len(o.seq)-1-same] {
		same++
	}
	for front < min(len(seq), len(o.seq))-same && seq[front] == o.seq[front] {
		front++
	}
	copy(o.f, o.ends[same])
	for i := len(seq) - 1 - same; i >= 0; i-- {
		if i < front && slices.Equal(o.f, o.ends[len(o.seq)-1-i]) {
			copy(o.f, o.ends[len(o.seq)]) // the change makes no difference
			break
		}
		o.before(o.keyIndex(seq[i]), o.f)
	}
	return o.totalOf(seq, o.f)
}

// take makes a sequence the present one.
func (o *rough) take(seq []blockKey) {
	o.total = o.cost(seq)
	o.ends = o.ends[:1]
	for i := range seq {
		f := slices.Clone(o.ends[i])
		o.before(o.keyIndex(seq[len(seq)-1-i]), f)
		o.ends = append(o.ends, f)
	}
	o.seq = seq
}

// descend makes the change that helps most, as long as one helps and there is
// work left.
func (o *rough) descend(work int) {
	for {
		best, total := o.seq, o.total
		for next := range o.changes() {
			if o.work > work {
				break
			}
			if got := o.cost(next); got < total {
				best, total = next, got
			}
		}
		if total == o.total {
			return
		}
		o.take(best)
	}
}

// rough finds a good sequence of blocks for the choices of the pool with some work
// for each target.
func (s *search) rough(work int) []blockKey {
	o := newRough(s.problem, s.pool)
	o.descend(work * len(s.targets))
	s.cover.work += o.work
	return o.seq
}
