package export

import (
	"image"

	"linemap/internal/export/chart"
	"linemap/internal/export/paper"
	"linemap/internal/export/svg"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/site/picture"
	"linemap/internal/unit"
)

// Map draws the site and its plan to scale on a landscape page, several for a
// tower, and returns them as a PDF. It fails only where a place of the site is
// not on Earth.
func Map(s *site.Site, p *route.Plan, opt Options) ([]byte, error) {
	opt = opt.For(s)
	c, err := drawMap(s, p, opt)
	if err != nil {
		return nil, err
	}
	return mapPDF(s, c, opt)
}

// MapSVG is what [Map] draws as an SVG document.
func MapSVG(s *site.Site, p *route.Plan, opt Options) ([]byte, error) {
	c, err := drawMap(s, p, opt.For(s))
	if err != nil {
		return nil, err
	}
	return mapSVG(s, c), nil
}

func mapPDF(s *site.Site, c *chart.Chart, opt Options) ([]byte, error) {
	d := paper.New(opt.Paper, true, paper.Meta{
		Title: mapTitle(s), Subject: mapSubject(c), Author: s.Job.Estimator, Date: s.Job.Date,
	})
	for i, sheet := range c.Sheets {
		d.AddPage()
		for _, m := range c.Marks {
			if m.Sheet == i {
				d.Bookmark(m.Title, m.Level, m.Y)
			}
		}
		d.Paint(sheet)
	}
	return d.Bytes()
}

func mapSVG(s *site.Site, c *chart.Chart) []byte {
	return svg.Encode(c.Sheets, paper.Language, mapTitle(s), mapSubject(c))
}

func drawMap(s *site.Site, p *route.Plan, opt Options) (*chart.Chart, error) {
	return chart.Draw(s, p, chart.Options{
		Paper: opt.Paper, Units: opt.Units, Date: day(opt.Units, s.Job.Date), Safety: mapSafety(opt.Units),
		Pictures: pictures(opt.Folder),
	})
}

// pictures reads the floor plans of a site from its file or its folder. The map
// says which it misses.
func pictures(folder string) chart.Pictures {
	var read picture.Cache
	return func(u *site.Underlay) (image.Image, unit.Length) {
		shown, err := read.Load(u, folder)
		if err != nil {
			return nil, 0
		}
		return shown.Image, shown.Dot(u)
	}
}

func mapTitle(s *site.Site) string {
	if s.Job.Title == "" {
		return "Map of the drains and runs"
	}
	return s.Job.Title + ": map of the drains and runs"
}

func mapSubject(c *chart.Chart) string { return "Scale " + c.Scale }

// mapSafety is the foot of the map: the rules of [Cautions] in brief, with the
// last word.
func mapSafety(sys unit.System) string {
	return "Eye protection for everyone near the hose. Never aim a nozzle at anyone; a jet through the skin is an " +
		"emergency at once. Engine outdoors, away from doors, windows and air intakes; no fuel or flammable vapour near. " +
		"Nozzle inside the pipe before pressure; stop the reel at the " + mark(sys) + " mark. Cones and light; guard open " +
		"accesses. Never jet into a pipe whose discharge is unknown. Backflow protection on the fill. Protect against " +
		"freezing. Sewage: gloves on, wash. Manholes are confined spaces: no entry. " + LastWord
}
