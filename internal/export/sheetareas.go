package export

import (
	"strings"

	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
)

// hazards says of the hoses of a block what they lie across and what is to be
// done about it, "" for nothing.
func (w *wording) hazards(b *route.Block) string {
	var walks, clear []string
	for i := range w.site.Areas {
		a := &w.site.Areas[i]
		if a.Kind == site.Stand || !w.blockCrosses(b, a) {
			continue
		}
		if name := OneLine(a.Called()); a.Kind == site.Walkway {
			walks = append(walks, name)
		} else {
			clear = append(clear, name)
		}
	}
	return sentences(
		about("Hose crosses ", walks, ": cover it, cone it"),
		about("Hose crosses ", clear, ": cone it, lift it when the way is needed"),
	)
}

// about puts names between words, "" for none.
func about(before string, names []string, after string) string {
	if len(names) == 0 {
		return ""
	}
	return before + strings.Join(names, ", ") + after
}

// blockCrosses reports whether a hose of a block lies across an area.
func (w *wording) blockCrosses(b *route.Block, a *site.Area) bool {
	for i := range b.Runs {
		if w.runCrosses(b.Spot, b.Runs[i].Access, a) {
			return true
		}
	}
	return w.supplyCrosses(b.Spot, a)
}

// runCrosses reports whether the jet hose from a spot to an access lies across
// an area.
func (w *wording) runCrosses(spot site.SpotID, access network.NodeID, a *site.Area) bool {
	s := w.spot(spot)
	n, ok := w.graph.NodeIndex(access)
	return s != nil && ok && len(a.Crosses(w.site.LayPath(s, &w.site.Network.Nodes[n]))) > 0
}

// supplyCrosses reports whether the supply hose to a spot lies across an area.
func (w *wording) supplyCrosses(spot site.SpotID, a *site.Area) bool {
	s := w.spot(spot)
	if s == nil {
		return false
	}
	_, point := w.site.Inflow(s)
	return point != nil && len(a.Crosses(w.site.SupplyPath(s, point))) > 0
}
