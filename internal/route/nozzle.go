package route

import (
	"math"

	"linemap/internal/unit"
)

// workable tells whether every pass that the way's last pipe asks for has a
// nozzle, and if not why.
func (m *model) workable(w way) (breach, bool) {
	p := &m.pipes[w.pipe]
	for k := range passCount {
		if !p.needs[k] {
			continue
		}
		if m.choose(k, 1<<p.deposit, w, nil) >= 0 {
			continue
		}
		best := unit.Force(math.Inf(-1))
		for n := range m.site.Rig.Nozzles {
			if m.fits(n, w) && m.serve[k][p.deposit][n] >= 0 {
				if op := m.ops.at(w.hose, n, w.ceiling); op.ok {
					best = max(best, op.Thrust)
				}
			}
		}
		if math.IsInf(float64(best), -1) {
			return breach{reason: NoNozzle, what: string(passName(k))}, false
		}
		return breach{reason: PullShort, force: w.worst - best, excess: float64(w.worst/best) - 1}, false
	}
	return breach{}, true
}

// fits tells whether a nozzle fits the opening and every pipe of the way.
func (m *model) fits(nozzle int, w way) bool {
	n := &m.site.Rig.Nozzles[nozzle]
	return n.MinPipe <= m.access[w.access].size && n.MinPipe <= w.least && w.most <= n.MaxPipe
}

// choose picks the nozzle for pass k over pipes with the given set of
// deposits, out to the end of the way, by the order in doc.go; -1 for none.
// will, where set, has the last word on each.
func (m *model) choose(k int, deposits uint64, w way, will func(nozzle int) bool) int {
	best, bestPlace, bestPower := -1, 0, 0.0
	for n := range m.site.Rig.Nozzles {
		place := m.place(k, deposits, n)
		if place < 0 || !m.fits(n, w) {
			continue
		}
		op := m.ops.at(w.hose, n, w.ceiling)
		if !op.ok || op.Thrust <= w.worst || will != nil && !will(n) {
			continue
		}
		if best < 0 || place < bestPlace || place == bestPlace && op.power() > bestPower {
			best, bestPlace, bestPower = n, place, op.power()
		}
	}
	return best
}

// place is the worst place that nozzle n has in the lists of the deposits for
// pass k, -1 where it does not serve them all.
func (m *model) place(k int, deposits uint64, n int) int {
	worst := -1
	for d := range m.deposits {
		if deposits&(1<<d) == 0 {
			continue
		}
		place := m.serve[k][d][n]
		if place < 0 {
			return -1
		}
		worst = max(worst, place)
	}
	return worst
}
