package route

import "linemap/internal/unit"

// draught is a pass: the time before it in the run, its own, what the tank has to
// hold when it begins, and what the pump takes.
type draught struct {
	before, takes ticks
	need          unit.Volume
	flow          unit.Flow
}

// draughts lists the passes of a run from where the crew stands.
func (d *dayBook) draughts(column int) (out []draught) {
	crew, inflow := &d.site.Rig.Crew, d.spots[d.spot].inflow
	passes, _ := d.passesOf(&d.columns[column])
	for i, p := range passes {
		one := draught{takes: p.time, flow: d.draw(p)}
		one.need, _ = d.site.Rig.Tank.Need(one.flow, inflow, p.time.duration())
		switch {
		case i == 0:
			one.before = toTicks(minutes(crew.RunStart))
		case changesNozzle(passes, i):
			one.before = toTicks(minutes(crew.NozzleChange))
		}
		out = append(out, one)
	}
	return out
}

// drink makes the passes of a run, and returns the time that it takes for water.
func (d *dayBook) drink(draughts []draught) (lost ticks) {
	for i := range draughts {
		p := &draughts[i]
		d.goBy(p.before, 0)
		takes, after := d.supplied(p.need)
		lost += takes
		d.tank = after
		d.goBy(p.takes, p.flow)
	}
	return lost
}

// goBy lets time go by at the spot.
func (d *dayBook) goBy(takes ticks, draw unit.Flow) {
	d.tank = d.site.Rig.Tank.After(d.tank, draw, d.spots[d.spot].inflow, takes.duration())
}
