package route

// completions are, by choice of the pool, what the relaxed solution costs at the
// present shares with that choice in it: what the choice and all above it costs
// and, at the least, all else.
func (r *easing) completions() []float64 {
	total := r.value()
	w := len(r.stints)
	with := make([]float64, len(r.pool.choices))
	for i := range with {
		with[i] = endless
	}
	for p := range r.targets {
		out := r.out[p*w:][:w]
		for j := range w {
			least := total - r.f[p*w]
			if r.up[p] >= 0 {
				least = endless
				for i, v := range out { // the stint in which what is below is clean
					if r.after[i]>>j&1 != 0 {
						least = min(least, v)
					}
				}
			}
			r.completeStint(p, j, least, with)
		}
	}
	return with
}

// completeStint completes the choices for a target in a stint, where all else
// costs out.
func (r *easing) completeStint(p, j int, out float64, with []float64) {
	w := len(r.stints)
	o := r.stock(j)
	for i := o.byLow[p].from; i < o.byLow[p].to; {
		// Choices of one span stand together.
		s, least := o.choices[i].span, endless
		for ; i < o.byLow[p].to && o.choices[i].span == s; i++ {
			ch := &o.choices[i]
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
	r.work += len(r.out) + len(r.pool.choices)
	for i := range r.out {
		r.out[i] = endless
	}
	for i, v := range r.completions() {
		if roundUp(v) < upper {
			left = append(left, r.pool.choices[i])
		}
	}
	return left
}
