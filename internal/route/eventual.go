package route

import (
	"math/bits"
	"slices"
)

// eventual is the relaxed solution of an outline, looked at for what it still
// does that no day can do.
type eventual struct {
	used uint64 // stints
	// follows counts by stint and stint what is cleaned in the second right above
	// what is cleaned in the first.
	follows [][]int
	// lacks tells by stint and access how much of the price of an opening is not
	// paid in shares, and hoses the same by stint.
	lacks, hoses []float64
}

// look looks at the relaxed solution of a node with an outline.
func (s *search) look(n *node) *eventual {
	r, stints := s.relax, n.day.stints
	e := &eventual{
		follows: make([][]int, len(stints)),
		lacks:   make([]float64, len(stints)*len(s.access)), hoses: make([]float64, len(stints)),
	}
	for i := range e.follows {
		e.follows[i] = make([]int, len(stints))
	}
	opens := make([]bool, len(e.lacks))
	for ch, j := range r.visitStints() {
		if e.used>>j&1 == 0 && !stints[j].sure {
			e.hoses[j] = float64(s.hoseChange())
		}
		e.used |= 1 << j
		if !stints[j].sure {
			e.hoses[j] -= r.hold[ch.top] - r.hold[ch.below]
		}
		i := int(j)*len(s.access) + int(ch.access)
		if n.doors == nil || n.doors[i] == undecided {
			if !opens[i] {
				opens[i] = true
				e.lacks[i] += float64(s.openPrice(int(ch.access), ch.key))
			}
			e.lacks[i] -= r.path[ch.top] - r.path[ch.below]
		}
		for q := range s.hanging(ch.span) {
			if at := r.pick[int(q)*len(stints)+int(j)]; at.choice >= 0 {
				e.follows[j][at.stint]++
			}
		}
	}
	return e
}

// idle is a stint of a stay in which nothing is done, -1 where there is none.
func (e *eventual) idle(o *outline) int {
	busy := make([]bool, len(o.stays))
	for j, st := range o.stints {
		if st.sure || e.used>>j&1 != 0 {
			busy[st.stay] = true
		}
	}
	return slices.IndexFunc(o.stints, func(st stint) bool { return !busy[st.stay] })
}

// mostOf is the place of the most in a list that is more than a rounding error; -1
// where none is.
func mostOf(list []float64) int {
	at, most := -1, 1e-3
	for i, v := range list {
		if v > most {
			at, most = i, v
		}
	}
	return at
}

// conflict finds two stints of which each follows the other, or else two in a
// ring of stints that follow each other; ok is false where a day can do what the
// solution does.
func (e *eventual) conflict(o *outline) (a, b int, ok bool) {
	most := 0
	for i := range e.follows {
		for j := range i {
			if n := min(e.follows[i][j], e.follows[j][i]); n > most {
				a, b, most = i, j, n
			}
		}
	}
	if most > 0 {
		return a, b, true
	}
	// Peel off the stints that follow none of those left.
	left := e.used
	for again := true; again; {
		again = false
		for rest := left; rest > 0; rest &= rest - 1 {
			j := bits.TrailingZeros64(rest)
			free := true
			for other := left &^ (1 << j); other > 0; other &= other - 1 {
				i := bits.TrailingZeros64(other)
				free = free && e.follows[i][j] == 0 && o.before[i]>>j&1 == 0
			}
			if free {
				left &^= 1 << j
				again = true
			}
		}
	}
	for rest := left; rest > 0; rest &= rest - 1 {
		i := bits.TrailingZeros64(rest)
		for other := left; other > 0; other &= other - 1 {
			j := bits.TrailingZeros64(other)
			if n := e.follows[i][j]; n > most && o.unordered(i, j) {
				a, b, most = i, j, n
			}
		}
	}
	return a, b, most > 0
}
