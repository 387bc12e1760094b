package route

import (
	"slices"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// A trial is a copy of the model with one thing changed, to see whether a cure
// would work.

// trialEntry is the turn from the riser of a new cleanout into the pipe: a wye.
var trialEntry = unit.Degrees(45)

// withCleanout adds a cleanout at the lower end of a pipe, facing upstream and
// as large as the pipe, and returns its index.
func (e *explainer) withCleanout(pipe int) (*model, int) {
	t, m := *e.model, e.model
	a := modelAccess{node: m.g.Down[pipe], size: m.pipes[pipe].size, trial: true, trialPipe: pipe}
	a.near, _ = m.nearTo(m.openingOf(&a)) // as many as may be
	e.onBench(&t)
	t.access = append(t.access, a)
	return &t, len(t.access) - 1
}

// trialOpening is the node that a new cleanout on a pipe would be.
func (m *model) trialOpening(pipe int) *network.Node {
	node := m.g.Down[pipe]
	height := m.g.Elevation(node)
	return &network.Node{At: m.site.Network.Nodes[node].At, Invert: &height}
}

// withHose makes a hose longer.
func (m *model) withHose(hose int, by unit.Length) *model {
	t := m.reeled(hose, by)
	t.access = slices.Clone(m.access)
	_ = t.addNear() // where they are too many, as many as may be
	return t
}

// reeled is the model with a hose made longer; the spots near an access stay as
// they are.
func (m *model) reeled(hose int, by unit.Length) *model {
	t, s := *m, *m.site
	s.Rig.Hoses = slices.Clone(s.Rig.Hoses)
	s.Rig.Hoses[hose].Length += by
	t.site, t.ops = &s, newOperations(&s.Rig)
	return &t
}

// withHoseAt makes a hose longer, to be tried from one access only.
func (e *explainer) withHoseAt(access, hose int, by unit.Length) *model {
	t := e.reeled(hose, by)
	e.onBench(t)
	if by > 0 {
		g := *e.ground
		g.reach += by
		t.ground = &g
	}
	a := &t.access[access]
	a.near, _ = t.nearTo(t.openingOf(a))
	return t
}

// onBench gives a trial accesses of its own to change, until the next trial.
func (e *explainer) onBench(t *model) {
	e.bench = append(e.bench[:0], e.access...)
	t.access = e.bench
}

// withSpot adds a spot that serves one access only, as near as told, at the
// best water of the site.
func (e *explainer) withSpot(access int, lay unit.Length) *model {
	t, m := *e.model, e.model
	spot := modelSpot{spot: &site.Spot{}}
	for i := range m.site.Water {
		spot.inflow = max(spot.inflow, m.site.FillFlow(&m.site.Water[i]))
	}
	t.spots = append(slices.Clone(m.spots), spot)
	e.onBench(&t)
	a := &t.access[access]
	a.near = append(slices.Clone(a.near), nearSpot{spot: len(m.spots), lay: lay})
	return &t
}
