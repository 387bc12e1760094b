package route

import (
	"slices"

	"linemap/internal/site"
)

// otherNozzle looks at the nozzle that serves a run's first pass best by the
// lists of its deposits, where that is not the one it is made with and it is
// not strong or slim enough.
func (w *reasoner) otherNozzle(run *Run, n *named) (Instead, bool) {
	if len(run.Passes) == 0 {
		return Instead{}, false
	}
	pass := &run.Passes[0]
	k := slices.Index(site.PassOrder(), pass.Kind)
	way, deposits := w.wayTo(n), w.depositsOf(run, k)
	own, best, bestPlace := -1, -1, 0
	for z := range w.site.Rig.Nozzles {
		if w.site.Rig.Nozzles[z].ID == pass.Nozzle {
			own = z
		}
		if place := w.place(k, deposits, z); place >= 0 && (best < 0 || place < bestPlace) {
			best, bestPlace = z, place
		}
	}
	if own < 0 || best < 0 || best == own || bestPlace == w.place(k, deposits, own) {
		return Instead{}, false
	}
	i := Instead{
		Choice: ByNozzle, Own: w.site.Rig.Nozzles[own].Name, Other: w.site.Rig.Nozzles[best].Name,
		Nozzle: w.site.Rig.Nozzles[best].ID,
	}
	if w.fits(best, way) {
		op := w.ops.at(way.hose, best, way.ceiling)
		if !op.ok || op.Thrust > way.worst {
			return Instead{}, false // the water decided
		}
		i.Force = way.worst - op.Thrust
	}
	return i, true
}

// wayTo is the way of a run to its end, whatever it breaks.
func (m *model) wayTo(n *named) way {
	return m.attempt(n.access, n.hose, n.path).way
}

// depositsOf is the set of deposits that ask for a pass on what a run cleans.
func (w *reasoner) depositsOf(run *Run, k int) (set uint64) {
	for _, p := range w.cleanedBy(run) {
		if w.pipes[p].needs[k] {
			set |= 1 << w.pipes[p].deposit
		}
	}
	return set
}
