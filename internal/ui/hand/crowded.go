package hand

import (
	"strings"

	"linemap/internal/network"
	"linemap/internal/site/edit"
)

// crowded names the junction at an anchor that has its branch already, so that
// one more pipe makes another fitting of it; "" for any other place.
func crowded(w *World, a edit.Anchor) string {
	const legs = 3
	i, ok := w.Graph.NodeIndex(a.Node)
	if !ok || a.Node == "" || w.Graph.Net.Nodes[i].Kind != network.KindJunction || len(w.Graph.Above[i])+len(w.Graph.Below[i]) != legs {
		return ""
	}
	return w.Graph.NodeName(i)
}

// secondBranch says beside the pointer that a click would make a second branch.
func secondBranch(w *World, a edit.Anchor) string {
	if crowded(w, a) == "" {
		return ""
	}
	return ", a second branch"
}

// sayCrowded says which junctions at the ends of a pipe got a second branch by it.
func sayCrowded(w *World, ends ...edit.Anchor) string {
	var names []string
	for _, a := range ends {
		if name := crowded(w, a); name != "" {
			names = append(names, name)
		}
	}
	if len(names) == 0 {
		return ""
	}
	return strings.Join(names, " and ") + ": two branches in one fitting now. For two fittings, undo and draw beside it."
}
