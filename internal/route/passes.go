package route

import (
	"linemap/internal/unit"
)

// plannedPass is a pass with its nozzle and time.
type plannedPass struct {
	kind, nozzle, end int
	time              ticks
}

// ask adds the passes that the pipe at a place asks for to a column.
func (c *catalogue) ask(col *column, at int, down bool) {
	p := &c.pipes[c.places[at].pipe]
	dir := 0
	if down {
		dir = 1
	}
	for k := range passCount {
		if p.needs[k] {
			s := &col.passes[k]
			s.deposits |= 1 << p.deposit
			s.end = at
			s.extra += p.work[k][dir] - p.travel
		}
	}
}

// passesOf lists the passes of a column in order, each with water for it at the
// best of the column's spots; false where one of them has no nozzle for all that
// it is asked to do.
func (c *catalogue) passesOf(col *column) ([]plannedPass, bool) {
	inflow := c.bestInflow(&c.places[col.end])
	return c.passesThat(col, func(p plannedPass) bool {
		_, fits := c.site.Rig.Tank.Need(c.draw(p), inflow, p.time.duration())
		return fits
	})
}

// passesThat lists the passes of a column in order, each with the best nozzle
// with which it will do.
func (c *catalogue) passesThat(col *column, will func(plannedPass) bool) ([]plannedPass, bool) {
	out := make([]plannedPass, 0, passCount)
	for k := range passCount {
		s := &col.passes[k]
		if s.deposits == 0 {
			continue
		}
		end := &c.places[s.end]
		p := plannedPass{kind: k, end: s.end, time: end.travel + s.extra}
		p.nozzle = c.choose(k, s.deposits, end.way, func(n int) bool {
			p.nozzle = n
			return will(p)
		})
		if p.nozzle < 0 {
			return nil, false
		}
		out = append(out, p)
	}
	return out, true
}

// bestInflow is the most water that any of the spots of a place has.
func (c *catalogue) bestInflow(at *place) (best unit.Flow) {
	for i, n := range c.access[at.access].near {
		if at.set&(1<<i) != 0 {
			best = max(best, c.spots[n.spot].inflow)
		}
	}
	return best
}

// changesNozzle tells whether a run changes its nozzle before pass i.
func changesNozzle(passes []plannedPass, i int) bool {
	return i > 0 && passes[i-1].nozzle != passes[i].nozzle
}

func (c *catalogue) runCost(passes []plannedPass) ticks {
	crew := &c.site.Rig.Crew
	cost := toTicks(minutes(crew.RunStart))
	for i, p := range passes {
		cost += p.time
		if changesNozzle(passes, i) {
			cost += toTicks(minutes(crew.NozzleChange))
		}
	}
	return cost
}

// waterOf is what passes draw.
func (c *catalogue) waterOf(passes []plannedPass) (sum unit.Volume) {
	for _, p := range passes {
		sum += flowFor(c.draw(p), p.time)
	}
	return sum
}

// tankHolds tells whether each pass can be made from one tank at a spot.
func (c *catalogue) tankHolds(passes []plannedPass, spot int) bool {
	for _, p := range passes {
		if _, ok := c.site.Rig.Tank.Need(c.draw(p), c.spots[spot].inflow, p.time.duration()); !ok {
			return false
		}
	}
	return true
}

// draw is the flow of a pass.
func (c *catalogue) draw(p plannedPass) unit.Flow {
	w := &c.places[p.end]
	return c.ops.at(w.hose, p.nozzle, w.ceiling).Flow
}
