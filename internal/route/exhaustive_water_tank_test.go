package route

import (
	"math"

	"linemap/internal/unit"
)

// make makes a run from a state; ok is false where the water does not last.
func (o *wetOracle) make(s wetState, r *wetStep) (after wetState, takes ticks, ok bool) {
	tank, spot := &o.site.Rig.Tank, o.spotOf(s.key)
	inflow := o.spots[spot].inflow
	spend := func(t ticks, draw unit.Flow) {
		s.tank = tank.After(s.tank, draw, inflow, t.duration())
		takes += t
	}
	if access := o.places[r.place].access; s.open&(1<<access) == 0 {
		spend(o.openCost(access, spot), 0)
	}
	spend(o.start, 0)
	for i, p := range r.passes {
		if i > 0 && r.passes[i-1].nozzle != p.nozzle {
			spend(o.nozzle, 0)
		}
		draw := o.draw(p)
		if need, _ := tank.Need(draw, inflow, p.time.duration()); s.tank < need-slackVolume {
			if inflow > 0 {
				spend(timeFor(need-s.tank, inflow), 0)
			} else if trip := o.trip(spot, s.tank); trip < unreachable {
				s.tank, takes = tank.Volume, takes+trip
			} else {
				return s, 0, false
			}
		}
		spend(p.time, draw)
	}
	return o.after(s, r), takes, true
}

// trip is what it takes to fetch a tankful of water; unreachable without any.
func (o *wetOracle) trip(spot int, level unit.Volume) ticks {
	least := unreachable
	for i := range o.site.Water {
		w := &o.site.Water[i]
		if flow := o.site.FillFlow(w); flow > 0 {
			least = min(least, 2*o.tow(o.spots[spot].spot.At, w.At)+timeFor(o.site.Rig.Tank.Volume-level, flow))
		}
	}
	return least
}

// timeFor is the time in which a flow brings a volume, in whole ticks.
func timeFor(v unit.Volume, q unit.Flow) ticks {
	return ticks(math.Ceil(float64(v) / float64(q) / Tick.Seconds()))
}

// leaving is a way to pack up: the time over that of packing, and what is in the
// tank then.
type leaving struct {
	takes ticks
	tank  unit.Volume
}

// leavings are the ways to leave a spot for another, -1 for the end of the day:
// with the tank empty, and where it can be filled, with the tank full.
func (o *wetOracle) leavings(s wetState, next int) []leaving {
	tank := &o.site.Rig.Tank
	over := func(v unit.Volume, q unit.Flow) ticks {
		if v <= 0 {
			return 0
		}
		return max(0, timeFor(v, q)-o.packUp)
	}
	ways := []leaving{{over(s.tank, tank.Drain), 0}}
	if short, inflow := tank.Volume-s.tank, o.spots[o.spotOf(s.key)].inflow; short <= 0 || inflow > 0 {
		ways = append(ways, leaving{over(short, inflow), tank.Volume})
	}
	if o.ruled {
		return o.planners(ways, next)
	}
	return ways
}

// planners is the way in which the planner leaves a spot: the one that takes less
// time here and to the next pass, full where both take the same and the day goes
// on.
func (o *wetOracle) planners(ways []leaving, next int) []leaving {
	if len(ways) == 1 {
		return ways
	}
	empty, full := ways[0].takes, ways[1].takes
	if next >= 0 {
		if in := o.spots[next].inflow; in > 0 {
			empty += timeFor(o.site.Rig.Tank.Start, in)
		} else if o.site.Rig.Tank.Start > 0 {
			empty += unreachable
		}
	}
	if full < empty || next >= 0 && full == empty {
		return ways[1:]
	}
	return ways[:1]
}
