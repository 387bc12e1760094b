package ui

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/site/edit"
)

// runMenu opens the menu of a run of the strip.
func (w *Window) runMenu(number int, at fyne.Position) {
	p := w.desk.Planning()
	if p.Plan == nil || p.Stale {
		w.status.note("The sketch has changed; wait for its plan.")
		return
	}
	var run *route.Run
	var key site.RunKey
	for b := range p.Plan.Blocks {
		for r := range p.Plan.Blocks[b].Runs {
			if o := &p.Plan.Blocks[b].Runs[r]; o.Number == number {
				run, key = o, o.Key(&p.Plan.Blocks[b])
			}
		}
	}
	if run == nil {
		return
	}
	s := w.desk.Site()
	item := func(name string, do func()) *fyne.MenuItem { return fyne.NewMenuItem(name, w.guard(do)) }
	var items []*fyne.MenuItem
	if slices.Contains(s.ByHand.Keep, key) {
		items = append(items, item("Let the planner decide on this run", func() { w.do(edit.FreeRun(s, key)) }))
	} else {
		items = append(items, item("Keep this run", func() { w.do(edit.KeepRun(s, key)) }))
	}
	items = append(items,
		item("Never make this run", func() { w.do(edit.BarRun(s, key)) }),
		fyne.NewMenuItemSeparator(),
		item("One earlier", func() { w.shift(key, -1) }),
		item("One later", func() { w.shift(key, 1) }),
		item("First of all", func() { w.shift(key, -len(p.Plan.Keys())) }),
		item("Last of all", func() { w.shift(key, len(p.Plan.Keys())) }),
		fyne.NewMenuItemSeparator(),
		item("Show it on the board", func() { w.showRun(run) }),
		item("Why it is made like this", func() { w.whyRun(p.Plan, number) }),
	)
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu(fmt.Sprintf("Run %d", number), items...), w.win.Canvas(), at)
}

// shift moves a run in the order made by hand, which begins as the plan's own.
func (w *Window) shift(key site.RunKey, by int) {
	order := w.desk.Planning().Plan.Keys()
	from := slices.Index(order, key)
	if from < 0 {
		return
	}
	to := min(max(from+by, 0), len(order)-1)
	order = slices.Insert(slices.Delete(order, from, from+1), to, key)
	w.do(edit.OrderRuns(w.desk.Site(), order))
}

func (w *Window) showRun(r *route.Run) {
	var refs []edit.Ref
	for _, leg := range r.Path {
		refs = append(refs, w.pipeRef(leg.Pipe)...)
	}
	w.board.ZoomTo(refs...)
	w.board.Light(r.Number)
}

// whyRun says why a run is made as it is.
func (w *Window) whyRun(p *route.Plan, number int) {
	why := strings.Join(p.Why(number, w.units()), " ")
	if why == "" {
		why = "There was nothing else to choose."
	}
	w.report(fmt.Sprintf("Run %d", number), why, "Bar the run to see the plan without it.")
}

// runOfSelection is the number of the run that cleans the one pipe that is
// selected, 0 for none.
func (w *Window) runOfSelection() int {
	refs, plan := w.desk.Selection().Refs(), w.desk.Planning().Plan
	if len(refs) != 1 || refs[0].Kind != edit.Pipe || plan == nil {
		return 0
	}
	for _, r := range plan.Runs() {
		for _, leg := range r.Path {
			if leg.Cleaned && string(leg.Pipe) == refs[0].ID {
				return r.Number
			}
		}
	}
	return 0
}

// keepAll keeps every run of the plan as it stands.
func (w *Window) keepAll() { w.do(edit.KeepRuns(w.desk.Site(), w.desk.Planning().Plan.Keys())) }

func (w *Window) keepOrder() { w.do(edit.OrderRuns(w.desk.Site(), w.desk.Planning().Plan.Keys())) }

func (w *Window) freeAll() { w.do(edit.FreeRuns(w.desk.Site())) }

// handReport says what the decisions made by hand cost and break.
func (w *Window) handReport() {
	p := w.desk.Planning()
	if p.Plan == nil {
		return
	}
	if p.Plan.ByHand == nil {
		w.report("Runs by hand", "The planner decided everything.", "Right-click a run on the strip of the day to keep it, to bar it, or to move it.")
		return
	}
	text := ""
	for _, line := range p.Plan.ByHand.Say(p.Site) {
		text += line + "\n\n"
	}
	w.report("Runs by hand", text, "Plan, Let the planner decide everything, takes all of it back; so does Undo.")
}
