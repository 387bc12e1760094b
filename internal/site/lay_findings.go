package site

import (
	"fmt"

	"linemap/internal/network"
)

// layFindings looks for lays that lead nowhere, as an edit may leave them, and
// for measured ones that are shorter than any way there is.
func (s *Site) layFindings() []network.Finding {
	var all []network.Finding
	for i := range s.Lays {
		l := &s.Lays[i]
		place := fmt.Sprintf("lay %s to %s%s", l.Spot, l.Access, l.Water)
		spot := find(s.Spots, func(v *Spot) bool { return v.ID == l.Spot })
		access := find(s.Network.Nodes, func(n *network.Node) bool { return n.ID == l.Access && n.Access != nil })
		water := find(s.Water, func(w *WaterPoint) bool { return w.ID == l.Water })
		if spot == nil || (l.Access == "") == (l.Water == "") ||
			l.Access != "" && access == nil || l.Water != "" && water == nil {
			all = append(all, network.Finding{
				Gravity: network.Error, Kind: "lay_unknown", Place: place,
				What: "The lay does not lead from a spot of the site to one access or one water point.",
				Cure: "Delete the lay or draw it anew.",
			})
			continue
		}
		var to network.Point
		if access != nil {
			to = access.At
		} else {
			to = water.At
		}
		straight := run(through(spot.At, nil, to))
		const slack = 0.95 // a sketch is not a survey
		if l.Length != nil && *l.Length < slack*straight {
			all = append(all, network.Finding{
				Gravity: network.Warning, Kind: "lay_too_short", Place: place,
				What:  "The lay was measured shorter than the straight line on the drawing.",
				Value: s.Units.Length(*l.Length), Limit: s.Units.Length(straight) + " or more",
				Cure: "Check the measurement and the drawing's scale.",
			})
		}
	}
	return all
}

func find[T any](list []T, is func(*T) bool) *T {
	for i := range list {
		if is(&list[i]) {
			return &list[i]
		}
	}
	return nil
}
