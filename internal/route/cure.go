package route

import (
	"cmp"
	"slices"

	"linemap/internal/unit"
)

// remedy is a cure for one pipe with its price, and the attempt that it mends:
// -1 for a new cleanout, which makes an attempt of its own. try says what the
// cure gains; nil for a cure that cannot be tried on this site.
type remedy struct {
	Cure
	price   float64
	attempt int
	try     func() gain
}

// cheapestCure returns the cheapest remedy that works for a pipe; those that
// can be tried on the site are.
func (e *explainer) cheapestCure(p int, tries []attempt) remedy {
	remedies := e.cleanouts(p)
	for i := range tries {
		remedies = append(remedies, e.remedies(i, &tries[i])...)
	}
	slices.SortStableFunc(remedies, func(a, b remedy) int {
		switch {
		case a.price != b.price:
			return cmp.Compare(a.price, b.price)
		case a.attempt < 0 || b.attempt < 0:
			return cmp.Compare(a.attempt, b.attempt)
		case tries[a.attempt].better(&tries[b.attempt]):
			return -1
		case tries[b.attempt].better(&tries[a.attempt]):
			return 1
		}
		return 0
	})
	for _, r := range remedies {
		if r.try == nil {
			return r
		}
		if e.hurried(e.ctx) {
			return remedy{Cure: Cure{Kind: NotSought}, attempt: -1}
		}
		if g := r.try(); g.reach[p] {
			r.Gains = g.length
			return r
		}
	}
	return remedy{Cure: Cure{Kind: ClearByHand}, attempt: -1}
}

// remedies lists what would mend an attempt, by all that is wrong with it.
func (e *explainer) remedies(i int, t *attempt) []remedy {
	prices := &e.tables.Cures
	var hose, pull, nozzle, blocked, branch bool
	for _, b := range t.broken {
		switch b.reason {
		case PullShort:
			pull = true
		case NoNozzle:
			nozzle = true
		case Blocked:
			blocked = true
		case BranchTurn:
			branch = true
		default:
			hose = true
		}
	}
	one := func(kind CureKind, price float64) []remedy {
		return []remedy{{Cure: Cure{Kind: kind}, price: price, attempt: i}}
	}
	switch {
	case blocked:
		return one(ClearByHand, prices.ClearByHand)
	case branch:
		return one(SmallerHose, prices.SteerableHose)
	case hose, !t.reelHolds() && (pull || nozzle):
		return one(SmallerHose, prices.SmallerHose)
	case nozzle:
		return one(OtherNozzle, prices.OtherNozzle)
	case pull:
		return one(StrongerRig, prices.StrongerRig)
	case t.reelHolds():
		if _, ok := e.overTank(t); !ok {
			return one(OtherNozzle, prices.OtherNozzle)
		}
		return one(MoreWater, 0)
	}
	return append(e.moreHose(i, t), one(SmallerHose, prices.SmallerHose)...)
}

// nearest is the shortest lay that a trailer beside an access leaves (common
// practice: reel to opening, a few steps).
var nearest = unit.Metres(2)

// moreHose lists the remedies for an attempt that only the reel stops.
func (e *explainer) moreHose(i int, t *attempt) []remedy {
	prices := &e.tables.Cures
	out := []remedy{{
		Cure: Cure{Kind: LongerHose, Length: t.over}, attempt: i,
		price: float64(t.over) * prices.HosePerMetre,
		try:   func() gain { return e.gainOfHose(t) },
	}}
	if lay := e.layTo(t.way.access, t.spot) - t.over; lay >= nearest {
		out = append(out, remedy{
			Cure: Cure{Kind: OtherSpot, Length: lay}, attempt: i, price: prices.NewSpot,
			try: func() gain { return e.gainFrom(e.withSpot(t.way.access, lay), t.way.access) },
		})
	}
	return out
}

// cleanouts lists new cleanouts for a pipe: on the lowest of the pipes not
// cleaned, going down from it, from which it can be reached; the lower, the
// more a cleanout gains.
func (e *explainer) cleanouts(p int) []remedy {
	var out []remedy
	for q := p; q >= 0 && e.missing[q]; q = e.g.Next[q] {
		g, known := e.cleanout[q]
		if !known {
			g = e.gainFrom(e.withCleanout(q))
			e.cleanout[q] = g
		}
		if !g.reach[p] {
			break
		}
		out = []remedy{{
			Cure: Cure{
				Kind: NewCleanout, Pipe: e.site.Network.Pipes[q].ID, Name: e.g.PipeName(q), At: e.pipes[q].length,
			},
			price: e.cutIn[q].price, attempt: -1,
			try: func() gain { return g },
		}}
	}
	return out
}

// overTank is how much larger the tank would have to be for an attempt that
// breaks no rule, at the least: for the pipe itself, or for one on the way
// there that cannot be cleaned either. It is false where no nozzle serves all
// that the run must clean.
func (e *explainer) overTank(t *attempt) (unit.Volume, bool) {
	var most unit.Volume
	for _, q := range t.path {
		if !e.missing[q] {
			continue
		}
		least, found := unit.Volume(0), false
		for _, i := range e.byLow[q] {
			col := &e.columns[i]
			end := &e.places[col.end]
			if !end.down && col.prev >= 0 || end.access != t.way.access || end.hose != t.way.hose {
				continue
			}
			if over, ok := e.columnOver(col, e.bestInflow(end)); ok && (!found || over < least) {
				least, found = over, true
			}
		}
		if !found {
			return 0, false
		}
		most = max(most, least)
	}
	return most, true
}

// columnOver is by how much the water of a column's largest pass is over the
// tank, where so much flows in; ok is false where a pass has no nozzle.
func (c *catalogue) columnOver(col *column, inflow unit.Flow) (over unit.Volume, ok bool) {
	passes, ok := c.passesThat(col, func(plannedPass) bool { return true })
	for _, p := range passes {
		need, _ := c.site.Rig.Tank.Need(c.draw(p), inflow, p.time.duration())
		over = max(over, need-c.site.Rig.Tank.Volume)
	}
	return over, ok
}
