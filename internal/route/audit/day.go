package audit

import (
	"fmt"
	"time"

	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// diary reads the day event by event beside what has to happen next, and keeps
// the tank.
type diary struct {
	*checker
	events []route.Event
	next   int
	clock  time.Duration
	level  unit.Volume
	lost   bool // the day went another way; what follows cannot be judged
	// Where the crew stands.
	at *site.Spot
}

// day checks every event of the day.
func (c *checker) day() {
	d := &diary{checker: c, events: c.plan.Day}
	if c.site.Rig.Tank.ArrivesFull {
		d.level = c.site.Rig.Tank.Volume
	}
	for b := range c.plan.Blocks {
		if d.arrive(b); d.lost {
			return
		}
		block := &c.plan.Blocks[b]
		for i := range block.Runs {
			if d.run(b, &block.Runs[i]); d.lost {
				return
			}
		}
	}
	if len(c.plan.Blocks) > 0 {
		d.packUp(len(c.plan.Blocks) - 1)
	}
	if !d.lost && d.next < len(d.events) {
		c.add(RuleDay, d.place(), "the day goes on after it is over")
	}
}

func (d *diary) place() string {
	if d.next >= len(d.events) {
		return "end of the day"
	}
	return fmt.Sprintf("event %d (%s)", d.next, d.events[d.next].Kind)
}

// lose ends the reading of a day that went another way.
func (d *diary) lose(format string, args ...any) {
	d.add(RuleDay, d.place(), format, args...)
	d.lost = true
}

// is tells whether the next event is of a kind.
func (d *diary) is(kind route.EventKind) bool {
	return d.next < len(d.events) && d.events[d.next].Kind == kind
}

// where is what an event belongs to.
type where struct{ block, run, pass int }

// none stands where no run or pass applies.
const none = -1

// take reads the next event, which must be of a kind, at a place of the plan
// and of a length, and change the level of the tank to what after gives.
func (d *diary) take(kind route.EventKind, w where, takes rounded, after func(time.Duration) unit.Volume) {
	if d.lost {
		return
	}
	if !d.is(kind) {
		d.lose("%s is due", kind)
		return
	}
	e := d.events[d.next]
	if e.Start != d.clock {
		d.differ(RuleDay, d.place(), "starts when the event before ends", e.Start, d.clock)
	}
	if got := (where{e.Block, e.Run, e.Pass}); got != w {
		d.differ(RuleDay, d.place(), "block, run and pass", got, w)
	}
	d.sameTime(RuleDay, d.place(), "takes", e.Takes, takes)
	d.sameVolume(RuleTank, d.place(), "level before", e.Before, d.level)
	d.level = after(e.Takes)
	d.sameVolume(RuleTank, d.place(), "level after", e.After, d.level)
	d.clock += e.Takes
	d.next++
}

// same leaves the tank as it is, filling lets the spot's inflow run.

func (d *diary) same(time.Duration) unit.Volume { return d.level }

func (d *diary) filling(takes time.Duration) unit.Volume {
	return d.after(d.level, d.inflow(d.at), takes)
}

// arrive is the way to a block: the set-up, a move, or a change of hose.
func (d *diary) arrive(b int) {
	crew := &d.site.Rig.Crew
	spot := d.spot(d.plan.Blocks[b].Spot)
	if spot == nil {
		d.lose("the day is not followed to a spot that is not there")
		return
	}
	w := where{b, none, none}
	switch {
	case d.at == nil:
		d.at = spot
		d.take(route.EventSetUp, w, round(60*crew.SetUp), d.same)
	case d.at == spot:
		d.take(route.EventHoseChange, w, round(60*crew.HoseChange), d.filling)
	default:
		d.packUp(b - 1)
		d.take(route.EventMove, w, round(d.tow(d.at.At, spot.At)), d.same)
		d.at = spot
		d.take(route.EventSetUp, w, round(60*crew.SetUp), d.same)
	}
}

// run is one run: the opening, the start and the passes.
func (d *diary) run(b int, r *route.Run) {
	crew := &d.site.Rig.Crew
	if r.Opens {
		node, ok := d.node[r.Access]
		if !ok {
			d.lose("the day is not followed to an access that is not there")
			return
		}
		n := &d.net.Nodes[node]
		d.take(route.EventOpen, where{b, r.Number, none}, d.opening(n, d.site.LayLength(d.at, n)), d.filling)
	}
	d.take(route.EventStart, where{b, r.Number, none}, round(60*crew.RunStart), d.filling)
	for i := range r.Passes {
		w := where{b, r.Number, i}
		if i > 0 && r.Passes[i].Nozzle != r.Passes[i-1].Nozzle {
			d.take(route.EventNozzleChange, w, round(60*crew.NozzleChange), d.filling)
		}
		d.jet(w, &r.Passes[i])
	}
}
