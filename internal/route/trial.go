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
func (m *model) withCleanout(pipe int) (*model, int) {
	t := *m
	a := modelAccess{node: m.g.Down[pipe], size: m.pipes[pipe].size, trial: true, trialPipe: pipe}
	a.near, _ = m.nearTo(m.openingOf(&a)) // as many as may be
	t.access = append(slices.Clone(m.access), a)
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
	t, s := *m, *m.site
	s.Rig.Hoses = slices.Clone(s.Rig.Hoses)
	s.Rig.Hoses[hose].Length += by
	t.site, t.ops = &s, newOperations(&s.Rig)
	t.access = slices.Clone(m.access)
	_ = t.addNear() // where they are too many, as many as may be
	return &t
}

// withSpot adds a spot that serves one access only, as near as told, at the
// best water of the site.
func (m *model) withSpot(access int, lay unit.Length) *model {
	t := *m
	spot := modelSpot{spot: &site.Spot{}}
	for i := range m.site.Water {
		spot.inflow = max(spot.inflow, m.site.FillFlow(&m.site.Water[i]))
	}
	t.spots = append(slices.Clone(m.spots), spot)
	t.access = slices.Clone(m.access)
	a := &t.access[access]
	a.near = append(slices.Clone(a.near), nearSpot{spot: len(m.spots), lay: lay})
	return &t
}

// gain is what a trial makes reachable of the pipes that are missing.
type gain struct {
	reach  []bool
	length unit.Length
}

// gainOf measures a trial whose catalogue is c.
func gainOf(c *catalogue, missing []bool) gain {
	g := gain{reach: c.reachable}
	for p, yes := range missing {
		if yes && c.reachable[p] {
			g.length += c.pipes[p].length
		}
	}
	return g
}
