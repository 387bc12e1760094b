package edit

import (
	"fmt"
	"slices"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// Draft is a site with an edit in the making: each of its methods changes the
// site at once and records how to take that back. What a method is given must
// share nothing with what the site holds.
type Draft struct {
	site *site.Site
	edit *Edit

	// Places by ID; nil where they have to be read anew.
	nodes map[network.NodeID]int
	pipes map[network.PipeID]int
	last  map[string]int // the number given last, by prefix
}

// Made notes what the user goes on with after the edit.
func (d *Draft) Made(refs ...Ref) { d.edit.made = append(d.edit.made, refs...) }

func (d *Draft) step(st step) {
	d.edit.steps = append(d.edit.steps, st)
	st.do(d.site)
}

// Node returns a copy of a node, false where there is none of that ID. Nothing
// behind its pointers may be changed.
func (d *Draft) Node(id network.NodeID) (network.Node, bool) {
	i, ok := d.nodeIndex()[id]
	if !ok {
		return network.Node{}, false
	}
	return d.site.Network.Nodes[i], true
}

// Pipe returns a copy of a pipe, false where there is none of that ID. Nothing
// behind its pointers may be changed.
func (d *Draft) Pipe(id network.PipeID) (network.Pipe, bool) {
	i, ok := d.pipeIndex()[id]
	if !ok {
		return network.Pipe{}, false
	}
	return d.site.Network.Pipes[i], true
}

// AddNode adds a node at the end of the list; one without an ID gets one.
func (d *Draft) AddNode(n network.Node) network.NodeID {
	index := d.nodeIndex()
	if n.ID == "" {
		n.ID = fresh(d, "n", func(id network.NodeID) bool { _, taken := index[id]; return taken })
	}
	index[n.ID] = len(d.site.Network.Nodes)
	add(d, nodesOf, n)
	return n.ID
}

// SetNode puts a node in the place of the one with its ID.
func (d *Draft) SetNode(n network.Node) { set(d, nodesOf, d.nodeIndex()[n.ID], n) }

// RemoveNodes removes nodes, and nothing that hangs on them.
func (d *Draft) RemoveNodes(gone func(*network.Node) bool) {
	drop(d, nodesOf, gone, false)
	d.nodes = nil
}

// AddPipe adds a pipe at the end of the list; one without an ID gets one.
func (d *Draft) AddPipe(p network.Pipe) network.PipeID {
	index := d.pipeIndex()
	if p.ID == "" {
		p.ID = fresh(d, "p", func(id network.PipeID) bool { _, taken := index[id]; return taken })
	}
	index[p.ID] = len(d.site.Network.Pipes)
	add(d, pipesOf, p)
	return p.ID
}

// SetPipe puts a pipe in the place of the one with its ID.
func (d *Draft) SetPipe(p network.Pipe) { set(d, pipesOf, d.pipeIndex()[p.ID], p) }

// RemovePipes removes pipes, and nothing that names them.
func (d *Draft) RemovePipes(gone func(*network.Pipe) bool) {
	drop(d, pipesOf, gone, false)
	d.pipes = nil
}

// AddLevel adds a level at the end of the list.
func (d *Draft) AddLevel(l network.Level) { add(d, levelsOf, l) }

// SetLevel puts a level in the place of the i-th.
func (d *Draft) SetLevel(i int, l network.Level) { set(d, levelsOf, i, l) }

// RemoveLevels removes levels, and nothing that names them.
func (d *Draft) RemoveLevels(gone func(*network.Level) bool) { drop(d, levelsOf, gone, true) }

// AddSpot adds a spot; one without an ID gets one.
func (d *Draft) AddSpot(v site.Spot) site.SpotID {
	if v.ID == "" {
		v.ID = freshIn(d, "s", d.site.Spots, func(o *site.Spot) site.SpotID { return o.ID })
	}
	add(d, spotsOf, v)
	return v.ID
}

// SetSpot puts a spot in the place of the i-th.
func (d *Draft) SetSpot(i int, v site.Spot) { set(d, spotsOf, i, v) }

// RemoveSpots removes spots, and nothing that names them.
func (d *Draft) RemoveSpots(gone func(*site.Spot) bool) { drop(d, spotsOf, gone, false) }

// AddWater adds a water point; one without an ID gets one.
func (d *Draft) AddWater(v site.WaterPoint) site.WaterID {
	if v.ID == "" {
		v.ID = freshIn(d, "w", d.site.Water, func(o *site.WaterPoint) site.WaterID { return o.ID })
	}
	add(d, waterOf, v)
	return v.ID
}

// SetWater puts a water point in the place of the i-th.
func (d *Draft) SetWater(i int, v site.WaterPoint) { set(d, waterOf, i, v) }

// RemoveWater removes water points, and nothing that names them.
func (d *Draft) RemoveWater(gone func(*site.WaterPoint) bool) { drop(d, waterOf, gone, true) }

// AddLay adds a lay.
func (d *Draft) AddLay(v site.Lay) { add(d, laysOf, v) }

// SetLay puts a lay in the place of the i-th.
func (d *Draft) SetLay(i int, v site.Lay) { set(d, laysOf, i, v) }

// RemoveLays removes lays.
func (d *Draft) RemoveLays(gone func(*site.Lay) bool) { drop(d, laysOf, gone, true) }

// AddArea adds an area; one without an ID gets one.
func (d *Draft) AddArea(v site.Area) site.AreaID {
	if v.ID == "" {
		v.ID = freshIn(d, "a", d.site.Areas, func(o *site.Area) site.AreaID { return o.ID })
	}
	add(d, areasOf, v)
	return v.ID
}

// SetArea puts an area in the place of the i-th.
func (d *Draft) SetArea(i int, v site.Area) { set(d, areasOf, i, v) }

// RemoveAreas removes areas.
func (d *Draft) RemoveAreas(gone func(*site.Area) bool) { drop(d, areasOf, gone, true) }

// AddNote adds a note; one without an ID gets one.
func (d *Draft) AddNote(v site.Note) site.NoteID {
	if v.ID == "" {
		v.ID = freshIn(d, "t", d.site.Notes, func(o *site.Note) site.NoteID { return o.ID })
	}
	add(d, notesOf, v)
	return v.ID
}

// SetNote puts a note in the place of the i-th.
func (d *Draft) SetNote(i int, v site.Note) { set(d, notesOf, i, v) }

// RemoveNotes removes notes.
func (d *Draft) RemoveNotes(gone func(*site.Note) bool) { drop(d, notesOf, gone, true) }

// AddUnderlay adds an underlay on top of the others; one without an ID gets
// one.
func (d *Draft) AddUnderlay(v site.Underlay) site.UnderlayID {
	if v.ID == "" {
		v.ID = freshIn(d, "u", d.site.Underlays, func(o *site.Underlay) site.UnderlayID { return o.ID })
	}
	add(d, underlaysOf, v)
	return v.ID
}

// SetUnderlay puts an underlay in the place of the i-th.
func (d *Draft) SetUnderlay(i int, v site.Underlay) { set(d, underlaysOf, i, v) }

// RemoveUnderlays removes underlays.
func (d *Draft) RemoveUnderlays(gone func(*site.Underlay) bool) { drop(d, underlaysOf, gone, true) }

// SetJob, SetUnits, SetPaper, SetCode, SetGeo, SetRig, SetPrices and SetByHand put the
// whole value in the place of the old one.
func (d *Draft) SetJob(v site.Job) { change(d, func(s *site.Site) *site.Job { return &s.Job }, v) }

// SetUnits chooses the units that people read.
func (d *Draft) SetUnits(v unit.System) {
	change(d, func(s *site.Site) *unit.System { return &s.Units }, v)
}

// SetPaper chooses the paper.
func (d *Draft) SetPaper(v site.Paper) {
	change(d, func(s *site.Site) *site.Paper { return &s.Paper }, v)
}

// SetCode chooses the code edition.
func (d *Draft) SetCode(v string) { change(d, func(s *site.Site) *string { return &s.Code }, v) }

// SetGeo says where on Earth the site lies, nil for not known.
func (d *Draft) SetGeo(v *site.Geo) { change(d, func(s *site.Site) **site.Geo { return &s.Geo }, v) }

// SetRig puts another rig in the place of the site's.
func (d *Draft) SetRig(v rig.Rig) { change(d, func(s *site.Site) *rig.Rig { return &s.Rig }, v) }

// SetPrices puts other prices in the place of the site's.
func (d *Draft) SetPrices(v site.Prices) {
	change(d, func(s *site.Site) *site.Prices { return &s.Prices }, v)
}

// SetByHand puts other decisions in the place of the site's.
func (d *Draft) SetByHand(v site.ByHand) {
	change(d, func(s *site.Site) *site.ByHand { return &s.ByHand }, v)
}

func nodesOf(s *site.Site) *[]network.Node      { return &s.Network.Nodes }
func pipesOf(s *site.Site) *[]network.Pipe      { return &s.Network.Pipes }
func levelsOf(s *site.Site) *[]network.Level    { return &s.Network.Levels }
func spotsOf(s *site.Site) *[]site.Spot         { return &s.Spots }
func waterOf(s *site.Site) *[]site.WaterPoint   { return &s.Water }
func laysOf(s *site.Site) *[]site.Lay           { return &s.Lays }
func areasOf(s *site.Site) *[]site.Area         { return &s.Areas }
func notesOf(s *site.Site) *[]site.Note         { return &s.Notes }
func underlaysOf(s *site.Site) *[]site.Underlay { return &s.Underlays }

func add[T any](d *Draft, list func(*site.Site) *[]T, v T) {
	l := *list(d.site)
	d.step(&insert[T]{list, len(l), v, l == nil})
}

func set[T any](d *Draft, list func(*site.Site) *[]T, i int, v T) {
	d.step(&replace[T]{list, i, (*list(d.site))[i], v})
}

func change[T any](d *Draft, field func(*site.Site) *T, v T) {
	d.step(&assign[T]{field, *field(d.site), v})
}

// drop removes what is gone. A few elements are taken out one by one; for many
// the whole list is made anew.
func drop[T any](d *Draft, list func(*site.Site) *[]T, gone func(*T) bool, nilable bool) {
	const few = 16
	l := *list(d.site)
	var at []int
	for i := range l {
		if gone(&l[i]) {
			at = append(at, i)
		}
	}
	if len(at) > few {
		kept := make([]T, 0, len(l)-len(at))
		for i := range l {
			if len(at) > 0 && at[0] == i {
				at = at[1:]
				continue
			}
			kept = append(kept, l[i])
		}
		if nilable && len(kept) == 0 {
			kept = nil
		}
		d.step(&swap[T]{list, kept})
		return
	}
	for _, i := range slices.Backward(at) {
		d.step(&remove[T]{list, i, (*list(d.site))[i], nilable})
	}
}

func (d *Draft) nodeIndex() map[network.NodeID]int {
	if d.nodes == nil {
		d.nodes = make(map[network.NodeID]int, len(d.site.Network.Nodes)+8)
		for i := range d.site.Network.Nodes {
			d.nodes[d.site.Network.Nodes[i].ID] = i
		}
	}
	return d.nodes
}

func (d *Draft) pipeIndex() map[network.PipeID]int {
	if d.pipes == nil {
		d.pipes = make(map[network.PipeID]int, len(d.site.Network.Pipes)+8)
		for i := range d.site.Network.Pipes {
			d.pipes[d.site.Network.Pipes[i].ID] = i
		}
	}
	return d.pipes
}

// freshIn returns an ID that no element of a short list has.
func freshIn[T any, ID ~string](d *Draft, prefix string, list []T, of func(*T) ID) ID {
	return fresh(d, prefix, func(id ID) bool {
		for i := range list {
			if of(&list[i]) == id {
				return true
			}
		}
		return false
	})
}

// fresh returns an ID of a prefix and a number that is not taken: the next one
// where the numbers have no gaps. It looks at a few numbers only, however many
// are taken.
func fresh[ID ~string](d *Draft, prefix string, taken func(ID) bool) ID {
	if d.last == nil {
		d.last = map[string]int{}
	}
	id := func(n int) ID { return ID(fmt.Sprint(prefix, n)) }
	used, step := d.last[prefix], 1
	for taken(id(used + step)) {
		used, step = used+step, 2*step
	}
	// One of the numbers after used, up to step more, is free.
	free := used + step
	for free-used > 1 {
		if mid := used + (free-used)/2; taken(id(mid)) {
			used = mid
		} else {
			free = mid
		}
	}
	d.last[prefix] = free
	return id(free)
}
