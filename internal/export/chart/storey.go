package chart

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"linemap/internal/export/drawing"
	"linemap/internal/network"
	"linemap/internal/unit"
)

// storey is what one plan shows: a level, or several that are drawn as one
// because pipes run across from one to the other (a building drain under the
// floor, a sewer in the yard).
type storey struct {
	levels []network.Level
	nodes  []int
	pipes  []int // drawn on the plan
	rises  []rise
	exits  []exit
	box    extent
	main   bool // the outlet is here, and the spots
	// crowd is how many things have a label here, near how close some of them
	// stand.
	crowd int
	near  []crowding
	known map[float64]float64 // strain by scale
	// at are the places that must be on some sheet.
	at []drawing.Point
	// pad is the room for labels beside the drawing, in millimetres.
	pad float64
}

// rise is a pipe that leaves a storey at a node, up or down.
type rise struct {
	pipe, node int
	up         bool
}

// exit is a pipe that runs off to another storey, to end at a node there.
type exit struct{ pipe, node int }

// plainName titles the plan of a site without levels.
const plainName = "Plan"

// name titles the storey's panel.
func (st *storey) name() string {
	var names []string
	for _, l := range st.levels {
		if l.Name != "" {
			names = append(names, l.Name)
		}
	}
	if len(names) == 0 {
		return plainName
	}
	return strings.Join(names, ", ")
}

// has reports whether a level is one of the storey's.
func (st *storey) has(level string) bool {
	return slices.ContainsFunc(st.levels, func(l network.Level) bool { return l.Name == level })
}

// storeys splits the network by its levels, the main one first, the others
// from the lowest up. With merge, levels that a pipe runs across between
// become one storey; else the pipe is drawn on both.
func storeys(g *network.Graph, merge bool) []*storey {
	net := g.Net
	levels := levelsOf(net)
	group := map[string]string{}
	var root func(string) string
	root = func(name string) string {
		if group[name] == name {
			return name
		}
		return root(group[name])
	}
	for _, l := range levels {
		group[l.Name] = l.Name
	}
	for p := range net.Pipes {
		if !merge || !joined(g, p) || plumb(g, p) {
			continue
		}
		a, b := root(net.Nodes[g.Up[p]].Level), root(net.Nodes[g.Down[p]].Level)
		group[max(a, b)] = min(a, b)
	}
	byRoot := map[string]*storey{}
	var all []*storey
	for _, l := range levels {
		r := root(l.Name)
		st := byRoot[r]
		if st == nil {
			st = &storey{box: nowhere()}
			byRoot[r], all = st, append(all, st)
		}
		st.levels = append(st.levels, l)
	}
	of := func(node int) *storey { return byRoot[root(net.Nodes[node].Level)] }
	for n := range net.Nodes {
		st := of(n)
		st.nodes = append(st.nodes, n)
		st.box.add(point(net.Nodes[n].At))
	}
	for p := range net.Pipes {
		if joined(g, p) {
			share(g, p, of(g.Up[p]), of(g.Down[p]))
		}
	}
	all = slices.DeleteFunc(all, func(st *storey) bool { return len(st.nodes) == 0 })
	markMain(g, all)
	slices.SortStableFunc(all, func(a, b *storey) int {
		if a.main != b.main {
			if a.main {
				return -1
			}
			return 1
		}
		return cmp.Compare(a.levels[0].Elevation, b.levels[0].Elevation)
	})
	return all
}

// share gives a pipe to the storeys of its upper and lower ends.
func share(g *network.Graph, p int, up, down *storey) {
	if up != down && plumb(g, p) {
		higher := g.Elevation(g.Up[p]) >= g.Elevation(g.Down[p])
		up.rises = append(up.rises, rise{p, g.Up[p], !higher})
		down.rises = append(down.rises, rise{p, g.Down[p], higher})
		return
	}
	line := trace(g, p)
	for _, st := range []*storey{up, down} {
		st.pipes = append(st.pipes, p)
		for _, q := range line {
			st.box.add(q)
		}
		if up == down {
			return
		}
	}
	up.exits = append(up.exits, exit{p, g.Down[p]})
	down.exits = append(down.exits, exit{p, g.Up[p]})
}

// joined reports whether both ends of a pipe are nodes of the network; one that
// is not has no place on the map, and a finding says so.
func joined(g *network.Graph, p int) bool { return g.Up[p] >= 0 && g.Down[p] >= 0 }

// plumb reports whether a pipe between two levels goes up rather than along.
func plumb(g *network.Graph, p int) bool {
	if g.Net.Pipes[p].Class == network.Stack {
		return true
	}
	rise := math.Abs((g.Elevation(g.Up[p]) - g.Elevation(g.Down[p])).Metres())
	return lengthOf(trace(g, p)) <= max(rise, unit.Millimetres(300).Metres())
}
