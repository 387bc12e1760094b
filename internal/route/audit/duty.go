package audit

import (
	"slices"

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

// fits tells whether a nozzle goes in at the access and through every pipe out
// to the far hop.
func (g *ground) fits(t *track, far int, n *rig.Nozzle) bool {
	if a := g.net.Nodes[t.access].Access; a == nil || n.MinPipe > a.Size {
		return false
	}
	for _, h := range t.hops[:far+1] {
		if size := g.pipes[h.pipe].Size; size < n.MinPipe || size > n.MaxPipe {
			return false
		}
	}
	return true
}

// place is where the nozzle's best purpose stands in a row's list, -1 where
// the nozzle does not serve.
func place(row site.PassRow, n *rig.Nozzle) int {
	return slices.IndexFunc(row.Nozzles, func(wanted rig.Purpose) bool {
		return slices.Contains(n.Purposes, wanted)
	})
}

// worstPlace is the worst place over everything that a duty works, -1 where
// the nozzle does not serve all of it.
func (d *duty) worstPlace(n *rig.Nozzle) int {
	worst := 0
	for _, row := range d.work {
		p := place(row, n)
		if p < 0 {
			return -1
		}
		worst = max(worst, p)
	}
	return worst
}

// beats tells whether a thrust beats the drag at the end of every hop out to
// the far one.
func beats(thrust unit.Force, drags []unit.Force, slack leeway) bool {
	for _, d := range drags {
		if !(float64(thrust) >= float64(d)*(1-slack.share)) || thrust <= 0 {
			return false
		}
	}
	return true
}

// choices lists the nozzles that will do for a duty.
func (g *ground) choices(t *track, d *duty, hose *rig.Hose, drags []unit.Force, slack leeway) []*rig.Nozzle {
	var out []*rig.Nozzle
	ceiling := g.ceiling(t, d.far)
	for i := range g.site.Rig.Nozzles {
		n := &g.site.Rig.Nozzles[i]
		if d.worstPlace(n) < 0 || !g.fits(t, d.far, n) {
			continue
		}
		if op := g.operate(hose, n, ceiling); op.ok && beats(op.Thrust, drags[:d.far+1], slack) {
			out = append(out, n)
		}
	}
	return out
}
