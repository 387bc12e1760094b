package route

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
