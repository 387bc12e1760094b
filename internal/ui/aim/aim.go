// Package aim finds what lies under the pointer and where the pointer is drawn
// to. It is pure: places in, places out.
//
// An [Index] knows where everything of a site lies. [Index.At] and [Index.Under]
// tell what is at a place, [Index.In] what is in a box, and [Index.Snap] where a
// pointer is drawn to: a joint, a pipe, one of the trade's angles, the grid.
package aim

import (
	"math"
	"slices"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

// Index finds things of a site by place. It is made once for each change of the
// site and never changed, so that any goroutine may use it.
type Index struct {
	// Copies: the site goes on to change.
	nodes []network.Node
	pipes []network.Pipe
	// out are the headings in which the nodes would go on at which one pipe
	// ends, NaN for others.
	out []Heading

	things []thing
	zones  []zone          // the areas, the smallest first
	places []network.Point // of their lines
	legs   []leg           // as the tree has them
	tree   tree
}

// thing is what can be pointed at.
type thing struct {
	ref  edit.Ref
	rank rank
	// of is the index of a node or a pipe.
	of int32
	// levels are those that it is on; anywhere says that it is on every one.
	levels   [2]string
	anywhere bool
	// fixed things are found by a click and not by a box.
	fixed bool
	// line is its way on the plan, one place for what is a point.
	line []network.Point
}

// rank orders things that lie over each other, the first on top.
type rank int8

const (
	joints rank = iota // nodes
	marks              // spots, water points, notes
	lines              // pipes, lays
	edges              // of areas
	sheets             // underlays
)

// leg is a straight part of a thing: from place i of its line to the next.
type leg struct{ thing, i int32 }

// NewIndex indexes a site in near linear time. G is the flow of its network.
//
// An underlay is found at its middle alone, for what it covers is all to be
// pointed at. What is on no level is on all of them, as are spots, water points
// and areas. Hidden underlays, and what has an end that is not there, are not
// found.
func NewIndex(s *site.Site, g *network.Graph) *Index {
	x := &Index{nodes: slices.Clone(s.Network.Nodes), pipes: slices.Clone(s.Network.Pipes)}
	x.network(g)
	x.ground(s, g)
	x.areas(s)
	x.sheets(s)
	x.ends(g)
	boxes := make([]box, 0, len(x.places))
	x.legs = make([]leg, 0, len(x.places))
	for t := range x.things {
		line := x.things[t].line
		for i := range max(1, len(line)-1) {
			b := around(line[i], line[min(i+1, len(line)-1)])
			if b.sound() {
				x.legs = append(x.legs, leg{int32(t), int32(i)})
				boxes = append(boxes, b)
			}
		}
	}
	var order []int32
	x.tree, order = newTree(boxes)
	legs := make([]leg, len(order))
	for i, o := range order {
		legs[i] = x.legs[o]
	}
	x.legs = legs
	return x
}

func (x *Index) network(g *network.Graph) {
	x.things = make([]thing, 0, len(x.nodes)+len(x.pipes)+16)
	x.places = make([]network.Point, 0, len(x.nodes)+4*len(x.pipes))
	for i := range x.nodes {
		n := &x.nodes[i]
		x.things = append(x.things, thing{
			ref: edit.NodeRef(n.ID), rank: joints, of: int32(i), line: x.place(n.At),
			levels: [2]string{n.Level, n.Level}, anywhere: n.Level == "",
		})
	}
	for i := range x.pipes {
		p := &x.pipes[i]
		from, okFrom := g.NodeIndex(p.From)
		to, okTo := g.NodeIndex(p.To)
		if !okFrom || !okTo {
			continue
		}
		a, b := &x.nodes[from], &x.nodes[to]
		x.things = append(x.things, thing{
			ref: edit.PipeRef(p.ID), rank: lines, of: int32(i), line: x.way(a.At, p.Via, b.At),
			levels: [2]string{a.Level, b.Level}, anywhere: a.Level == "" || b.Level == "",
		})
	}
}

func (x *Index) ground(s *site.Site, g *network.Graph) {
	spots := make(map[site.SpotID]network.Point, len(s.Spots))
	for i := range s.Spots {
		v := &s.Spots[i]
		spots[v.ID] = v.At
		x.mark(edit.SpotRef(v.ID), v.At, "")
	}
	water := make(map[site.WaterID]network.Point, len(s.Water))
	for i := range s.Water {
		v := &s.Water[i]
		water[v.ID] = v.At
		x.mark(edit.WaterRef(v.ID), v.At, "")
	}
	for i := range s.Notes {
		v := &s.Notes[i]
		x.mark(edit.NoteRef(v.ID), v.At, v.Level)
	}
	for i := range s.Lays {
		l := &s.Lays[i]
		from, ok := spots[l.Spot]
		to, there := water[l.Water]
		level := ""
		if n, is := g.NodeIndex(l.Access); is && l.Access != "" {
			to, there, level = x.nodes[n].At, true, x.nodes[n].Level
		}
		if ok && there {
			x.things = append(x.things, thing{
				ref: edit.LayRef(l), rank: lines, of: -1, line: x.way(from, l.Via, to),
				levels: [2]string{level, level}, anywhere: level == "",
			})
		}
	}
}

func (x *Index) mark(r edit.Ref, at network.Point, level string) {
	x.things = append(x.things, thing{
		ref: r, rank: marks, of: -1, line: x.place(at), levels: [2]string{level, level}, anywhere: level == "",
	})
}

func (x *Index) sheets(s *site.Site) {
	for i := range s.Underlays {
		u := &s.Underlays[i]
		if u.Hidden {
			continue
		}
		x.things = append(x.things, thing{
			ref: edit.UnderlayRef(u.ID), rank: sheets, of: -1, line: x.place(u.At),
			levels: [2]string{u.Level, u.Level}, anywhere: u.Level == "", fixed: u.Locked,
		})
	}
}

// way keeps the places of a line, and place the one of a point. They lie in one
// array, which may move as it grows; what was handed out stays.
func (x *Index) way(from network.Point, via []network.Point, to network.Point) []network.Point {
	first := len(x.places)
	x.places = append(append(append(x.places, from), via...), to)
	return x.places[first:len(x.places):len(x.places)]
}

func (x *Index) place(at network.Point) []network.Point {
	x.places = append(x.places, at)
	return x.places[len(x.places)-1 : len(x.places) : len(x.places)]
}

func (t *thing) on(level string) bool {
	return t.anywhere || t.levels[0] == level || t.levels[1] == level
}

// finite reports whether a place is one.
func finite(p network.Point) bool {
	sum := p.X.Metres() + p.Y.Metres()
	return !math.IsNaN(sum) && !math.IsInf(sum, 0)
}

// tidy rounds a place to the nanometre, so that a file says 0.3 and not
// 0.30000000000000004.
func tidy(p network.Point) network.Point {
	const perMetre = 1e9
	round := func(l unit.Length) unit.Length {
		return unit.Length(math.Round(l.Metres()*perMetre) / perMetre)
	}
	return network.Point{X: round(p.X), Y: round(p.Y)}
}
