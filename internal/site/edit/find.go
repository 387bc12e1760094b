package edit

import (
	"linemap/internal/network"
	"linemap/internal/site"
)

// SameKind is everything on the site of the kind of one thing, with the thing
// itself: nodes of one kind, and of one opening or fitting; pipes of one size,
// material and class; water points and areas of one kind; all spots, lays, notes
// or underlays. It is empty for what is not there.
func SameKind(s *site.Site, r Ref) Selection {
	switch r.Kind {
	case Node:
		return alike(s.Network.Nodes, func(n *network.Node) Ref { return NodeRef(n.ID) }, r, sortOfNode)
	case Pipe:
		return alike(s.Network.Pipes, func(p *network.Pipe) Ref { return PipeRef(p.ID) }, r, func(p *network.Pipe) any {
			return [3]any{p.Size, p.Material, p.Class}
		})
	case Spot:
		return alike(s.Spots, func(v *site.Spot) Ref { return SpotRef(v.ID) }, r, func(*site.Spot) any { return nil })
	case Water:
		return alike(s.Water, func(v *site.WaterPoint) Ref { return WaterRef(v.ID) }, r, func(v *site.WaterPoint) any { return v.Kind })
	case Lay:
		return alike(s.Lays, LayRef, r, func(*site.Lay) any { return nil })
	case Area:
		return alike(s.Areas, func(v *site.Area) Ref { return AreaRef(v.ID) }, r, func(v *site.Area) any { return v.Kind })
	case Note:
		return alike(s.Notes, func(v *site.Note) Ref { return NoteRef(v.ID) }, r, func(*site.Note) any { return nil })
	case Underlay:
		return alike(s.Underlays, func(v *site.Underlay) Ref { return UnderlayRef(v.ID) }, r, func(*site.Underlay) any { return nil })
	}
	return Selection{}
}

func sortOfNode(n *network.Node) any {
	sort := [2]any{n.Kind, nil}
	switch {
	case n.Access != nil:
		sort[1] = n.Access.Kind
	case n.Junction != nil:
		sort[1] = n.Junction.Kind
	}
	return sort
}

// alike selects the elements of a list whose sort is that of the one that r
// refers to.
func alike[T any](list []T, ref func(*T) Ref, r Ref, sort func(*T) any) Selection {
	for i := range list {
		if ref(&list[i]) != r {
			continue
		}
		want := sort(&list[i])
		var all []Ref
		for k := range list {
			if sort(&list[k]) == want {
				all = append(all, ref(&list[k]))
			}
		}
		return Select(all...)
	}
	return Selection{}
}

// All is everything that can be worked on while a level is drawn on: what is on
// that level or on none, with the pipes both of whose ends are; spots, water
// points, lays and areas; no underlay that is locked or hidden.
func All(s *site.Site, level string) Selection {
	on := func(l string) bool { return l == level || l == "" }
	out := map[Ref]bool{}
	for i := range s.Network.Nodes {
		if n := &s.Network.Nodes[i]; !on(n.Level) {
			out[NodeRef(n.ID)] = true
		}
	}
	for i := range s.Network.Pipes {
		if p := &s.Network.Pipes[i]; out[NodeRef(p.From)] || out[NodeRef(p.To)] {
			out[PipeRef(p.ID)] = true
		}
	}
	for i := range s.Lays {
		if l := &s.Lays[i]; l.Access != "" && out[NodeRef(l.Access)] {
			out[LayRef(l)] = true
		}
	}
	for i := range s.Notes {
		if v := &s.Notes[i]; !on(v.Level) {
			out[NoteRef(v.ID)] = true
		}
	}
	for i := range s.Underlays {
		if v := &s.Underlays[i]; !on(v.Level) || v.Locked || v.Hidden {
			out[UnderlayRef(v.ID)] = true
		}
	}
	all := Everything(s)
	for r := range out {
		delete(all.refs, r)
	}
	return all
}

// Everything is all that is on a site.
func Everything(s *site.Site) Selection {
	all := Select()
	add := func(r Ref) { all.refs[r] = struct{}{} }
	for i := range s.Network.Nodes {
		add(NodeRef(s.Network.Nodes[i].ID))
	}
	for i := range s.Network.Pipes {
		add(PipeRef(s.Network.Pipes[i].ID))
	}
	for i := range s.Spots {
		add(SpotRef(s.Spots[i].ID))
	}
	for i := range s.Water {
		add(WaterRef(s.Water[i].ID))
	}
	for i := range s.Lays {
		add(LayRef(&s.Lays[i]))
	}
	for i := range s.Areas {
		add(AreaRef(s.Areas[i].ID))
	}
	for i := range s.Notes {
		add(NoteRef(s.Notes[i].ID))
	}
	for i := range s.Underlays {
		add(UnderlayRef(s.Underlays[i].ID))
	}
	return all
}
