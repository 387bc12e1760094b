package edit

import (
	"slices"

	"linemap/internal/site"
)

// KeepRun has every plan make a run.
func KeepRun(s *site.Site, k site.RunKey) (*Edit, error) {
	return decide("keep run", s, func(h *site.ByHand) {
		h.Keep, h.Bar = with(h.Keep, k), without(h.Bar, k)
	})
}

// BarRun has no plan make a run, and takes it out of the order made by hand.
func BarRun(s *site.Site, k site.RunKey) (*Edit, error) {
	return decide("bar run", s, func(h *site.ByHand) {
		h.Keep, h.Bar = without(h.Keep, k), with(h.Bar, k)
		h.Order = without(h.Order, k)
	})
}

// FreeRun leaves it to the planner whether to make a run.
func FreeRun(s *site.Site, k site.RunKey) (*Edit, error) {
	return decide("free run", s, func(h *site.ByHand) {
		h.Keep, h.Bar = without(h.Keep, k), without(h.Bar, k)
	})
}

// KeepRuns has every plan make these runs, and leaves it to the planner whether
// to make others that were kept before.
func KeepRuns(s *site.Site, keys []site.RunKey) (*Edit, error) {
	return decide("keep all runs", s, func(h *site.ByHand) { h.Keep = slices.Clone(keys) })
}

// FreeRuns takes every decision made by hand back.
func FreeRuns(s *site.Site) (*Edit, error) {
	return decide("let the planner decide", s, func(h *site.ByHand) { *h = site.ByHand{} })
}

// OrderRuns says in which order the runs are made. Of a run that is named twice
// the first place holds; no runs at all leave the order to the planner.
func OrderRuns(s *site.Site, keys []site.RunKey) (*Edit, error) {
	var order []site.RunKey
	seen := make(map[site.RunKey]bool, len(keys))
	for _, k := range keys {
		if !seen[k] {
			order = append(order, k)
		}
		seen[k] = true
	}
	return decide("reorder runs", s, func(h *site.ByHand) { h.Order = order })
}

// ClearOrder leaves the order of the runs to the planner.
func ClearOrder(s *site.Site) (*Edit, error) {
	return decide("clear the order of runs", s, func(h *site.ByHand) { h.Order = nil })
}

// decide changes a copy of what was decided by hand, and takes it where it is
// another.
func decide(name string, s *site.Site, change func(*site.ByHand)) (*Edit, error) {
	return Make(name, s, func(d *Draft) error {
		h := s.ByHand.Clone()
		change(&h)
		return d.decided(h)
	})
}

func (d *Draft) decided(h site.ByHand) error {
	was := &d.site.ByHand
	if slices.Equal(h.Keep, was.Keep) && slices.Equal(h.Bar, was.Bar) && slices.Equal(h.Order, was.Order) {
		return nil
	}
	if err := site.Check(h); err != nil {
		return err
	}
	d.SetByHand(h)
	return nil
}

func with(list []site.RunKey, k site.RunKey) []site.RunKey {
	if slices.Contains(list, k) {
		return list
	}
	return append(list, k)
}

// without is a list without a run, nil where nothing is left: a file then says
// nothing of it.
func without(list []site.RunKey, k site.RunKey) []site.RunKey {
	return those(list, func(o site.RunKey) bool { return o != k })
}

// those is the part of a list for which keep holds, nil where it is empty. The
// list stays as it is.
func those(list []site.RunKey, keep func(site.RunKey) bool) []site.RunKey {
	var kept []site.RunKey
	for _, k := range list {
		if keep(k) {
			kept = append(kept, k)
		}
	}
	return kept
}
