package hand

import (
	"cmp"
	"strings"

	"linemap/internal/network"
	"linemap/internal/site/edit"
)

// named names a thing for a reader, "" for nothing.
func named(w *World, r edit.Ref) string {
	switch r.Kind {
	case edit.Node:
		if i, ok := w.Graph.NodeIndex(network.NodeID(r.ID)); ok {
			return w.Graph.NodeName(i)
		}
	case edit.Pipe:
		if p, ok := w.Graph.PipeIndex(network.PipeID(r.ID)); ok {
			return w.Graph.PipeName(p)
		}
	case edit.Spot:
		for i := range w.Site.Spots {
			if v := &w.Site.Spots[i]; edit.SpotRef(v.ID) == r {
				return cmp.Or(v.Label, "spot "+r.ID)
			}
		}
	case edit.Water:
		for i := range w.Site.Water {
			if v := &w.Site.Water[i]; edit.WaterRef(v.ID) == r {
				return cmp.Or(v.Label, strings.ReplaceAll(string(v.Kind), "_", " "))
			}
		}
	case edit.Lay:
		return "hose lay"
	case edit.Area:
		for i := range w.Site.Areas {
			if v := &w.Site.Areas[i]; edit.AreaRef(v.ID) == r {
				return v.Called()
			}
		}
	case edit.Note:
		return "note"
	case edit.Underlay:
		return "picture"
	}
	return ""
}
