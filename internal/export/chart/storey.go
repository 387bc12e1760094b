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

// storey is what one panel shows: a level, or several that are drawn as one
// plan because pipes run across from one to the other (a building drain under
// the floor, a sewer in the yard).
type storey struct {
	levels []network.Level
	nodes  []int
	pipes  []int // drawn on the plan
	rises  []rise
	box    extent
	main   bool // the outlet is here, and the spots
}

// rise is a pipe that leaves a storey at a node, up or down.
type rise struct {
	pipe, node int
	up         bool
}

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

// across is the least plan length of a pipe that makes two levels one plan; a
// stack's offset is shorter.
const across = unit.Length(1.5)

// storeys splits the network into panels, the main one first, the others from
// the lowest up.
func storeys(g *network.Graph) []*storey {
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
		if !joined(g, p) {
			continue
		}
		if a, b := ends(g, p); a != b && runsAcross(g, p) {
			if ra, rb := root(a), root(b); ra != rb {
				group[max(ra, rb)] = min(ra, rb)
			}
		}
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
		if !joined(g, p) {
			continue
		}
		up, down := of(g.Up[p]), of(g.Down[p])
		if up == down {
			up.pipes = append(up.pipes, p)
			for _, q := range g.Polyline(p) {
				up.box.add(point(q))
			}
			continue
		}
		higher := g.Elevation(g.Up[p]) >= g.Elevation(g.Down[p])
		up.rises = append(up.rises, rise{p, g.Up[p], !higher})
		down.rises = append(down.rises, rise{p, g.Down[p], higher})
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

// levelsOf lists the network's levels, and those that only its nodes name,
// lowest first.
func levelsOf(net *network.Network) []network.Level {
	seen := map[string]bool{}
	var levels []network.Level
	add := func(l network.Level) {
		if !seen[l.Name] {
			seen[l.Name] = true
			levels = append(levels, l)
		}
	}
	for _, l := range net.Levels {
		add(l)
	}
	for i := range net.Nodes {
		add(network.Level{Name: net.Nodes[i].Level})
	}
	slices.SortStableFunc(levels, func(a, b network.Level) int { return cmp.Compare(a.Elevation, b.Elevation) })
	return levels
}

// markMain picks the storey with most outlets, else the lowest.
func markMain(g *network.Graph, all []*storey) {
	if len(all) == 0 {
		return
	}
	most, main := 0, all[0]
	for _, st := range all {
		n := 0
		for _, o := range g.Outlets {
			if slices.Contains(st.nodes, o) {
				n++
			}
		}
		if n > most {
			most, main = n, st
		}
	}
	main.main = true
}

// joined reports whether both ends of a pipe are nodes of the network; one that
// is not has no place on the map, and a finding says so.
func joined(g *network.Graph, p int) bool { return g.Up[p] >= 0 && g.Down[p] >= 0 }

// ends returns the levels of a pipe's upstream and downstream ends.
func ends(g *network.Graph, p int) (up, down string) {
	return g.Net.Nodes[g.Up[p]].Level, g.Net.Nodes[g.Down[p]].Level
}

// runsAcross reports whether a pipe goes far enough sideways to be drawn on
// the plan.
func runsAcross(g *network.Graph, p int) bool {
	if g.Net.Pipes[p].Class == network.Stack {
		return false
	}
	return lengthOf(trace(g, p)) >= across.Metres()
}

// trace returns a pipe on the ground, from its upstream end.
func trace(g *network.Graph, p int) []drawing.Point {
	line := g.Polyline(p)
	pts := make([]drawing.Point, len(line))
	for i, q := range line {
		pts[i] = point(q)
	}
	return pts
}

func point(p network.Point) drawing.Point {
	return drawing.Point{X: p.X.Metres(), Y: p.Y.Metres()}
}

func lengthOf(line []drawing.Point) float64 {
	sum := 0.0
	for i := 1; i < len(line); i++ {
		sum += math.Hypot(line[i].X-line[i-1].X, line[i].Y-line[i-1].Y)
	}
	return sum
}

// extent is an upright box on the ground.
type extent struct{ min, max drawing.Point }

func nowhere() extent {
	far := math.Inf(1)
	return extent{drawing.Point{X: far, Y: far}, drawing.Point{X: -far, Y: -far}}
}

func (e *extent) add(p drawing.Point) {
	e.min = drawing.Point{X: min(e.min.X, p.X), Y: min(e.min.Y, p.Y)}
	e.max = drawing.Point{X: max(e.max.X, p.X), Y: max(e.max.Y, p.Y)}
}

func (e *extent) size() (w, h float64) { return e.max.X - e.min.X, e.max.Y - e.min.Y }
