package route

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
		hangSpans(r.problem, o, p, j, r.width, r.hang, r.sum, r.f)
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
