package route

import (
	"math"
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
	node := m.g.Down[pipe]
	height := m.g.Elevation(node)
	opening := network.Node{At: m.site.Network.Nodes[node].At, Invert: &height}
	t.access = append(slices.Clone(m.access), modelAccess{node: node, size: m.pipes[pipe].size, trial: true, trialPipe: pipe})
	t.spots = slices.Clone(m.spots)
	for i := range t.spots {
		s := &t.spots[i]
		s.lay = append(slices.Clone(s.lay), m.site.LayLength(s.spot, &opening))
		s.open = append(slices.Clone(s.open), 0)
	}
	return &t, len(t.access) - 1
}

// withHose makes a hose longer.
func (m *model) withHose(hose int, by unit.Length) *model {
	t, s := *m, *m.site
	s.Rig.Hoses = slices.Clone(s.Rig.Hoses)
	s.Rig.Hoses[hose].Length += by
	t.site, t.ops = &s, newOperations(&s.Rig)
	return &t
}

// withSpot adds a spot that serves one access only, as near as told, at the
// best water of the site.
func (m *model) withSpot(access int, lay unit.Length) *model {
	t := *m
	spot := modelSpot{spot: &site.Spot{}, lay: make([]unit.Length, len(m.access)), open: make([]ticks, len(m.access))}
	for i := range m.site.Water {
		spot.inflow = max(spot.inflow, m.site.FillFlow(&m.site.Water[i]))
	}
	for a := range spot.lay {
		spot.lay[a] = unit.Length(math.Inf(1))
	}
	spot.lay[access] = lay
	t.spots = append(slices.Clone(m.spots), spot)
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
