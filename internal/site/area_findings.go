package site

import (
	"fmt"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// mostSides bounds how many sides of areas are held against legs of lays: the
// check must end.
const mostSides = 20_000_000

// areaFindings looks for areas that enclose nothing, for spots outside of where
// the trailer may stand, and for hose that lies where people walk.
func (s *Site) areaFindings() []network.Finding {
	var all []network.Finding
	for i := range s.Areas {
		if f, wrong := s.OutlineFinding(&s.Areas[i]); wrong {
			all = append(all, f)
		}
	}
	all = append(all, s.standFindings()...)
	return append(all, s.crossingFindings()...)
}

// leastArea is the least ground that an area can mean.
const leastArea = unit.Area(0.01)

// OutlineFinding says what is wrong with the outline of an area, false where
// nothing is.
func (s *Site) OutlineFinding(a *Area) (network.Finding, bool) {
	f := network.Finding{
		Gravity: network.Error, Place: a.Name(), Cure: "Move its corners, or delete it and draw it anew.",
	}
	switch at, crosses := selfCrossing(a.Outline); {
	case len(a.Outline) < 3:
		f.Kind, f.What = "area_too_few_corners", "The outline of the area has too few corners."
		f.Value, f.Limit = fmt.Sprint(len(a.Outline)), "3 or more"
	case crosses:
		f.Kind, f.What = "area_crosses_itself", "The outline of the area crosses or touches itself."
		f.Value = s.Units.Length(at.X) + " east, " + s.Units.Length(at.Y) + " north"
	case AreaOf(a.Outline) < leastArea:
		f.Kind, f.What = "area_without_ground", "The outline of the area encloses no ground."
		f.Value = s.Units.Area(AreaOf(a.Outline))
	default:
		return network.Finding{}, false
	}
	return f, true
}

// standFindings looks where the usable spots stand.
func (s *Site) standFindings() []network.Finding {
	var all []network.Finding
	for i := range s.Spots {
		spot := &s.Spots[i]
		if !spot.Usable() {
			continue
		}
		for k := range s.Areas {
			if a := &s.Areas[k]; a.Kind == KeepClear && a.Contains(spot.At) {
				all = append(all, network.Finding{
					Gravity: network.Warning, Kind: "spot_in_the_way", Place: spot.Name(),
					What: "The spot stands in " + a.Called() + ", and a plan may use it all the same.",
					Cure: "Move the spot, or mark it as in live traffic so that it is not used.",
				})
			}
		}
		if s.MayStand(spot.At) {
			continue
		}
		all = append(all, network.Finding{
			Gravity: network.Warning, Kind: "spot_outside", Place: spot.Name(),
			What: "The spot is outside every area where the trailer may stand, and a plan may use it all the same.",
			Cure: "Move the spot into a stand area, or draw the area where it stands.",
		})
	}
	return all
}

// MayStand reports whether a place is where the trailer may stand: within a
// stand area, or anywhere on a site that has none.
func (s *Site) MayStand(p network.Point) bool {
	marked := false
	for i := range s.Areas {
		if a := &s.Areas[i]; a.Kind == Stand {
			if marked = true; a.Contains(p) {
				return true
			}
		}
	}
	return !marked
}

// crossingFindings tells of areas that drawn lays lie across.
func (s *Site) crossingFindings() []network.Finding {
	if len(s.Areas) == 0 {
		return nil
	}
	var all []network.Finding
	ways := make([][]network.Point, len(s.Lays))
	for i := range s.Lays {
		ways[i] = s.layWay(&s.Lays[i])
	}
	left := mostSides
	for i := range s.Areas {
		a, n := &s.Areas[i], 0
		for _, way := range ways {
			if a.Kind == Stand {
				break
			}
			if left -= len(way) * len(a.Outline); left < 0 {
				return append(all, network.Finding{
					Gravity: network.Advice, Kind: "many_crossed_areas", Place: "site",
					What: "Too many lays and areas lie over each other to tell of all.",
					Cure: "Check the scale and the places of the areas.",
				})
			}
			if len(a.Crosses(way)) > 0 {
				n++
			}
		}
		if n > 0 {
			all = append(all, network.Finding{
				Gravity: network.Advice, Kind: "lay_across_area", Place: a.Called(),
				What:  "Hose that is laid as drawn lies across it.",
				Value: unit.Count(n, "lay"),
				Cure:  "Cover the hose and cone it, or draw the lays around.",
			})
		}
	}
	return all
}

// Crossing is an area that hose lies across, and where.
type Crossing struct {
	Area  *Area
	Where []network.Point
}

// Crossings lists the walkways and the areas to keep clear that a way over the
// ground lies across, in the order of the site.
func (s *Site) Crossings(way []network.Point) []Crossing {
	var all []Crossing
	for i := range s.Areas {
		a := &s.Areas[i]
		if a.Kind == Stand {
			continue
		}
		if where := a.Crosses(way); len(where) > 0 {
			all = append(all, Crossing{a, where})
		}
	}
	return all
}

// layWay is the way of a lay, nil where an end of it is not there.
func (s *Site) layWay(l *Lay) []network.Point {
	spot := find(s.Spots, func(v *Spot) bool { return v.ID == l.Spot })
	if spot == nil {
		return nil
	}
	if n := find(s.Network.Nodes, func(n *network.Node) bool { return n.ID == l.Access }); n != nil && l.Access != "" {
		return through(spot.At, l, n.At)
	}
	if w := find(s.Water, func(w *WaterPoint) bool { return w.ID == l.Water }); w != nil && l.Water != "" {
		return through(spot.At, l, w.At)
	}
	return nil
}
