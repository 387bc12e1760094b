package route

import "slices"

// A search in the dry knows of no water. Where its plan has the crew wait for water
// or fetch it, the search goes on in the wet: every plan is carried out and counts
// with all that it takes, and days are bounded with their water. What a stay
// draws comes from the tankful with which it begins, at the most, and else from
// what flows in while the crew works or waits; or, where nothing flows in, it is
// fetched, at no better rate than [catalogue.fetchRate]. So a stay lasts as long as
// its work takes, and as long as its water takes, whichever is longer; for any
// weights of the two that sum to one it lasts at least as long as they make it.

// stayWater is what is known of the water of a stay, and how much it weighs.
type stayWater struct {
	// perVolume is the least time that it takes to come by water, and over what may
	// be drawn before it counts.
	perVolume, over float64
	// flows tells whether water flows in by itself, so that all time at the spot
	// counts.
	flows bool
	// weight is from 0, where time alone counts, to 1.
	weight float64
	// sure is the time in it that is spent in any case.
	sure float64
}

// waterAt is the water of a stay at a spot.
func (c *catalogue) waterAt(spot int, first bool) stayWater {
	tank := &c.site.Rig.Tank
	w := stayWater{flows: c.spots[spot].inflow > 0, perVolume: c.fetchRate(spot)}
	if w.flows {
		w.perVolume = 1 / (float64(c.spots[spot].inflow) * Tick.Seconds())
	}
	if !first || tank.ArrivesFull {
		w.over = float64(tank.Volume)
	}
	w.over -= float64(tank.Stop)
	return w
}

// time is what a tick of work at the stay counts.
func (w *stayWater) time() float64 {
	if w.flows {
		return 1 - w.weight
	}
	return 1
}

// draw is what a unit of water that is drawn counts.
func (w *stayWater) draw() float64 { return w.weight * w.perVolume }

// fixed is what is to be added to a day for the stay, in which sure time counts in
// full.
func (w *stayWater) fixed() float64 { return (w.time()-1)*w.sure - w.draw()*w.over }

// soak goes on with a search in the wet. plan is the best solution carried out, to
// its end. It returns the best plan found.
func (s *search) soak(plan *Plan) *Plan {
	s.wet, s.plan = true, plan
	s.best.cost = toTicks(plan.Cost)
	s.priceWater()
	s.most = s.cover.work + s.relax.work + s.most/2
	root := &node{pool: s.newPool(s.all), share: s.root.share}
	s.evaluate(root, rootRounds)
	s.share(root)
	s.branch(root)
	return s.plan
}

// priceWater has every run pay for the water that is fetched for it, where nothing is
// known yet of the stay in which it is made, and gives each stay its tankful in
// credit. The credit is no more than a stay costs beyond a change of hose; where a
// tankful is worth more, all is charged less in proportion, so that no stay gains by
// being made.
func (s *search) priceWater() {
	stay := s.tour.spot - s.hoseChange()
	s.credit, s.relax.atSpot = make([]ticks, len(s.spots)), make([]stayWater, len(s.spots))
	for spot := range s.spots {
		w := s.waterAt(spot, false)
		if worth := w.perVolume * w.over; worth > 0 && !w.flows {
			s.credit[spot] = ticks(max(0, min(worth, float64(stay))))
			w.weight = float64(s.credit[spot]) / worth
		}
		w.over = 0
		s.relax.atSpot[spot] = w
	}
	s.tour = newTour(s.problem)
	s.relax.tour = s.tour
}

// creditAt is what a stay at a spot has paid for water in advance.
func (p *problem) creditAt(spot int) ticks {
	if p.credit == nil {
		return 0
	}
	return p.credit[spot]
}

// dayCost is what a sequence of blocks costs in itself, less the credit of its
// stays.
func (p *problem) dayCost(seq []blockKey) ticks {
	cost := p.catalogue.dayCost(seq)
	for i, b := range seq {
		if i == 0 || seq[i-1].spot != b.spot {
			cost -= p.creditAt(b.spot)
		}
	}
	return cost
}

// priced has choices pay for their water in the wet.
func (s *search) priced(choices []choice) []choice {
	for i := range choices {
		if s.wet {
			ch := &choices[i]
			w := &s.relax.atSpot[s.keys[ch.key].spot]
			ch.cost = ticks(float64(ch.cost)*w.time() + float64(ch.water)*w.draw())
		}
	}
	return choices
}

// keep keeps a solution where it is the best, and tells whether it is. In the wet
// its cost is that of the plan carried out.
func (s *search) keep(got solution) bool {
	if got = s.tidied(got); got.cost >= s.best.cost {
		return false
	}
	if s.wet {
		plan, runs := &Plan{}, s.fromOutlet(got)
		s.relax.work += carryWork + turnWork*s.waitLess(got.seq, runs)
		left := s.carryOut(got.seq, runs, plan)
		if got.cost = toTicks(plan.Cost); len(left) > 0 || got.cost >= s.best.cost {
			return false
		}
		s.plan = plan
	}
	s.best = got
	s.report()
	return true
}

// The work that it counts for to carry a plan out, and to look at a run while it is
// put in order.
const (
	carryWork = 50_000
	turnWork  = 5
)

// weigh moves the weights of the stays to where the longer of time and water
// counts.
func (r *easing) weigh(gap float64) {
	if r.water == nil {
		return
	}
	more := make([]float64, len(r.water)) // by which water takes longer than work
	for t := range r.water {
		w := &r.water[t]
		if more[t] = -w.perVolume * w.over; w.flows {
			more[t] -= w.sure
		}
	}
	for ch, j := range r.visitStints() {
		w := &r.water[r.stints[j].stay]
		more[r.stints[j].stay] += float64(ch.water) * w.perVolume
		if w.flows {
			more[r.stints[j].stay] -= r.timeOf(ch, int(j))
		}
	}
	square := 0.0
	for t, v := range more {
		w := &r.water[t]
		if w.weight == 0 && v < 0 || w.weight == 1 && v > 0 || w.perVolume == 0 {
			more[t] = 0
		}
		square += more[t] * more[t]
	}
	if square == 0 {
		return
	}
	for t, v := range more {
		r.water[t].weight = max(0, min(1, r.water[t].weight+gap*v/square))
	}
}

// setWater gives the stays of an outline their water.
func (s *search) setWater(n *node) {
	r := s.relax
	r.water = r.water[:0]
	if !s.wet {
		r.water = nil
		return
	}
	for t, spot := range n.day.stays {
		w := s.waterAt(spot, t == 0)
		w.sure = -float64(s.hoseChange())
		if w.weight = r.atSpot[spot].weight; n.weights != nil {
			w.weight = n.weights[t]
		}
		r.water = append(r.water, w)
	}
	for j, st := range n.day.stints {
		w := &r.water[st.stay]
		if st.sure {
			w.sure += float64(s.hoseChange())
		}
		for a := range s.access {
			if n.doors != nil && n.doors[j*len(s.access)+a] == paidFor {
				w.sure += float64(s.openPrice(a, st.key))
			}
		}
	}
}

// weights are those of the stays; nil in the dry.
func (r *easing) weights() (out []float64) {
	for t := range r.water {
		out = append(out, r.water[t].weight)
	}
	return slices.Clip(out)
}
