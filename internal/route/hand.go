package route

import (
	"context"
	"slices"

	"linemap/internal/site"
)

// hand plans under the decisions made by hand.
type hand struct {
	*model
	own       *catalogue // of the planner's own plan, without decisions
	report    *HandReport
	keep, bar []named // those that can be heeded
	order     []named
	isOrdered bool
	// lost are the targets that only the decisions keep from being cleaned.
	lost []bool
	// columns are the planner's own candidates by run.
	columns map[runID][]int
	// c is the catalogue that the plan was made from.
	c *catalogue
	// tried are the catalogues with one decision taken back.
	tried map[site.RunKey]*catalogue
}

// planByHand makes the plan under the decisions of the site, beside the
// planner's own.
func (c *catalogue) planByHand(ctx context.Context, own outcome, opt Options) *Plan {
	decisions := &c.site.ByHand
	h := newHand(c)
	h.report.Free, h.report.FreeProven = own.plan.Cost, own.plan.Proven
	h.read(decisions)
	var got outcome
	switch {
	case h.isOrdered:
		got = h.ordered()
	case len(own.left) == 0 && h.heeds(own.plan):
		h.c, got = c, outcome{plan: own.plan}
	default:
		got = h.search(ctx, opt)
	}
	plan := got.plan
	h.findLost(got.left)
	plan.Shortfalls = c.explain(ctx, got.left, c.waterFor(got.left), h)
	h.report.More = plan.Cost - h.report.Free
	plan.ByHand = h.report
	return plan
}

func newHand(own *catalogue) *hand {
	h := &hand{
		model: own.model, own: own, report: &HandReport{},
		columns: map[runID][]int{}, tried: map[site.RunKey]*catalogue{},
	}
	for i := range own.columns {
		id := own.runAt(own.columns[i].end)
		h.columns[id] = append(h.columns[id], i)
	}
	return h
}

// read finds the runs that were decided on, and reports what cannot be heeded.
func (h *hand) read(decisions *site.ByHand) {
	keep, unknownKeep := h.findAll(decisions.Keep)
	bar, unknownBar := h.findAll(decisions.Bar)
	order, unknownOrder := h.findAll(decisions.Order)
	for _, key := range slices.Concat(unknownKeep, unknownBar, unknownOrder) {
		if !slices.Contains(h.report.Unknown, key) {
			h.report.Unknown = append(h.report.Unknown, key)
		}
	}
	if h.isOrdered = len(decisions.Order) > 0; h.isOrdered {
		h.order = order
		h.bar = bar
		for i := range keep {
			if !slices.Contains(decisions.Order, keep[i].key) {
				h.broken(Breach{Key: keep[i].key, What: KeptLeftOut})
			}
		}
		return
	}
	for i := range keep {
		h.readKeep(&keep[i], decisions)
	}
	for i := range bar {
		if n := &bar[i]; h.possible(n) {
			h.bar = append(h.bar, *n)
		} else if !slices.Contains(decisions.Keep, n.key) {
			h.broken(h.own.whyNot(n))
		}
	}
}

func (h *hand) readKeep(n *named, decisions *site.ByHand) {
	switch {
	case slices.Contains(decisions.Bar, n.key):
		h.broken(Breach{Key: n.key, What: KeptAndBarred})
		return
	case !h.possible(n):
		h.broken(h.own.whyNot(n))
		return
	}
	for i := range h.keep {
		if !h.beside(n, &h.keep[i]) {
			h.broken(Breach{Key: n.key, What: InTheWay, Other: h.keep[i].key})
			return
		}
	}
	h.keep = append(h.keep, *n)
}

// makers are the planner's own candidates that make a run.
func (h *hand) makers(n *named) (out []int) {
	for _, i := range h.columns[n.runID] {
		if n.spot >= 0 && h.own.madeFrom(i, n.spot) {
			out = append(out, i)
		}
	}
	return out
}

func (h *hand) possible(n *named) bool { return len(h.makers(n)) > 0 }

// beside tells whether two runs can both be made: each cleans its own last
// pipe and not the other's.
func (h *hand) beside(a, b *named) bool {
	return a.end != b.end && h.leaves(a, b.end) && h.leaves(b, a.end)
}

// leaves tells whether a run can be made that does not clean a pipe.
func (h *hand) leaves(n *named, pipe int) bool {
	return slices.ContainsFunc(h.makers(n), func(i int) bool { return !slices.Contains(h.own.chain(i), pipe) })
}

func (h *hand) broken(b Breach) { h.report.Broken = append(h.report.Broken, b) }

// heeds tells whether a plan keeps and bars what it should.
func (h *hand) heeds(p *Plan) bool {
	made := map[site.RunKey]bool{}
	for _, key := range p.Keys() {
		made[key] = true
	}
	return !slices.ContainsFunc(h.bar, func(n named) bool { return made[n.key] }) &&
		!slices.ContainsFunc(h.keep, func(n named) bool { return !made[n.key] })
}

// search looks for the best plan that keeps and bars what it should. Kept runs
// that cannot be made beside the rest are given up, the last named first.
func (h *hand) search(ctx context.Context, opt Options) outcome {
	for {
		h.c = h.heeding(h.keep, h.bar)
		if h.giveUp() {
			continue
		}
		got := h.c.plan(ctx, opt)
		if h.giveUp() {
			continue
		}
		made := got.plan.Keys()
		for i := range h.keep {
			if !slices.Contains(made, h.keep[i].key) {
				h.broken(Breach{Key: h.keep[i].key, What: OutOfWater})
			}
		}
		return got
	}
}

// giveUp frees a kept run that no plan makes beside the rest, and reports
// whether there was one. What stood only in its way is kept after all.
func (h *hand) giveUp() bool {
	for i := range slices.Backward(h.keep) {
		key := h.keep[i].key
		if h.c.reachable[h.keep[i].end] {
			continue
		}
		h.keep = slices.Delete(h.keep, i, i+1)
		told := h.report.Broken
		h.report.Broken = nil
		h.broken(Breach{Key: key, What: InTheWay})
		for _, b := range told {
			if b.Other != key {
				h.broken(b)
			} else if n, ok := h.find(b.Key); ok {
				h.readKeep(&n, &h.site.ByHand)
			}
		}
		return true
	}
	return false
}
