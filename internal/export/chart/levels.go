package chart

import (
	"cmp"
	"slices"

	"linemap/internal/network"
)

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
