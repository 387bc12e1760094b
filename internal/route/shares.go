package route

import (
	"cmp"
	"slices"
)

// shares are the prices of all that is paid once, each split over the targets
// that runs clean with it.
type shares struct {
	paid []paid
	of   []float64 // all shares, those of one thing side by side
	// By place of a target, from stay[first[place]] on for each near spot, the
	// shares that a run pays for cleaning the target there; pay is their sum.
	// Where a share is none it is the one at 0, which stays 0.
	first []int32
	stay  []stayShares
	pay   []float64

	used   []bool    // by share, whether the relaxed solution pays it
	way    []float64 // by share, the direction of the last step
	sorted []float64 // of project, reused
}

// stayShares are the shares of an access opened for a hose from a spot, of the
// spot, and of the hose at it.
type stayShares struct{ opening, spot, hose int32 }

// paid is one thing that is paid once: its price, and where its shares lie.
type paid struct {
	price    float64
	from, to int32
}

// prices are those of all that is paid once. Openings are priced access by
// access, near spot by near spot and hose by hose: each block opens for itself.
// Hoses are priced spot by spot.
type prices struct {
	openings, spots, hoses []float64
	first                  []int // by access, its first opening
}

func newPrices(c *catalogue) *prices {
	hoses := len(c.site.Rig.Hoses)
	p := &prices{spots: make([]float64, len(c.spots)), hoses: make([]float64, len(c.spots)*hoses)}
	for a := range c.access {
		p.first = append(p.first, len(p.openings))
		for _, n := range c.access[a].near {
			for range hoses {
				p.openings = append(p.openings, float64(n.open))
			}
		}
	}
	return p
}

// slot is where one thing's share for one target is asked for.
type slot struct {
	thing, pipe int32
	at          *int32
}

// spread gives every price equal shares over the targets that it can serve.
func (r *relaxation) spread(of *prices) {
	s := &r.shares
	s.of = []float64{0}
	s.first = make([]int32, len(r.places))
	hoses := len(r.site.Rig.Hoses)
	used := make([]bool, len(r.places))
	n := 0
	for i := range r.columns {
		if col := &r.columns[i]; r.reachable[col.last] && !used[col.end] {
			used[col.end] = true
			n += len(r.access[r.places[col.end].access].near)
		}
	}
	s.stay, s.pay = make([]stayShares, 0, n), make([]float64, n)
	all := slices.Concat(of.openings, of.spots, of.hoses)
	slots := make([]slot, 0, 3*n)
	ask := func(thing, pipe int, at *int32) {
		if all[thing] > 0 {
			slots = append(slots, slot{int32(thing), int32(pipe), at})
		}
	}
	for i := range r.places {
		if !used[i] {
			continue
		}
		p := &r.places[i]
		s.first[i] = int32(len(s.stay))
		for bit, near := range r.access[p.access].near {
			s.stay = append(s.stay, stayShares{})
			if stay := &s.stay[len(s.stay)-1]; p.set&(1<<bit) != 0 {
				ask(of.first[p.access]+bit*hoses+p.hose, p.pipe, &stay.opening)
				ask(len(of.openings)+near.spot, p.pipe, &stay.spot)
				ask(len(of.openings)+len(of.spots)+near.spot*hoses+p.hose, p.pipe, &stay.hose)
			}
		}
	}
	s.fill(slots, all)
}

// fill makes the shares that are asked for.
func (s *shares) fill(slots []slot, prices []float64) {
	slices.SortFunc(slots, func(a, b slot) int { return cmp.Or(cmp.Compare(a.thing, b.thing), cmp.Compare(a.pipe, b.pipe)) })
	s.paid = make([]paid, len(prices))
	for i, one := range slots {
		thing := &s.paid[one.thing]
		switch {
		case i == 0 || slots[i-1].thing != one.thing:
			*thing = paid{price: prices[one.thing], from: int32(len(s.of)), to: int32(len(s.of)) + 1}
			s.of = append(s.of, 0)
		case slots[i-1].pipe != one.pipe:
			thing.to++
			s.of = append(s.of, 0)
		}
		*one.at = int32(len(s.of)) - 1
	}
	for _, thing := range s.paid {
		for i := thing.from; i < thing.to; i++ {
			s.of[i] = thing.price / float64(thing.to-thing.from)
		}
	}
	s.used, s.way = make([]bool, len(s.of)), make([]float64, len(s.of))
}

// addUp sums what runs pay at each place.
func (s *shares) addUp() {
	for i, stay := range s.stay {
		s.pay[i] = s.of[stay.opening] + s.of[stay.spot] + s.of[stay.hose]
	}
}

// move makes a step of the subgradient method that is as long as the gap to a
// known plan asks for (Polyak): shares that are used grow, and the others of the
// same thing shrink by as much in all. Only those count that can: a step straight
// at the border, which is taken back at once, would make all others shorter. Each
// goes on in the direction of those before it as well, so that a share that is used
// now and then comes to rest between. It is false where nothing is left to move.
func (s *shares) move(gap float64) bool {
	var square float64
	for _, thing := range s.paid {
		square += s.turn(thing)
	}
	if square == 0 {
		return false
	}
	step := gap / square
	for i := range s.paid {
		thing := &s.paid[i]
		if thing.to-thing.from < 2 {
			continue
		}
		for j := thing.from; j < thing.to; j++ {
			s.of[j] += step * s.way[j]
		}
		s.project(thing)
	}
	return true
}

// turn finds the direction in which the shares of a thing are moved next, and
// returns the square of its length.
func (s *shares) turn(thing paid) (square float64) {
	var used, free float64
	for j := thing.from; j < thing.to; j++ {
		if s.used[j] {
			used++
		}
		if s.used[j] || s.of[j] > 0 {
			free++
		}
	}
	for j := thing.from; j < thing.to; j++ {
		s.way[j] *= keep
		if s.used[j] {
			s.way[j]++
		}
		if s.used[j] || s.of[j] > 0 {
			s.way[j] -= used / free
		}
		square += s.way[j] * s.way[j]
	}
	return square
}

// project moves the shares of a thing to the nearest ones that are not negative
// and sum to its price (Euclidean projection onto the simplex; Duchi et al. 2008).
func (s *shares) project(thing *paid) {
	of := s.of[thing.from:thing.to]
	s.sorted = append(s.sorted[:0], of...)
	slices.Sort(s.sorted)
	var sum, cut float64
	for i, v := range slices.Backward(s.sorted) {
		sum += v
		c := (sum - thing.price) / float64(len(of)-i)
		if v <= c {
			break
		}
		cut = c
	}
	for i, v := range of {
		of[i] = max(0, v-cut)
	}
}
