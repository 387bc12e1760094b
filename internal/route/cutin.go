package route

import (
	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// cutIn is what it takes to cut a cleanout into the lower end of a pipe: where
// the pipe lies and how deep, and the price by the tables of the trade.
type cutIn struct {
	lie   site.Lie
	depth unit.Length // 0 in a wall, and where nothing tells it
	price float64
}

// cutIns finds what a cleanout takes on every pipe.
func (m *model) cutIns() []cutIn {
	out := make([]cutIn, len(m.pipes))
	grounds := m.grounds()
	for _, p := range m.g.Order {
		c, ground := &out[p], &grounds[p]
		height, known := m.height(m.g.Down[p])
		known = known && ground.known
		if c.lie = m.lie(p, out, known && height > ground.at); c.lie != site.InWall {
			if c.depth = ground.deep; known {
				c.depth = max(ground.at-height, 0)
			}
		}
		c.price = m.tables.Cures.NewCleanout.Price(c.lie, c.depth, m.pipes[p].size)
	}
	return out
}

// lie goes by the class of a pipe: a branch or a lateral lies as what it drains
// into does, but above the ground in a wall.
func (m *model) lie(p int, below []cutIn, above bool) site.Lie {
	switch m.site.Network.Pipes[p].Class {
	case network.BuildingSewer, network.Main:
		return site.InYard
	case network.BuildingDrain:
		return site.UnderSlab
	case network.Stack:
		return site.InWall
	}
	switch next := m.g.Next[p]; {
	case above:
		return site.InWall
	case next >= 0:
		return below[next].lie
	}
	return site.UnderSlab
}

// height is that of a node above the datum; ok is false where neither the node
// nor its level tells it.
func (m *model) height(node int) (unit.Length, bool) {
	if node < 0 {
		return 0, false
	}
	n := &m.site.Network.Nodes[node]
	if n.Invert != nil {
		return m.g.Elevation(node), true
	}
	for i := range m.site.Network.Levels {
		if m.site.Network.Levels[i].Name == n.Level {
			return m.g.Elevation(node), true
		}
	}
	return 0, false
}

// groundOver is the height of the ground over a pipe, where it is known, and how
// deep the drain lies at the opening that tells of it, told where one does.
type groundOver struct {
	at, deep    unit.Length
	known, told bool
}

// grounds finds the ground over every pipe: that of the next opening with a
// riser down the way, else up it, else the site's datum.
func (m *model) grounds() []groundOver {
	out := make([]groundOver, len(m.pipes))
	for _, p := range m.g.Order {
		if g := m.groundAt(m.g.Down[p]); g.told {
			out[p] = g
		} else if next := m.g.Next[p]; next >= 0 {
			out[p] = out[next]
		}
	}
	for i := len(m.g.Order) - 1; i >= 0; i-- {
		p := m.g.Order[i]
		if !out[p].told {
			out[p] = m.groundAt(m.g.Up[p])
		}
		if next := m.g.Next[p]; next >= 0 && !out[next].told {
			out[next] = out[p]
		}
	}
	for p := range out {
		if !out[p].told {
			out[p].known = true // the datum
		}
	}
	return out
}

// groundAt is the ground that an opening out of a buried drain tells.
func (m *model) groundAt(node int) groundOver {
	if node < 0 {
		return groundOver{}
	}
	n := &m.site.Network.Nodes[node]
	if n.Kind != network.KindAccess || n.Access == nil || !(n.Access.Riser > 0) {
		return groundOver{}
	}
	switch n.Access.Kind {
	case network.OneWayCleanout, network.TwoWayCleanout, network.Manhole, network.CatchBasin:
		height, ok := m.height(node)
		return groundOver{at: height + n.Access.Riser, deep: n.Access.Riser, known: ok, told: true}
	}
	return groundOver{}
}
