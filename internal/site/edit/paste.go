package edit

import (
	"linemap/internal/network"
	"linemap/internal/site"
)

// Paste puts a copy of a clip on the site, its middle at a place. A clip that
// was all on one level comes to lie on the given one; of another, each part
// goes to the level of the same name, and to the given one where there is none.
// Labels that number something go on counting. It errs for an empty clip, a
// level that is not there, and where something would leave the plan.
func Paste(s *site.Site, c Clip, at network.Point, level string) (*Edit, error) {
	if c.Empty() {
		return nil, errNoClip
	}
	if err := levelThere(s, level); err != nil {
		return nil, err
	}
	all := Everything(c.part)
	low, high := network.Bounds(Places(c.part, all))
	by := network.Point{X: at.X - (low.X+high.X)/2, Y: at.Y - (low.Y+high.Y)/2}
	several := len(levelsIn(c.part)) > 1
	return paste("paste", s, c, by, func(l string) string {
		if several && levelThere(s, l) == nil {
			return l
		}
		return level
	})
}

// Duplicate copies what is selected and puts the copy so far away from it, on
// the same levels.
func Duplicate(s *site.Site, sel Selection, by network.Point) (*Edit, error) {
	c := Copy(s, sel)
	if c.Empty() {
		return nil, errNothing
	}
	return paste("duplicate", s, c, by, func(l string) string { return l })
}

// levelsIn is the levels, also the empty one, that something lies on.
func levelsIn(s *site.Site) map[string]bool {
	used := map[string]bool{}
	for i := range s.Network.Nodes {
		used[s.Network.Nodes[i].Level] = true
	}
	for i := range s.Notes {
		used[s.Notes[i].Level] = true
	}
	for i := range s.Underlays {
		used[s.Underlays[i].Level] = true
	}
	return used
}

func paste(verb string, s *site.Site, c Clip, by network.Point, level func(string) string) (*Edit, error) {
	name, err := called(verb, c.part, Everything(c.part))
	if err != nil {
		return nil, err
	}
	return Make(name, s, func(d *Draft) error {
		p := paster{
			carrier: carrier{draft: d, motion: motion{to: shift(by)}}, part: c.part.Clone(), level: level,
			nodes: map[network.NodeID]network.NodeID{}, pipes: map[network.PipeID]network.PipeID{},
			spots: map[site.SpotID]site.SpotID{}, water: map[site.WaterID]site.WaterID{},
		}
		p.network()
		p.ground()
		p.remarks()
		return p.err
	})
}

// paster puts a part on a site. The maps lead from the IDs in the part to those
// on the site.
type paster struct {
	carrier
	part  *site.Site
	level func(string) string
	nodes map[network.NodeID]network.NodeID
	pipes map[network.PipeID]network.PipeID
	spots map[site.SpotID]site.SpotID
	water map[site.WaterID]site.WaterID
}

func (p *paster) network() {
	net := &p.draft.site.Network
	names := newNumbering(net.Nodes, func(n *network.Node) string { return n.Label })
	for _, n := range p.part.Network.Nodes {
		id := n.ID
		p.point(&n.At, n.Name)
		n.ID, n.Label, n.Level = "", names.next(n.Label), p.level(n.Level)
		if n.Junction != nil {
			n.Junction = &network.Junction{Kind: n.Junction.Kind, Branches: []network.PipeID{}}
		}
		p.nodes[id] = p.draft.AddNode(n)
		p.draft.Made(NodeRef(p.nodes[id]))
	}
	names = newNumbering(net.Pipes, func(v *network.Pipe) string { return v.Label })
	for _, v := range p.part.Network.Pipes {
		id := v.ID
		p.corners(&v.Via, v.Name)
		v.ID, v.Label, v.From, v.To = "", names.next(v.Label), p.nodes[v.From], p.nodes[v.To]
		p.pipes[id] = p.draft.AddPipe(v)
		p.draft.Made(PipeRef(p.pipes[id]))
	}
	for _, n := range p.part.Network.Nodes {
		if n.Junction == nil || len(n.Junction.Branches) == 0 {
			continue
		}
		j := &network.Junction{Kind: n.Junction.Kind}
		for _, id := range n.Junction.Branches {
			j.Branches = append(j.Branches, p.pipes[id])
		}
		pasted, _ := p.draft.Node(p.nodes[n.ID])
		pasted.Junction = j
		p.draft.SetNode(pasted)
	}
}

func (p *paster) ground() {
	names := newNumbering(p.draft.site.Spots, func(v *site.Spot) string { return v.Label })
	for _, v := range p.part.Spots {
		id := v.ID
		p.point(&v.At, func() string { return spotName(&v) })
		v.ID, v.Label = "", names.next(v.Label)
		p.spots[id] = p.draft.AddSpot(v)
		p.draft.Made(SpotRef(p.spots[id]))
	}
	names = newNumbering(p.draft.site.Water, func(v *site.WaterPoint) string { return v.Label })
	for _, v := range p.part.Water {
		id := v.ID
		p.point(&v.At, func() string { return waterName(&v) })
		v.ID, v.Label = "", names.next(v.Label)
		p.water[id] = p.draft.AddWater(v)
		p.draft.Made(WaterRef(p.water[id]))
	}
	for _, l := range p.part.Lays {
		p.corners(&l.Via, layName)
		l.Spot, l.Access, l.Water = p.spots[l.Spot], p.nodes[l.Access], p.water[l.Water]
		p.draft.AddLay(l)
		p.draft.Made(LayRef(&l))
	}
	names = newNumbering(p.draft.site.Areas, func(v *site.Area) string { return v.Label })
	for _, v := range p.part.Areas {
		p.corners(&v.Outline, v.Name)
		v.ID, v.Label = "", names.next(v.Label)
		p.draft.Made(AreaRef(p.draft.AddArea(v)))
	}
}

func (p *paster) remarks() {
	for _, v := range p.part.Notes {
		p.point(&v.At, func() string { return noteName(&v) })
		v.ID, v.Level = "", p.level(v.Level)
		p.draft.Made(NoteRef(p.draft.AddNote(v)))
	}
	for _, v := range p.part.Underlays {
		p.point(&v.At, func() string { return underlayName(&v) })
		v.ID, v.Level, v.Locked = "", p.level(v.Level), false
		p.draft.Made(UnderlayRef(p.draft.AddUnderlay(v)))
	}
}
