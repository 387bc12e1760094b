package route

import (
	"math"
	"time"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// dayBook writes down the day event by event and keeps the tank.
type dayBook struct {
	*catalogue
	events []Event
	now    time.Duration
	tank   unit.Volume
	// Where the crew stands; -1 before the day begins.
	spot, block, run, pass int
	// full tells by block whether the tank is left full or empty for it, where
	// that is decided on; nil for whichever costs less.
	full []bool
}

func newDayBook(c *catalogue) *dayBook {
	d := &dayBook{catalogue: c, spot: -1, block: -1, run: -1, pass: -1}
	if c.site.Rig.Tank.ArrivesFull {
		d.tank = c.site.Rig.Tank.Volume
	}
	return d
}

// add writes an event that draws water while the spot's inflow fills the tank.
func (d *dayBook) add(kind EventKind, takes ticks, draw unit.Flow) {
	after := d.site.Rig.Tank.After(d.tank, draw, d.spots[d.spot].inflow, takes.duration())
	d.put(kind, takes, after)
}

// put writes an event that leaves the tank at a level.
func (d *dayBook) put(kind EventKind, takes ticks, after unit.Volume) {
	d.events = append(d.events, Event{
		Kind: kind, Start: d.now, Takes: takes.duration(),
		Block: d.block, Run: d.run, Pass: d.pass, Before: d.tank, After: after,
	})
	d.now += takes.duration()
	d.tank = after
}

// arrive begins a block: set-up, a move, or a change of hose.
func (d *dayBook) arrive(block int, key blockKey) {
	crew := &d.site.Rig.Crew
	from := d.spot
	if from >= 0 && from != key.spot {
		d.leave(key.spot)
	}
	d.block, d.spot, d.run, d.pass = block, key.spot, -1, -1
	switch {
	case from < 0:
		d.put(EventSetUp, toTicks(minutes(crew.SetUp)), d.tank)
	case from != key.spot:
		d.put(EventMove, d.tow(d.spots[from].spot.At, d.spots[key.spot].spot.At), d.tank)
		d.put(EventSetUp, toTicks(minutes(crew.SetUp)), d.tank)
	default:
		d.add(EventHoseChange, toTicks(minutes(crew.HoseChange)), 0)
	}
}

// leave packs up for the next spot, -1 at the day's end.
func (d *dayBook) leave(next int) {
	d.run, d.pass = -1, -1
	tank := &d.site.Rig.Tank
	over, full := d.packing(next)
	after := unit.Volume(0)
	switch {
	case full:
		after = tank.Volume
		if over > 0 {
			d.add(EventFill, over, 0)
		}
	case over > 0:
		d.put(EventDrain, over, d.tank-min(d.tank, flowFor(tank.Drain, over)))
	}
	d.put(EventPackUp, toTicks(minutes(d.site.Rig.Crew.PackUp)), after)
}

// packing tells whether the crew packs up with the tank full or empty, where it is
// not decided on whichever costs less time here and, where the day goes on, at the
// next spot, and how much longer that takes than packing up itself.
func (d *dayBook) packing(next int) (over ticks, full bool) {
	fill, drain := d.packed()
	if next >= 0 && d.full != nil {
		full = d.full[d.block+1]
	} else {
		later := ticks(0)
		if next >= 0 {
			later = d.beyond(d.site.Rig.Tank.Start, d.spots[next].inflow, 0)
		}
		full = fill < unreachable && (fill < drain+later || next >= 0 && fill == drain+later)
	}
	if full {
		return fill, true
	}
	return drain, false
}

// packed is how much longer it takes than packing up to have the tank full by
// then, and to have it empty.
func (d *dayBook) packed() (full, empty ticks) {
	tank := &d.site.Rig.Tank
	pack := toTicks(minutes(d.site.Rig.Crew.PackUp))
	return d.beyond(tank.Volume-d.tank, d.spots[d.spot].inflow, pack), d.beyond(d.tank, tank.Drain, pack)
}

// beyond is how much longer than a given time it takes to move a volume.
func (d *dayBook) beyond(v unit.Volume, q unit.Flow, given ticks) ticks {
	if v <= 0 {
		return 0
	}
	if q <= 0 {
		return unreachable
	}
	all := math.Ceil(float64(v) / float64(q) / Tick.Seconds())
	return max(0, ticks(min(all, float64(unreachable)))-given)
}

func flowFor(q unit.Flow, t ticks) unit.Volume {
	return unit.Volume(float64(q) * t.duration().Seconds())
}

// make makes one run; false where the site has no water left for it.
func (d *dayBook) make(number, column int, opens bool) bool {
	crew := &d.site.Rig.Crew
	passes, _ := d.passesOf(&d.columns[column])
	if !d.canSupply(passes) {
		return false
	}
	d.run, d.pass = number, -1
	if opens {
		d.add(EventOpen, d.openCost(d.accessOf(column), d.spot), 0)
	}
	d.add(EventStart, toTicks(minutes(crew.RunStart)), 0)
	for i, p := range passes {
		d.pass = i
		if changesNozzle(passes, i) {
			d.add(EventNozzleChange, toTicks(minutes(crew.NozzleChange)), 0)
		}
		d.supply(p)
		d.add(EventJet, p.time, d.draw(p))
	}
	return true
}

// makeMost makes a run, or where the water does not last, as many of its lower
// pipes as it does. It returns the column made, -1 for none.
func (d *dayBook) makeMost(number, column int, opens bool) int {
	usable := func(c int) bool { return d.madeFrom(c, d.spot) }
	for column >= 0 && !(usable(column) && d.make(number, column, opens)) {
		if d.places[d.columns[column].end].down {
			return -1
		}
		column = d.columns[column].prev
	}
	return column
}

// canSupply tells whether the passes of a run get their water: always where
// some water can be fetched, else only from what is left in the tank.
func (d *dayBook) canSupply(passes []plannedPass) bool {
	if d.spots[d.spot].inflow > 0 {
		return true
	}
	if _, _, ok := d.nearestWater(); ok {
		return true
	}
	level := d.tank
	for _, p := range passes {
		need, _ := d.site.Rig.Tank.Need(d.draw(p), 0, p.time.duration())
		if level < need-slackVolume {
			return false
		}
		level = d.site.Rig.Tank.After(level, d.draw(p), 0, p.time.duration())
	}
	return true
}

// supply waits, or fetches water, until a pass can start.
func (d *dayBook) supply(p plannedPass) {
	inflow := d.spots[d.spot].inflow
	need, _ := d.site.Rig.Tank.Need(d.draw(p), inflow, p.time.duration())
	kind := EventWait
	if inflow <= 0 {
		kind = EventFill
	}
	if takes, after := d.supplied(need); takes > 0 {
		d.put(kind, takes, after)
	}
}

// supplied is how long the crew waits for water, or fetches it, until the tank
// holds what a pass needs, and what it holds then; [unreachable] where there is
// none.
func (d *dayBook) supplied(need unit.Volume) (takes ticks, after unit.Volume) {
	tank, inflow := &d.site.Rig.Tank, d.spots[d.spot].inflow
	if d.tank >= need-slackVolume {
		return 0, d.tank
	}
	if inflow > 0 {
		takes = d.beyond(need-d.tank, inflow, 0)
		return takes, tank.After(d.tank, 0, inflow, takes.duration())
	}
	if trip, flow, ok := d.nearestWater(); ok {
		return trip + d.beyond(tank.Volume-d.tank, flow, 0), tank.Volume
	}
	return unreachable, d.tank
}

// nearestWater is the water point that a trailer without water in reach fills
// from soonest: the time to get there and back, and the flow.
func (d *dayBook) nearestWater() (trip ticks, flow unit.Flow, ok bool) {
	best := unreachable
	for _, w := range d.spots[d.spot].sources {
		if t := w.trip + d.beyond(d.site.Rig.Tank.Volume-d.tank, w.flow, 0); t < best {
			best, trip, flow, ok = t, w.trip, w.flow, true
		}
	}
	return trip, flow, ok
}

// carryOut makes runs, block by block, and writes the plan's blocks and day. It
// returns the targets that were left because the water ran out.
func (c *catalogue) carryOut(seq []blockKey, runs [][]int, plan *Plan) (left []int) {
	return newDayBook(c).carryOut(seq, runs, plan)
}

// carryOut is [catalogue.carryOut] with what the book has decided on.
func (d *dayBook) carryOut(seq []blockKey, runs [][]int, plan *Plan) (left []int) {
	c := d.catalogue
	c.findGaps()
	number, dry := 0, false
	for j, columns := range runs {
		if len(columns) == 0 {
			continue
		}
		if dry {
			left = append(left, c.cleanedBy(columns)...)
			continue
		}
		opened := map[network.NodeID]bool{}
		block := Block{Spot: c.spots[seq[j].spot].spot.ID, Hose: c.site.Rig.Hoses[seq[j].hose].ID}
		mark := *d
		d.arrive(len(plan.Blocks), seq[j])
		for i, col := range columns {
			node := c.site.Network.Nodes[c.access[c.accessOf(col)].node].ID
			done := d.makeMost(number+1, col, !opened[node])
			if done >= 0 {
				number++
				block.Runs = append(block.Runs, c.describe(number, done, seq[j].spot, !opened[node]))
				opened[node] = true
			}
			if dry = done != col; dry {
				left = append(left, c.leftOf(col, done)...)
				left = append(left, c.cleanedBy(columns[i+1:])...)
				break
			}
		}
		if len(block.Runs) == 0 {
			*d = mark
			continue
		}
		plan.Blocks = append(plan.Blocks, block)
	}
	if d.spot >= 0 {
		d.leave(-1)
	}
	plan.Day, plan.Cost = d.events, d.now
	return left
}

// leftOf lists what a column cleans and the one made in its place does not.
func (c *catalogue) leftOf(column, made int) []int {
	all := c.chain(column)
	if made < 0 {
		return all
	}
	return all[len(c.chain(made)):]
}

func (c *catalogue) cleanedBy(columns []int) []int {
	var out []int
	for _, col := range columns {
		out = append(out, c.chain(col)...)
	}
	return out
}
