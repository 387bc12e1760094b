package aim

import (
	"cmp"
	"slices"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
)

// zone is an area as it is pointed into.
type zone struct {
	area site.Area
	box  box
}

// areas indexes the areas: their edges as lines that close, and what they hold.
func (x *Index) areas(s *site.Site) {
	for i := range s.Areas {
		a := s.Areas[i].Clone()
		if len(a.Outline) == 0 {
			continue
		}
		x.things = append(x.things, thing{
			ref: edit.AreaRef(a.ID), rank: edges, of: -1, anywhere: true,
			line: x.way(a.Outline[0], a.Outline[1:], a.Outline[0]),
		})
		low, high := network.Bounds(a.Outline)
		x.zones = append(x.zones, zone{a, around(low, high)})
	}
	slices.SortStableFunc(x.zones, func(a, b zone) int {
		return cmp.Compare(site.AreaOf(a.area.Outline), site.AreaOf(b.area.Outline))
	})
}

// inside is the smallest area around a place.
func (x *Index) inside(p network.Point, filter func(edit.Ref) bool) (Hit, bool) {
	for i := range x.zones {
		z := &x.zones[i]
		if r := edit.AreaRef(z.area.ID); z.box.holds(p) && (filter == nil || filter(r)) && z.area.Contains(p) {
			return Hit{Ref: r, At: p, Corner: -1, Inside: true}, true
		}
	}
	return Hit{}, false
}

// withAreas adds the areas around a place to what was hit there.
func (x *Index) withAreas(hits []Hit, p network.Point) []Hit {
	before := len(hits)
	for i := range x.zones {
		z := &x.zones[i]
		r := edit.AreaRef(z.area.ID)
		if z.box.holds(p) && z.area.Contains(p) && !slices.ContainsFunc(hits[:before], func(h Hit) bool { return h.Ref == r }) {
			hits = append(hits, Hit{Ref: r, At: p, Corner: -1, Inside: true})
		}
	}
	return hits
}
