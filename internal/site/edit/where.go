package edit

import (
	"linemap/internal/network"
	"linemap/internal/site"
)

// Places lists the places on the plan that a selection takes up: nodes, the
// corners and ends of pipes, the way of lays, the corners of areas, the middle of underlays.
func Places(s *site.Site, sel Selection) []network.Point {
	var all []network.Point
	at := make(map[network.NodeID]network.Point, len(s.Network.Nodes))
	for i := range s.Network.Nodes {
		n := &s.Network.Nodes[i]
		at[n.ID] = n.At
		if sel.Has(NodeRef(n.ID)) {
			all = append(all, n.At)
		}
	}
	for i := range s.Network.Pipes {
		if p := &s.Network.Pipes[i]; sel.Has(PipeRef(p.ID)) {
			all = append(append(all, at[p.From], at[p.To]), p.Via...)
		}
	}
	for i := range s.Spots {
		if sel.Has(SpotRef(s.Spots[i].ID)) {
			all = append(all, s.Spots[i].At)
		}
	}
	for i := range s.Water {
		if sel.Has(WaterRef(s.Water[i].ID)) {
			all = append(all, s.Water[i].At)
		}
	}
	for i := range s.Lays {
		if sel.Has(LayRef(&s.Lays[i])) {
			all = append(all, LayWay(s, &s.Lays[i])...)
		}
	}
	for i := range s.Areas {
		if sel.Has(AreaRef(s.Areas[i].ID)) {
			all = append(all, s.Areas[i].Outline...)
		}
	}
	for i := range s.Notes {
		if sel.Has(NoteRef(s.Notes[i].ID)) {
			all = append(all, s.Notes[i].At)
		}
	}
	for i := range s.Underlays {
		if sel.Has(UnderlayRef(s.Underlays[i].ID)) {
			all = append(all, s.Underlays[i].At)
		}
	}
	return all
}

// LayWay returns the way of a lay on the plan with both its ends, nil where an
// end is not there.
func LayWay(s *site.Site, l *site.Lay) []network.Point {
	for i := range s.Spots {
		spot := &s.Spots[i]
		if spot.ID != l.Spot {
			continue
		}
		for k := range s.Network.Nodes {
			if n := &s.Network.Nodes[k]; l.Access != "" && n.ID == l.Access {
				return s.LayPath(spot, n)
			}
		}
		for k := range s.Water {
			if w := &s.Water[k]; l.Water != "" && w.ID == l.Water {
				return s.SupplyPath(spot, w)
			}
		}
	}
	return nil
}

// LevelOf is the level that a thing is on: that of a pipe's lower end as drawn.
// It is false for what lies on the ground of the whole site, and for what is
// not there.
func LevelOf(s *site.Site, r Ref) (string, bool) {
	switch r.Kind {
	case Node:
		for i := range s.Network.Nodes {
			if n := &s.Network.Nodes[i]; NodeRef(n.ID) == r {
				return n.Level, true
			}
		}
	case Pipe:
		for i := range s.Network.Pipes {
			if p := &s.Network.Pipes[i]; PipeRef(p.ID) == r {
				return LevelOf(s, NodeRef(p.To))
			}
		}
	case Note:
		for i := range s.Notes {
			if n := &s.Notes[i]; NoteRef(n.ID) == r {
				return n.Level, true
			}
		}
	case Underlay:
		for i := range s.Underlays {
			if u := &s.Underlays[i]; UnderlayRef(u.ID) == r {
				return u.Level, true
			}
		}
	}
	return "", false
}
