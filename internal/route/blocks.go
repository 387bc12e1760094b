package route

// blockKey is one spot and one hose, by index.
type blockKey struct{ spot, hose int }

// unreachable stands for a cost that no plan has; sums of it stay exact.
const unreachable ticks = 1 << 40

// keptFirst is how many other targets are left out before a run kept by hand
// is, in a sequence that cannot have all.
const keptFirst = 1 << 8

// dayCost is what a sequence of blocks costs in itself: set-ups, moves, hose
// changes and the pack-ups.
func (m *model) dayCost(seq []blockKey) ticks {
	if len(seq) == 0 {
		return 0
	}
	crew := &m.site.Rig.Crew
	setUp, packUp := toTicks(minutes(crew.SetUp)), toTicks(minutes(crew.PackUp))
	cost := setUp + packUp
	for i := 1; i < len(seq); i++ {
		if seq[i].spot == seq[i-1].spot {
			cost += toTicks(minutes(crew.HoseChange))
			continue
		}
		cost += packUp + m.tow(m.spots[seq[i-1].spot].spot.At, m.spots[seq[i].spot].spot.At) + setUp
	}
	return cost
}

// chosen is a column made in one block of a sequence.
type chosen struct{ column, block int }

// opening is an access opened in one block.
type opening struct{ access, block int }

// cover finds the cheapest way to clean every reachable target in a fixed
// sequence of blocks, by dynamic programming over the forest of targets: the
// state of a target is the block in which the target below it became clean.
// Openings are charged as charge says; shared openings are the caller's care.
// Its buffers are reused from call to call.
type cover struct {
	*catalogue
	seq []blockKey
	// f[p*(k+1)+j] is the cost of target p and all above it when the target
	// below is clean in block j; pick the choice behind it.
	f    []ticks
	sum  []ticks // over a target's children, same layout
	pick []chosen
	hang []ticks // by column and block: what hangs off the column's targets
	// charge[a*k+j] is what a run through access a in block j is charged, on
	// top of its share where sharing[a*k+j] is set; see share.
	charge  []ticks
	sharing []bool
	// bits[a*k+j] is the bit of block j's spot among the near spots of access a.
	bits []uint64
	// share[i] is a part of the price of column i's opening, such that the
	// shares of all runs through one opening never sum to more than its price.
	share []ticks
	// byHose lists the blocks of the sequence by hose.
	byHose [][]int
}

func newCover(c *catalogue) *cover {
	return &cover{catalogue: c, byHose: make([][]int, len(c.site.Rig.Hoses))}
}

func grow[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n)
	}
	return s[:n]
}

// begin sets the sequence and charges every opening in full to every run.
func (v *cover) begin(seq []blockKey) {
	k := len(seq)
	v.seq = seq
	v.f = grow(v.f, len(v.pipes)*(k+1))
	v.sum = grow(v.sum, len(v.pipes)*(k+1))
	v.pick = grow(v.pick, len(v.pipes)*(k+1))
	v.hang = grow(v.hang, len(v.columns)*k)
	v.charge = grow(v.charge, len(v.access)*k)
	v.sharing = grow(v.sharing, len(v.access)*k)
	v.bits = grow(v.bits, len(v.access)*k)
	clear(v.sharing)
	for h := range v.byHose {
		v.byHose[h] = v.byHose[h][:0]
	}
	for j, b := range seq {
		v.byHose[b.hose] = append(v.byHose[b.hose], j)
		for a := range v.access {
			v.charge[a*k+j], v.bits[a*k+j] = v.openCost(a, b.spot), v.bit(a, b.spot)
		}
	}
}

// solve returns the least charged cost; at least [unreachable] where the
// sequence cannot clean everything.
func (v *cover) solve() ticks {
	k := len(v.seq)
	for i := len(v.targets) - 1; i >= 0; i-- {
		v.solveTarget(v.targets[i])
	}
	var total ticks
	for _, r := range v.roots {
		total += v.f[r*(k+1)]
	}
	return total
}

func (v *cover) solveTarget(p int) {
	k := len(v.seq)
	f, sum, pick := v.f[p*(k+1):(p+1)*(k+1)], v.sum[p*(k+1):(p+1)*(k+1)], v.pick[p*(k+1):(p+1)*(k+1)]
	clear(sum)
	for _, q := range v.children[p] {
		for j, c := range v.f[q*(k+1) : (q+1)*(k+1)] {
			sum[j] += c
		}
	}
	// A target that no block can clean is left out at a price, so that a
	// sequence that cleans more of the rest still counts as the better one. Runs
	// kept by hand come before the rest.
	price := unreachable
	if v.kept != nil && v.kept[p] {
		price *= keptFirst
	}
	for j := range f {
		f[j], pick[j] = price+sum[j], chosen{-1, -1}
	}
	for _, i := range v.byLow[p] {
		col := &v.columns[i]
		end := &v.places[col.end]
		for _, j := range v.byHose[end.hose] {
			h := v.sum[col.last*(k+1)+j]
			if col.prev >= 0 {
				off := col.last
				if end.down {
					off = v.columns[col.prev].low
				}
				h += v.hang[col.prev*k+j] - v.f[off*(k+1)+j]
			}
			v.hang[i*k+j] = h
			at := end.access*k + j
			if col.spots&v.bits[at] == 0 {
				continue
			}
			c := col.cost + v.charge[at] + h
			if v.sharing[at] {
				c += v.share[i]
			}
			if c < f[j] {
				f[j], pick[j] = c, chosen{i, j}
			}
		}
	}
	for j := k - 1; j >= 0; j-- {
		if f[j+1] <= f[j] {
			f[j], pick[j] = f[j+1], pick[j+1]
		}
	}
}

// runs lists what the last solve chose, in no useful order, and the targets
// that the sequence cannot clean.
func (v *cover) runs() (out []chosen, left []int) {
	k := len(v.seq)
	type todo struct{ target, block int }
	var stack []todo
	for _, r := range v.roots {
		stack = append(stack, todo{r, 0})
	}
	inChain := map[int]bool{}
	for len(stack) > 0 {
		t := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		ch := v.pick[t.target*(k+1)+t.block]
		if ch.column < 0 {
			left = append(left, t.target)
			for _, q := range v.children[t.target] {
				stack = append(stack, todo{q, t.block})
			}
			continue
		}
		out = append(out, ch)
		chain := v.chain(ch.column)
		clear(inChain)
		for _, p := range chain {
			inChain[p] = true
		}
		for _, p := range chain {
			for _, q := range v.children[p] {
				if !inChain[q] {
					stack = append(stack, todo{q, ch.block})
				}
			}
		}
	}
	return out, left
}

// openings lists the accesses that runs open, once for each block.
func (v *cover) openings(runs []chosen) map[opening]bool {
	out := map[opening]bool{}
	for _, r := range runs {
		out[opening{v.places[v.columns[r.column].end].access, r.block}] = true
	}
	return out
}

// price is the true cost of runs in the sequence, without the day's own cost.
func (v *cover) price(runs []chosen) ticks {
	var cost ticks
	for _, r := range runs {
		cost += v.columns[r.column].cost
	}
	for o := range v.openings(runs) {
		cost += v.openCost(o.access, v.seq[o.block].spot)
	}
	return cost
}
