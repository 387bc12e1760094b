package form

import (
	"slices"
	"strings"

	"linemap/internal/export"
	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/ui/desk"
	"linemap/internal/unit"
)

// areaFields are what can be said of an area.
func areaFields() []field[site.Area] {
	type area = site.Area
	return []field[area]{
		text("Label", "label", func(v *area) *string { return &v.Label }),
		keys("Kind", "kind", func(v *area) *site.AreaKind { return &v.Kind },
			func(_ *desk.Desk, k site.AreaKind) string { return export.Capital(k.Word()) }),
		fact("Ground", func(d *desk.Desk, all []*area) string {
			var sum unit.Area
			for _, v := range all {
				sum += site.AreaOf(v.Outline)
			}
			return d.Units().Area(sum)
		}),
		factOf("Edge", func(d *desk.Desk, v *area) string {
			if len(v.Outline) == 0 {
				return ""
			}
			return d.Units().Footage(network.WayLength(append(slices.Clone(v.Outline), v.Outline[0])))
		}),
		factOf("Spots", func(d *desk.Desk, v *area) string {
			var names []string
			for i := range d.Site().Spots {
				if spot := &d.Site().Spots[i]; v.Contains(spot.At) {
					names = append(names, spot.Name())
				}
			}
			return strings.Join(names, ", ")
		}),
		note("Note", "note", func(v *area) *string { return &v.Note }),
	}
}

func areaHeading(v *site.Area) string { return headed(export.Capital(v.Kind.Word()), v.Label) }
