package form

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/ui/desk"
	"linemap/internal/unit"
)

// EarthForm opens the form of where on Earth the site lies.
func EarthForm(d *desk.Desk, w fyne.Window) {
	about := partOf(d, func(s *site.Site) *site.Geo {
		if s.Geo == nil {
			return &site.Geo{}
		}
		return s.Geo
	}, func(g site.Geo) site.Geo { return g }, func(s *site.Site, g site.Geo) (*edit.Edit, error) {
		return edit.SetGeo(s, &g)
	}, "place on Earth")
	p, s := pageOf(func(resized func()) *sheet[site.Geo] { return newSheet(d, about, resized, earthFields()...) })
	forget := iconButton("Not known", theme.IconNameDelete, func() {
		if e, err := edit.SetGeo(d.Site(), nil); err == nil {
			s.drop()
			d.Do(e)
		}
	})
	p.body.Add(forget)
	open(d, w, "Place on Earth", fyne.NewSize(480, 340), p, s)
}

func earthFields() []field[site.Geo] {
	type geo = site.Geo
	return []field[geo]{
		orNone("Latitude", "latitude", &unit.Coordinates, "41.878113, north above 0", func(g *geo) *unit.Angle { return &g.Latitude }),
		orNone("Longitude", "longitude", &unit.Coordinates, "-87.629799, east above 0", func(g *geo) *unit.Angle { return &g.Longitude }),
		orNone("Up on the plan is", "bearing", &unit.Angles, "0: true north; 90: east", func(g *geo) *unit.Angle { return &g.Bearing }),
		factOf("", func(d *desk.Desk, _ *geo) string {
			if d.Site().Geo == nil {
				return "Not known, so there is no map as GeoJSON."
			}
			return "Latitude and longitude are those of the origin of the plan, by WGS 84."
		}),
	}
}
