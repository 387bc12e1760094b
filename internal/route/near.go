package route

import (
	"fmt"
	"math"
	"slices"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// nearSpot is a spot that can serve an access: the lay to it and the time to
// open it from there.
type nearSpot struct {
	spot int
	lay  unit.Length
	open ticks
}

// maxNear is how many spots can serve one access. They are numbered access by
// access, one bit each, so that a site may have any number of them; one bit is
// left for a spot that a cure thinks of.
const maxNear = 63

// addNear finds for every access the spots from which some hose reaches it, and
// in any case the one with the shortest lay.
func (m *model) addNear() error {
	m.ground = newGround(m)
	for a := range m.access {
		access := &m.access[a]
		var ok bool
		if access.near, ok = m.nearTo(m.openingOf(access)); !ok {
			return fmt.Errorf("%s: more than %d usable spots are within reach of the hoses",
				m.g.NodeName(access.node), maxNear)
		}
	}
	return nil
}

// openingOf is the node of an access, or of a cleanout that is only thought of.
func (m *model) openingOf(a *modelAccess) *network.Node {
	if a.trial {
		return m.trialOpening(a.trialPipe)
	}
	return &m.site.Network.Nodes[a.node]
}

// nearTo lists the spots near an opening, by index; ok is false where there are
// more than the planner takes, and the list is cut.
func (m *model) nearTo(n *network.Node) (near []nearSpot, ok bool) {
	for _, spot := range m.ground.around(n) {
		if lay := m.site.LayLength(m.spots[spot].spot, n); lay <= m.ground.reach+slackLength {
			near = append(near, m.nearSpot(spot, lay, n))
		}
	}
	if len(near) == 0 && len(m.spots) > 0 {
		best, least := 0, unit.Length(math.Inf(1))
		for spot := range m.spots {
			if lay := m.site.LayLength(m.spots[spot].spot, n); lay < least {
				best, least = spot, lay
			}
		}
		near = append(near, m.nearSpot(best, least, n))
	}
	if len(near) > maxNear {
		return near[:maxNear], false
	}
	return near, true
}

func (m *model) nearSpot(spot int, lay unit.Length, n *network.Node) nearSpot {
	crew := &m.site.Rig.Crew
	open := crew.Open
	if n.Access != nil && n.Access.OpenMinutes != 0 {
		open = n.Access.OpenMinutes
	}
	return nearSpot{spot: spot, lay: lay, open: toTicks(minutes(open) + 2*rig.Over(lay, crew.Lay))}
}

// bit is the bit of a spot in the sets of an access's near spots; 0 where it is
// not one of them.
func (m *model) bit(access, spot int) uint64 {
	for i, n := range m.access[access].near {
		if n.spot == spot {
			return 1 << i
		}
	}
	return 0
}

// layTo is the lay from a spot to an access, near or not.
func (m *model) layTo(access, spot int) unit.Length {
	a := &m.access[access]
	for _, n := range a.near {
		if n.spot == spot {
			return n.lay
		}
	}
	return m.site.LayLength(m.spots[spot].spot, m.openingOf(a))
}

// openCost is what it costs to open an access from a spot; [unreachable] where
// the spot is not near.
func (m *model) openCost(access, spot int) ticks {
	for _, n := range m.access[access].near {
		if n.spot == spot {
			return n.open
		}
	}
	return unreachable
}

// madeFrom tells whether a candidate can be made from a spot.
func (c *catalogue) madeFrom(column, spot int) bool {
	col := &c.columns[column]
	return col.spots&c.bit(c.places[col.end].access, spot) != 0
}

// ground finds spots by place. A lay is never shorter than the straight line,
// but where it was measured.
type ground struct {
	reach unit.Length // the longest lay that leaves any hose to push
	cells map[[2]int][]int
	// measured lists the spots with a measured lay to a node.
	measured map[network.NodeID][]int
}

func newGround(m *model) *ground {
	g := &ground{cells: map[[2]int][]int{}, measured: map[network.NodeID][]int{}}
	for i := range m.site.Rig.Hoses {
		g.reach = max(g.reach, m.site.Rig.Hoses[i].Length-m.site.Rig.Hoses[i].Reserve)
	}
	byID := map[site.SpotID]int{}
	for i := range m.spots {
		spot := m.spots[i].spot
		byID[spot.ID] = i
		cell := g.cell(spot.At)
		g.cells[cell] = append(g.cells[cell], i)
	}
	for i := range m.site.Lays {
		l := &m.site.Lays[i]
		if spot, known := byID[l.Spot]; known && l.Access != "" && l.Length != nil {
			g.measured[l.Access] = append(g.measured[l.Access], spot)
		}
	}
	return g
}

// cell is the square of ground, as wide as the reach, in which a point lies.
func (g *ground) cell(at network.Point) [2]int {
	wide := float64(max(g.reach, 1))
	return [2]int{int(math.Floor(float64(at.X) / wide)), int(math.Floor(float64(at.Y) / wide))}
}

// around lists the spots that may be near a node, by index, each once.
func (g *ground) around(n *network.Node) []int {
	out := slices.Clone(g.measured[n.ID])
	at := g.cell(n.At)
	for dx := -1; dx <= 1; dx++ {
		for dy := -1; dy <= 1; dy++ {
			out = append(out, g.cells[[2]int{at[0] + dx, at[1] + dy}]...)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}
