package route

import (
	"slices"
)

// shares splits one price over targets.
type shares struct {
	price float64
	of    []float64 // by pipe; nil where the price is nothing
	over  []int     // the targets that can carry a share
}

// spread gives every price equal shares over the targets it can serve.
func (r *relaxation) spread() {
	mark := func(s *shares, p int) {
		if s.price <= 0 {
			return
		}
		if s.of == nil {
			s.of = make([]float64, len(r.pipes))
		}
		if s.of[p] == 0 {
			s.of[p] = 1
			s.over = append(s.over, p)
		}
	}
	for i := range r.columns {
		col := &r.columns[i]
		end := &r.places[col.end]
		if !r.reachable[col.last] {
			continue
		}
		mark(&r.access[end.access], col.last)
		for s := range r.spots {
			if end.set&(1<<s) != 0 {
				mark(&r.spot[s], col.last)
				mark(&r.hose[s][end.hose], col.last)
			}
		}
	}
	r.each(func(s *shares) {
		for _, p := range s.over {
			s.of[p] = s.price / float64(len(s.over))
		}
	})
}

// each visits everything that is paid once and can be used.
func (r *relaxation) each(do func(*shares)) {
	for a := range r.access {
		if r.access[a].of != nil {
			do(&r.access[a])
		}
	}
	for s := range r.spot {
		if r.spot[s].of != nil {
			do(&r.spot[s])
		}
		for h := range r.hose[s] {
			if r.hose[s][h].of != nil {
				do(&r.hose[s][h])
			}
		}
	}
}

func (s *shares) at(p int) float64 {
	if s.of == nil {
		return 0
	}
	return s.of[p]
}

// project moves the shares to the nearest ones that are not negative and sum
// to the price (Euclidean projection onto the simplex; Duchi et al. 2008).
func (s *shares) project() {
	sorted := make([]float64, 0, len(s.over))
	for _, p := range s.over {
		sorted = append(sorted, s.of[p])
	}
	slices.Sort(sorted)
	slices.Reverse(sorted)
	var sum, cut float64
	for i, v := range sorted {
		sum += v
		if c := (sum - s.price) / float64(i+1); v-c > 0 {
			cut = c
		}
	}
	for _, p := range s.over {
		s.of[p] = max(0, s.of[p]-cut)
	}
}
