package route

import (
	"context"
	"slices"

	"linemap/internal/site"
)

// findLost finds the targets that only the decisions keep from being cleaned.
// dry are those for which the water did not last.
func (h *hand) findLost(dry []int) {
	h.lost = make([]bool, len(h.pipes))
	for p := range h.pipes {
		if h.own.reachable[p] && !h.c.reachable[p] && !slices.Contains(dry, p) {
			h.lost[p] = true
			h.report.Left = append(h.report.Left, h.site.Network.Pipes[p].ID)
		}
	}
}

// explain says why a lost target is not cleaned, and which decision to take
// back; not which one where there is no time to try.
func (h *hand) explain(p int, s *Shortfall, try bool) {
	if h.isOrdered {
		s.Reason, s.Cure = LeftOut, Cure{Kind: OwnOrder}
		return
	}
	s.Cure = Cure{Kind: FreeRun}
	runs := h.keep
	s.Reason = KeptByHand
	if h.barsAlone(p) {
		runs, s.Reason = h.bar, BarredByHand
	}
	for i := range runs {
		if try && h.cleans(h.without(runs[i].key), p) {
			s.Cure.Run, s.Cure.Name = runs[i].key, RunName(h.site, runs[i].key)
			return
		}
	}
}

// barsAlone tells whether the barred runs keep a target from being cleaned
// whatever is kept.
func (h *hand) barsAlone(p int) bool {
	if len(h.keep) == 0 || len(h.bar) == 0 {
		return len(h.keep) == 0
	}
	var none site.RunKey
	if h.tried[none] == nil {
		h.tried[none] = h.heeding(nil, h.bar)
	}
	return !h.cleans(h.tried[none], p)
}

// without is the catalogue with one decision taken back.
func (h *hand) without(key site.RunKey) *catalogue {
	c := h.tried[key]
	if c == nil {
		other := func(n named) bool { return n.key == key }
		c = h.heeding(slices.DeleteFunc(slices.Clone(h.keep), other), slices.DeleteFunc(slices.Clone(h.bar), other))
		h.tried[key] = c
	}
	return c
}

// cleans tells whether a plan of a catalogue cleans a target of which the plan
// made by hand does not.
func (h *hand) cleans(c *catalogue, p int) bool {
	if !c.reachable[p] || h.c.dropped == nil || !h.c.dropped[p] {
		return c.reachable[p]
	}
	// Candidates clean it, but perhaps not beside the rest.
	for {
		s := newSearch(context.Background(), c, nil)
		if s.construct(); s.best.feasible() {
			return true
		}
		if c.drop(s.leftOut()); !c.reachable[p] {
			return false
		}
	}
}
