package audit

import (
	"linemap/internal/rig"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// duty is one pass that a run has to make: its kind, the hop at whose far end
// it turns, and the row of the tables for every hop that it works.
type duty struct {
	kind site.PassKind
	far  int
	work map[int]site.PassRow
}

// duties lists the passes that the cleaned hops ask for, in the order in which
// a run makes them.
func (g *ground) duties(t *track, cleaned []bool) []duty {
	var out []duty
	for _, kind := range site.PassOrder() {
		d := duty{kind: kind, work: map[int]site.PassRow{}}
		for i, h := range t.hops {
			if !cleaned[i] {
				continue
			}
			if row, ok := g.pipes[h.pipe].asksFor(kind); ok {
				d.far, d.work[i] = i, row
			}
		}
		if len(d.work) > 0 {
			out = append(out, d)
		}
	}
	return out
}

// point is an operating point with the setting that gives it; ok is false
// where there is none.
type point struct {
	rig.Operating
	setting unit.Pressure
	ok      bool
}

type pointKey struct {
	hose, nozzle string
	ceiling      unit.Pressure
}

// operate solves pump, hose and nozzle, once for each case.
func (g *ground) operate(hose *rig.Hose, nozzle *rig.Nozzle, ceiling unit.Pressure) point {
	key := pointKey{hose.ID, nozzle.ID, ceiling}
	p, seen := g.points[key]
	if !seen {
		op, setting, err := g.site.Rig.Operate(hose, nozzle, ceiling)
		p = point{op, setting, err == nil}
		g.points[key] = p
	}
	return p
}

// ceiling is the lowest ceiling of the fragile pipes that a pass goes through,
// 0 for none.
func (g *ground) ceiling(t *track, far int) unit.Pressure {
	var lowest unit.Pressure
	for _, h := range t.hops[:far+1] {
		if c := g.pipes[h.pipe].ceiling; c > 0 && (lowest == 0 || c < lowest) {
			lowest = c
		}
	}
	return lowest
}
