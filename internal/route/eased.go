package route

import "iter"

// eased is a choice made in a stint, by its place among those of the stint.
type eased struct{ choice, stint int32 }

// visitStints goes through the choices of the relaxed solution and their stints.
func (r *easing) visitStints() iter.Seq2[*choice, int32] {
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
			got := r.pick[int(at.target)*len(r.stints)+int(at.block)]
			if got.choice < 0 {
				continue
			}
			o := r.stock(int(got.stint))
			ch := &o.choices[got.choice]
			for q := range r.hanging(ch.span) {
				r.stack = append(r.stack, arrival{q, got.stint})
			}
			if !yield(ch, got.stint) {
				return
			}
		}
	}
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
