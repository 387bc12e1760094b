package export

import (
	"strconv"

	"linemap/internal/route"
	"linemap/internal/unit"
)

// diary is the day sorted by what it belongs to: what the crew does before the
// runs of a block, in a run besides running hose, and after the last run of a
// block.
type diary struct {
	before, after map[int][]step
	run           map[int]*runDiary
}

// runDiary is one run's part of the day.
type runDiary struct {
	clock string
	waits []step
	jets  int            // passes met
	tank  [2]unit.Volume // at the start of the first pass and after the last
}

// diary sorts the day.
func (w *wording) diary(p *route.Plan) *diary {
	d := &diary{before: map[int][]step{}, after: map[int][]step{}, run: map[int]*runDiary{}}
	started := map[int]bool{}
	for _, e := range p.Day {
		if e.Run <= 0 {
			list := d.before
			if started[e.Block] {
				list = d.after
			}
			list[e.Block] = append(list[e.Block], w.step(e))
			continue
		}
		started[e.Block] = true
		r := d.run[e.Run]
		if r == nil {
			r = &runDiary{clock: clock(w.sys, w.site.Job.Start, &w.site.Rig.Crew, e.Start)}
			d.run[e.Run] = r
		}
		switch e.Kind {
		case route.EventWait, route.EventFill:
			s := w.step(e)
			if e.Pass > 0 {
				s.Say = "Before pass " + strconv.Itoa(e.Pass+1) + ": " + word(eventWords, e.Kind) + w.levels(e)
			}
			r.waits = append(r.waits, s)
		case route.EventJet:
			if r.jets == 0 {
				r.tank[0] = e.Before
			}
			r.jets, r.tank[1] = r.jets+1, e.After
		}
	}
	return d
}

// step words one event that is no hose work.
func (w *wording) step(e route.Event) step {
	say := capital(word(eventWords, e.Kind))
	switch e.Kind {
	case route.EventWait, route.EventFill, route.EventDrain, route.EventPackUp:
		say += w.levels(e)
	}
	return step{clock(w.sys, w.site.Job.Start, &w.site.Rig.Crew, e.Start), say, spent(e.Takes)}
}

// levels words what an event does to the tank.
func (w *wording) levels(e route.Event) string {
	before, after := w.sys.Volume(e.Before), w.sys.Volume(e.After)
	if before == after {
		return ", tank at " + after
	}
	return ", tank from " + before + " to " + after
}
