package audit

import (
	"slices"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// ground is a site as the checker sees it: the raw data with names resolved,
// the flow as traced, and every pipe measured anew.
type ground struct {
	site   *site.Site
	tables *site.Tables
	graph  *network.Graph
	net    *network.Network
	water  rig.Water
	node   map[network.NodeID]int
	pipe   map[network.PipeID]int
	pipes  []measured
	above  [][]int // by pipe, the pipes that flow on in it
	// What has been worked out before: operating points, and which pipes can be
	// reached with which rules forgotten.
	points  map[pointKey]point
	reached map[reachKey]bool
}

// measured is what the rules need of one pipe.
type measured struct {
	*network.Pipe
	length   unit.Length
	corners  []corner   // from the upstream end
	climb    unit.Angle // above level, going upstream
	friction rig.Range
	target   bool
	ceiling  unit.Pressure // 0 for none
	asks     []site.PassRow
}

// survey lays out a site. What the tables lack is reported.
func survey(s *site.Site, t *site.Tables, r *report) *ground {
	g := &ground{
		site: s, tables: t, net: &s.Network, water: rig.WaterAt(s.Rig.Water),
		node:   make(map[network.NodeID]int, len(s.Network.Nodes)),
		pipe:   make(map[network.PipeID]int, len(s.Network.Pipes)),
		points: map[pointKey]point{}, reached: map[reachKey]bool{},
	}
	g.graph, _ = network.Trace(g.net)
	// Of two with one name the first is meant.
	for i := range slices.Backward(g.net.Nodes) {
		g.node[g.net.Nodes[i].ID] = i
	}
	for i := range slices.Backward(g.net.Pipes) {
		g.pipe[g.net.Pipes[i].ID] = i
	}
	for i := range g.net.Pipes {
		g.pipes = append(g.pipes, g.measure(i, r))
	}
	g.findAbove()
	return g
}

func (g *ground) measure(i int, r *report) measured {
	p := &g.net.Pipes[i]
	m := measured{Pipe: p, target: !p.OutOfJob}
	m.length = g.length(i)
	m.corners = g.corners(i, m.length)
	m.climb = g.climb(i, m.length)
	if p.Fragile && p.Ceiling != nil {
		m.ceiling = *p.Ceiling
	}
	material, ok := g.tables.Materials[p.Material]
	if !ok {
		r.add(RuleTables, g.pipeName(i), "material %q has no row", p.Material)
	}
	m.friction = material.Friction
	deposit := p.Deposit
	if deposit == "" {
		deposit = network.NoDeposit
	}
	row, ok := g.tables.Deposits[deposit]
	if !ok {
		r.add(RuleTables, g.pipeName(i), "deposit %q has no row", deposit)
	}
	for _, kind := range site.PassOrder() {
		for _, pass := range row.Passes {
			if pass.Kind == kind && pulls(pass, p) > 0 {
				m.asks = append(m.asks, pass)
			}
		}
	}
	return m
}

// pulls is how often a pass works a pipe on the way back; a pass without
// pulls for the pipe's severity is not asked for.
func pulls(pass site.PassRow, p *network.Pipe) int {
	severity := p.Severity
	if severity == "" {
		severity = network.Moderate
	}
	return pass.Pulls[severity]
}

// asksFor is the row of a kind of pass that a pipe asks for.
func (m *measured) asksFor(kind site.PassKind) (site.PassRow, bool) {
	for _, row := range m.asks {
		if row.Kind == kind {
			return row, true
		}
	}
	return site.PassRow{}, false
}

func (g *ground) pipeName(i int) string {
	p := &g.net.Pipes[i]
	if p.Label != "" {
		return "pipe " + p.Label
	}
	return "pipe " + string(p.ID)
}

func (g *ground) nodeName(i int) string {
	if i < 0 {
		return "no node"
	}
	n := &g.net.Nodes[i]
	if n.Label != "" {
		return string(n.Kind) + " " + n.Label
	}
	return string(n.Kind) + " " + string(n.ID)
}

// spot, hose and nozzle find things of the site by their names, nil where
// there is none.

func (g *ground) spot(id site.SpotID) *site.Spot {
	for i := range g.site.Spots {
		if g.site.Spots[i].ID == id {
			return &g.site.Spots[i]
		}
	}
	return nil
}

func (g *ground) hose(id string) *rig.Hose {
	for i := range g.site.Rig.Hoses {
		if g.site.Rig.Hoses[i].ID == id {
			return &g.site.Rig.Hoses[i]
		}
	}
	return nil
}

func (g *ground) nozzle(id string) *rig.Nozzle {
	for i := range g.site.Rig.Nozzles {
		if g.site.Rig.Nozzles[i].ID == id {
			return &g.site.Rig.Nozzles[i]
		}
	}
	return nil
}

// usable tells whether the trailer can stand at a spot.
func usable(s *site.Spot) bool { return !s.Uneven && s.Traffic != site.LiveTraffic }
