package route

import (
	"slices"
)

// project moves the shares of a thing to the nearest ones that are not negative
// and sum to its price (Euclidean projection onto the simplex; Duchi et al. 2008).
func (r *easing) project(thing int) {
	live := r.live[thing]
	if len(live) == 0 {
		return
	}
	price := r.prices[thing]
	if price == 0 {
		for _, i := range live {
			r.share[i] = 0
		}
		return
	}
	r.sorted = r.sorted[:0]
	for _, i := range live {
		r.sorted = append(r.sorted, r.share[i])
	}
	slices.Sort(r.sorted)
	var sum, cut float64
	for n, i := 1, len(r.sorted)-1; i >= 0; n, i = n+1, i-1 {
		v := r.sorted[i]
		sum += v
		c := (sum - price) / float64(n)
		if v <= c {
			break
		}
		cut = c
	}
	for _, i := range live {
		r.share[i] = max(0, r.share[i]-cut)
	}
}
