package route

// setStints sets the stints and which may follow which.
func (r *easing) setStints(stints []stint, after []uint64) {
	r.stints, r.after = stints, after
	w := len(stints)
	n := len(r.targets) * w
	r.f, r.sum, r.out, r.pick = grow(r.f, n), grow(r.sum, n), grow(r.out, n), grow(r.pick, n)
	r.hang = grow(r.hang, len(r.spans)*w)
	r.raw, r.least = grow(r.raw, w), grow(r.least, w)
}

// stock are the choices of a stint.
func (r *easing) stock(stint int) *stock {
	if key := r.stints[stint].key; key != anyKey {
		return &r.pool.keyed[key]
	}
	return &r.pool.stock
}

// value solves the relaxed problem under the present shares.
func (r *easing) value() float64 {
	for _, c := range r.liveCells {
		cell := &r.cells[c]
		r.path[c] = r.path[cell.prev] + r.share[cell.opening]
		r.hold[c] = r.hold[cell.prev] + r.share[cell.stay] + r.share[cell.hosePay]
	}
	w := len(r.stints)
	r.work += 2 * (len(r.liveCells) + len(r.targets)*w)
	for j := range r.stints {
		o := r.stock(j)
		r.work += len(o.needed) + len(o.choices)
	}
	total := r.fixed
	for t := range r.water {
		total += r.water[t].fixed()
	}
	for p := len(r.targets) - 1; p >= 0; p-- {
		r.valueTarget(p)
		if r.up[p] < 0 {
			total += r.f[p*w]
		}
	}
	return total
}

func (r *easing) valueTarget(p int) {
	w := len(r.stints)
	f, sum, picked := r.f[p*w:][:w], r.sum[p*w:][:w], r.pick[p*w:][:w]
	clear(sum)
	for _, q := range r.kids[p] {
		for j, v := range r.f[int(q)*w:][:w] {
			sum[j] += v
		}
	}
	for j := range w {
		o := r.stock(j)
		hangSpans(r.problem, o, p, j, w, r.hang, r.sum, r.f)
		best, at := endless, int32(-1)
		for i := o.byLow[p].from; i < o.byLow[p].to; i++ {
			if v := r.valueOf(&o.choices[i], j); v < best {
				best, at = v, i
			}
		}
		r.least[j], r.raw[j] = best, eased{at, int32(j)}
	}
	for j := range w {
		may := r.after[j]
		if r.up[p] < 0 {
			may = ^uint64(0)
		}
		f[j] = endless
		for k, v := range r.least {
			if may>>k&1 != 0 && (v < f[j] || k == 0) {
				f[j], picked[j] = v, r.raw[k]
			}
		}
	}
}

// valueOf is what a choice in a stint costs with all that hangs off it.
func (r *easing) valueOf(ch *choice, stint int) float64 {
	v := r.timeOf(ch, stint)
	if r.atSpot != nil {
		w := &r.atSpot[r.keys[ch.key].spot]
		if r.water != nil {
			w = &r.water[r.stints[stint].stay]
		}
		v = v*w.time() + float64(ch.water)*w.draw()
	}
	return v + r.hang[int(ch.span)*len(r.stints)+stint]
}

// timeOf is the time that a choice takes in a stint, its shares included.
func (r *easing) timeOf(ch *choice, stint int) float64 {
	v := float64(ch.cost)
	if !r.stints[stint].sure {
		v += r.hold[ch.top] - r.hold[ch.below]
	}
	if r.doors != nil {
		switch r.doors[stint*len(r.access)+int(ch.access)] {
		case paidFor:
			return v
		case shut:
			return endless
		}
	}
	return v + r.path[ch.top] - r.path[ch.below]
}
