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

// jet is one pass with the water that it has to wait for.
func (d *diary) jet(w where, p *route.Pass) {
	inflow := d.inflow(d.at)
	need := d.needs(inflow, p.Flow, p.Minutes)
	short := need - d.level
	switch {
	case d.is(route.EventWait):
		d.wait(w, need, inflow)
	case d.is(route.EventFill):
		d.fetch(w, short)
	}
	if d.lost {
		return
	}
	if d.level < need-drop {
		d.differ(RuleTank, d.place(), "the tank holds too little to start the pass", litres(d.level), litres(need))
	}
	d.take(route.EventJet, w, exactly(p.Minutes), func(takes time.Duration) unit.Volume {
		return d.after(d.level, inflow-p.Flow, takes)
	})
}

// wait lets the inflow bring the tank up to what the pass needs, and no more.
func (d *diary) wait(w where, need unit.Volume, inflow unit.Flow) {
	if need <= d.level+drop || inflow <= 0 {
		d.add(RuleTank, d.place(), "there is no need, or no use, to wait")
		d.take(route.EventWait, w, exactly(d.events[d.next].Takes), d.filling)
		return
	}
	d.take(route.EventWait, w, roundUp(float64(need-d.level)/float64(inflow)), d.filling)
}

// fetch is a trip for water from a spot that has none.
func (d *diary) fetch(w where, short unit.Volume) {
	full := func(time.Duration) unit.Volume { return d.site.Rig.Tank.Volume }
	trip, ok := d.trip(d.at, d.level)
	if short <= drop || !ok || d.inflow(d.at) > 0 {
		d.add(RuleTank, d.place(), "there is no need, or no way, to fetch water")
		d.take(route.EventFill, w, exactly(d.events[d.next].Takes), full)
		return
	}
	d.take(route.EventFill, w, about(trip), full)
}

// packUp packs up with the tank full or empty, after the fill or the drain
// that does not fit into the time of packing.
func (d *diary) packUp(b int) {
	if d.lost || d.at == nil {
		return
	}
	tank := &d.site.Rig.Tank
	w := where{b, none, none}
	pack := 60 * d.site.Rig.Crew.PackUp
	switch {
	case d.is(route.EventFill):
		inflow := d.inflow(d.at)
		extra := d.spare(tank.Volume-d.level, inflow, pack)
		d.take(route.EventFill, w, extra, d.filling)
	case d.is(route.EventDrain):
		extra := d.spare(d.level, tank.Drain, pack)
		d.take(route.EventDrain, w, extra, func(takes time.Duration) unit.Volume {
			return d.after(d.level, -tank.Drain, takes)
		})
	}
	if d.lost {
		return
	}
	if !d.is(route.EventPackUp) {
		d.lose("%s is due", route.EventPackUp)
		return
	}
	e := d.events[d.next]
	canFill := tank.Volume-d.level <= drawn(d.inflow(d.at), e.Takes)+drop
	canDrain := d.level <= drawn(tank.Drain, e.Takes)+drop
	full := near(float64(e.After), float64(tank.Volume), drop)
	empty := near(float64(e.After), 0, drop)
	if !(full && canFill || empty && canDrain) {
		d.add(RuleTowing, d.place(), "the tank is neither full nor empty by then: %s before, %s after",
			litres(e.Before), litres(e.After))
	}
	d.take(route.EventPackUp, w, round(pack), func(time.Duration) unit.Volume { return e.After })
}

// spare is the time to move a volume that goes beyond the time of packing up.
func (d *diary) spare(v unit.Volume, q unit.Flow, pack float64) rounded {
	if v <= 0 || q <= 0 {
		return exactly(0)
	}
	extra := roundUp(float64(v) / float64(q))
	packing := round(pack)
	return rounded{max(0, extra.least-packing.most), max(0, extra.most-packing.least)}
}

// cost checks the sums of the day and the bound.
func (c *checker) cost() {
	var sum, wet time.Duration
	for _, e := range c.plan.Day {
		sum += e.Takes
		switch e.Kind {
		case route.EventWait, route.EventFill, route.EventDrain:
			wet += e.Takes
		}
	}
	p := c.plan
	if p.Cost != sum {
		c.differ(RuleCost, "plan", "the cost is the sum of the day", p.Cost, sum)
	}
	if p.Bound > sum-wet {
		c.differ(RuleCost, "plan", "the bound is at most the minutes without water", p.Bound, sum-wet)
	}
	if p.Bound < 0 {
		c.differ(RuleCost, "plan", "the bound is a time", p.Bound, 0)
	}
	if p.Proven && p.Cost != p.Bound {
		c.differ(RuleCost, "plan", "proven says that the cost equals the bound", p.Cost, p.Bound)
	}
	if !p.Proven && !p.Stopped && p.Cost == p.Bound {
		c.add(RuleCost, "plan", "the cost equals the bound, and is not called proven")
	}
	if p.Stopped && p.Proven {
		c.add(RuleCost, "plan", "a search that was cancelled proves nothing")
	}
}
