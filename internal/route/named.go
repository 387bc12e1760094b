package route

import (
	"slices"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/site"
)

// named is a run that was decided on by hand, found on the site.
type named struct {
	key site.RunKey
	// spot and access are -1 where they may not be used.
	spot, access int
	runID
	path []int
}

// runID is what the places of one run's end have in common.
type runID struct {
	access, hose, end int
	down              bool
}

func (c *catalogue) runAt(place int) runID {
	p := &c.places[place]
	return runID{p.access, p.hose, p.pipe, p.down}
}

// find finds a run by its key; ok is false where something that it names is
// not there, or no way leads from its access to its end.
func (m *model) find(key site.RunKey) (n named, ok bool) {
	hose := slices.IndexFunc(m.site.Rig.Hoses, func(h rig.Hose) bool { return h.ID == key.Hose })
	if hose < 0 || !slices.ContainsFunc(m.site.Spots, func(s site.Spot) bool { return s.ID == key.Spot }) {
		return named{}, false
	}
	node, ok := m.g.NodeIndex(key.Access)
	if !ok || m.site.Network.Nodes[node].Kind != network.KindAccess || m.site.Network.Nodes[node].Access == nil {
		return named{}, false
	}
	end, ok := m.g.PipeIndex(key.End)
	if !ok {
		return named{}, false
	}
	for _, path := range m.waysFrom(node, end) {
		if down := m.g.Down[path[0]] != node; down != key.Downstream {
			continue
		}
		n = named{key: key, path: path, runID: runID{hose: hose, end: end, down: key.Downstream}}
		n.spot = slices.IndexFunc(m.spots, func(s modelSpot) bool { return s.spot.ID == key.Spot })
		n.access = m.accessAt[node]
		n.runID.access = n.access
		return n, true
	}
	return named{}, false
}

// findAll finds the runs of a list, each once, and lists the keys that stand
// for none.
func (m *model) findAll(keys []site.RunKey) (found []named, unknown []site.RunKey) {
	seen := make(map[site.RunKey]bool, len(keys))
	for _, key := range keys {
		if seen[key] {
			continue
		}
		seen[key] = true
		if n, ok := m.find(key); ok {
			found = append(found, n)
		} else {
			unknown = append(unknown, key)
		}
	}
	return found, unknown
}

// whyNot says why no candidate makes a run.
func (c *catalogue) whyNot(n *named) Breach {
	b := Breach{Key: n.key}
	switch {
	case n.spot < 0:
		b.What = SpotUnfit
	case n.access < 0:
		b.What = AccessShut
	case !c.entry(n.access, n.path[0]).Open:
		b.What = FacesAway
	case !c.pipes[n.end].target:
		b.What = NotInJob
	default:
		if b.What, b.Rule = BreaksRule, c.ruleBroken(n); b.Rule == nil {
			b.What, b.Pipe = OverUncleaned, c.uncleanedOn(n)
		}
	}
	return b
}

// uncleanedOn is the first pipe on a run's way that no run can clean.
func (c *catalogue) uncleanedOn(n *named) network.PipeID {
	for _, p := range n.path {
		if c.pipes[p].target && !c.reachable[p] {
			return c.site.Network.Pipes[p].ID
		}
	}
	return ""
}

// ruleBroken is the rule that keeps a run from being made from its spot; nil
// where no rule does.
func (c *catalogue) ruleBroken(n *named) *Shortfall {
	if s := c.pathBroken(n); s != nil {
		return s
	}
	s, served := c.shortfall(n.end), false
	for i := range c.columns {
		col := &c.columns[i]
		if c.runAt(col.end) != n.runID {
			continue
		}
		if over, ok := c.columnOver(col, c.spots[n.spot].inflow); ok {
			if over <= 0 {
				return nil
			}
			if !served || over < s.ByWater {
				served, s.ByWater = true, over
			}
		}
	}
	if served {
		s.Reason = NoWater
		return &s
	}
	t := c.attempt(n.access, n.hose, n.path)
	(&explainer{catalogue: c}).tell(&t, &s)
	s.Reason = NoNozzle
	return &s
}

// pathBroken is the first rule that a run breaks on its path or by the reel of
// its spot; nil for none.
func (c *catalogue) pathBroken(n *named) *Shortfall {
	t := c.attempt(n.access, n.hose, n.path)
	t.spot, t.over = n.spot, c.overReel(t.way, c.layTo(n.access, n.spot))
	if t.works() {
		return nil
	}
	s := c.shortfall(n.end)
	(&explainer{catalogue: c}).reasonOf(&t, &s)
	return &s
}
