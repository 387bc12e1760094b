package audit

import (
	"time"

	"linemap/internal/route"
	"linemap/internal/unit"
)

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
