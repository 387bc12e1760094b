package route

// chosen is a column made in one block of a sequence.
type chosen struct{ column, block int }

// cover finds the cheapest way to clean every reachable target in a fixed
// sequence of blocks, by dynamic programming over the forest of targets: the
// state of a target is the block in which the target below it became clean.
// Openings are charged as charge says; shared openings are the caller's care.
// Its buffers are reused from call to call.
type cover struct {
	*problem
	*pool
	seq   []blockKey
	key   []int32 // of each block
	width int     // blocks, and one more state for what is left out
	// f[p*width+j] is the cost of target p and all above it when the target
	// below is clean in block j; pick the choice behind it.
	f, sum []ticks // sum is over a target's kids
	pick   []pick
	hang   []ticks // by span and block: what hangs off the span's targets
	// charge[j*accesses+a] is what a run through access a in block j is charged;
	// where sharing is set it is charged its share alone.
	charge  []ticks
	sharing bool

	picks []pick // of the last call of trace
	left  []int  // targets that it could not clean
	stack []arrival
	// opened are the openings of picks, isOpen marks them; both as charge.
	opened []int
	isOpen []bool
	users  []ticks // how many picks go through an opening, as charge

	work int // done so far, in steps of the innermost loops
}

// pick is a choice made in a block; column is -1 for none.
type pick struct {
	column, span, block, access int32
	cost                        ticks // without its opening
}

// arrival is a target that was reached, the one below being clean in a block.
type arrival struct{ target, block int32 }

func newCover(p *problem) *cover { return &cover{problem: p, pool: p.newPool(p.all)} }

func grow[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n)
	}
	return s[:n]
}

// begin sets the sequence.
func (v *cover) begin(seq []blockKey) {
	v.seq = seq
	v.key = v.key[:0]
	for _, b := range seq {
		v.key = append(v.key, v.keyIndex(b))
	}
	v.width = len(seq) + 1
	v.f = grow(v.f, len(v.targets)*v.width)
	v.sum = grow(v.sum, len(v.targets)*v.width)
	v.pick = grow(v.pick, len(v.targets)*v.width)
	v.hang = grow(v.hang, len(v.spans)*v.width)
	n := len(v.access) * len(seq)
	v.charge, v.isOpen, v.users = grow(v.charge, n), grow(v.isOpen, n), grow(v.users, n)
	clear(v.isOpen)
	v.opened = v.opened[:0]
}

// chargeAll charges every opening in full to every run, but those of some runs;
// these are free.
func (v *cover) chargeAll(free []chosen) {
	v.sharing = false
	for j, k := range v.key {
		for a := range v.access {
			v.charge[j*len(v.access)+a] = v.openPrice(a, k)
		}
	}
	for _, r := range free {
		v.charge[r.block*len(v.access)+v.accessOf(r.column)] = 0
	}
}

// openPrice is what it costs to open an access from a key's spot.
func (p *problem) openPrice(access int, key int32) ticks {
	return p.things[p.openingOfKey(access, int(key))].price
}

// solve returns the least charged cost; at least [unreachable] where the
// sequence cannot clean everything.
func (v *cover) solve() ticks {
	v.work += v.size()
	var total ticks
	for p := len(v.targets) - 1; p >= 0; p-- {
		v.solveTarget(p)
		if v.up[p] < 0 {
			total += v.f[p*v.width]
		}
	}
	return total
}

// size is the work of one solve.
func (v *cover) size() int {
	n := 2 * len(v.targets) * v.width
	for _, k := range v.key {
		n += len(v.keyed[k].choices) + len(v.keyed[k].needed)
	}
	return n
}

func (v *cover) solveTarget(p int) {
	w := v.width
	f, sum, picked := v.f[p*w:(p+1)*w], v.sum[p*w:(p+1)*w], v.pick[p*w:(p+1)*w]
	clear(sum)
	for _, q := range v.kids[p] {
		for j, c := range v.f[int(q)*w:][:w] {
			sum[j] += c
		}
	}
	price := v.priceLeft(p)
	for j := range f {
		f[j], picked[j].column = price+sum[j], -1
	}
	for j, key := range v.key {
		stock := &v.keyed[key]
		of := stock.byLow[p]
		if of.from == of.to {
			continue
		}
		hangSpans(v.problem, stock, p, j, v.width, v.hang, v.sum, v.f)
		at := j * len(v.access)
		choices := stock.choices[of.from:of.to]
		for i := range choices {
			ch := &choices[i]
			c := ch.cost + v.hang[int(ch.span)*w+j]
			if v.sharing {
				c += ch.share
			} else {
				c += v.charge[at+int(ch.access)]
			}
			if c < f[j] {
				f[j], picked[j] = c, pick{ch.column, ch.span, int32(j), ch.access, ch.cost}
			}
		}
	}
	for j := w - 2; j >= 0; j-- {
		if f[j+1] <= f[j] {
			f[j], picked[j] = f[j+1], picked[j+1]
		}
	}
}

// priceLeft is the price of leaving a target out that no block can clean, so that
// a sequence that cleans more of the rest still counts as the better one. Runs kept
// by hand come before the rest.
func (p *problem) priceLeft(target int) ticks {
	if p.kept != nil && p.kept[p.targets[target]] {
		return unreachable * keptFirst
	}
	return unreachable
}

// trace follows what the last solve chose. It fills picks, in no useful order,
// opened and left, the targets that the sequence cannot clean.
func (v *cover) trace() {
	v.picks, v.left = v.picks[:0], v.left[:0]
	for _, i := range v.opened {
		v.isOpen[i] = false
	}
	v.opened = v.opened[:0]
	v.stack = v.stack[:0]
	for p, q := range v.up {
		if q < 0 {
			v.stack = append(v.stack, arrival{int32(p), 0})
		}
	}
	for len(v.stack) > 0 {
		at := v.stack[len(v.stack)-1]
		v.stack = v.stack[:len(v.stack)-1]
		got := v.pick[int(at.target)*v.width+int(at.block)]
		if got.column < 0 {
			v.left = append(v.left, v.targets[at.target])
			for _, q := range v.kids[at.target] {
				v.stack = append(v.stack, arrival{q, at.block})
			}
			continue
		}
		v.picks = append(v.picks, got)
		if i := v.opening(got); !v.isOpen[i] {
			v.isOpen[i] = true
			v.opened = append(v.opened, i)
		}
		for q := range v.hanging(got.span) {
			v.stack = append(v.stack, arrival{q, got.block})
		}
	}
}

// opening is the place of a pick's opening, as in charge.
func (v *cover) opening(p pick) int { return int(p.block)*len(v.access) + int(p.access) }

// runs are the picks of the last trace.
func (v *cover) runs() []chosen {
	out := make([]chosen, len(v.picks))
	for i, p := range v.picks {
		out[i] = chosen{int(p.column), int(p.block)}
	}
	return out
}

// price is the true cost of the picks of the last trace, without the day's own
// cost.
func (v *cover) price() ticks {
	var cost ticks
	for _, p := range v.picks {
		cost += p.cost
	}
	for _, i := range v.opened {
		cost += v.openPrice(i%len(v.access), v.key[i/len(v.access)])
	}
	return cost
}
