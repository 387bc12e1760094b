package punch

import (
	"slices"

	"linemap/internal/rig"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/ui/desk"
)

// handRows are the decisions made by hand that break a rule or stand for
// nothing, in the words of the planner.
func handRows(d *desk.Desk, plan *desk.Planning) []row {
	h := plan.Plan.ByHand
	if h == nil {
		return nil
	}
	var rows []row
	add := func(key site.RunKey, say string, step *Step) {
		r := row{gravity: heed, place: "Decided by hand", ref: edit.PipeRef(key.End), step: step}
		r.add(say)
		rows = append(rows, r)
	}
	for i := range h.Broken {
		b := &h.Broken[i]
		add(b.Key, b.Say(plan.Site), release(d, b.Key, b.What))
	}
	for _, key := range h.Unknown {
		if allThere(plan.Site, key) { // the findings tell of the others
			add(key, "No way leads the "+route.RunName(plan.Site, key)+", so it is passed over", release(d, key, ""))
		}
	}
	return rows
}

// release returns the step that leaves to the planner again what was decided.
func release(d *desk.Desk, key site.RunKey, what route.BreachKind) *Step {
	do := func(make func(s *site.Site) (*edit.Edit, error)) func() error {
		return func() error {
			e, err := make(d.Site())
			if err == nil {
				d.Do(e)
			}
			return err
		}
	}
	switch what {
	case route.NotLowestFirst, route.CutShort, route.NothingLeft, route.OrderedBarred, route.KeptLeftOut:
		return &Step{Say: "Leave the order to the planner", Do: do(edit.ClearOrder)}
	}
	h := &d.Site().ByHand
	if !slices.Contains(h.Keep, key) && !slices.Contains(h.Bar, key) {
		return nil
	}
	return &Step{Say: "Leave the run to the planner", Do: do(func(s *site.Site) (*edit.Edit, error) { return edit.FreeRun(s, key) })}
}

// allThere reports whether a site has all that a run is named by.
func allThere(s *site.Site, key site.RunKey) bool {
	there := func(r edit.Ref) bool { return len(edit.Places(s, edit.Select(r))) > 0 }
	return there(edit.SpotRef(key.Spot)) && there(edit.NodeRef(key.Access)) && there(edit.PipeRef(key.End)) &&
		slices.ContainsFunc(s.Rig.Hoses, func(h rig.Hose) bool { return h.ID == key.Hose })
}
