package audit

import (
	"time"

	"linemap/internal/route"
	"linemap/internal/unit"
)

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
	if need < d.level-drop || inflow <= 0 {
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
	if short < -drop || !ok || d.inflow(d.at) > 0 {
		d.add(RuleTank, d.place(), "there is no need, or no way, to fetch water")
		d.take(route.EventFill, w, exactly(d.events[d.next].Takes), full)
		return
	}
	d.take(route.EventFill, w, about(trip), full)
}
