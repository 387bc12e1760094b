package export

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"

	"linemap/internal/export/chart"
	"linemap/internal/export/quote"
	"linemap/internal/route"
	"linemap/internal/site"
)

// Paper is one kind of paper, or of data, that can be made of a site and its
// plan.
type Paper struct {
	// Key names it where it is chosen: "sheet". Title says what it is: "run
	// sheet (PDF)".
	Key, Title string
	// Usual papers are what a crew asks for each day.
	Usual bool

	lacks func(*site.Site) error
	make  func(*edition) ([]file, error)
}

// Lacks says what a site has to be given before the paper can be made, nil
// where nothing is missing.
func (p Paper) Lacks(s *site.Site) error {
	if p.lacks == nil {
		return nil
	}
	return p.lacks(s)
}

// edition is what the papers that are made together are made of.
type edition struct {
	site   *site.Site
	tables *site.Tables
	plan   *route.Plan
	opt    Options

	once  sync.Once
	drawn *chart.Chart
	wrong error // with the map
}

// chart draws the map, once for all papers that show it.
func (e *edition) chart() (*chart.Chart, error) {
	e.once.Do(func() { e.drawn, e.wrong = drawMap(e.site, e.plan, e.opt) })
	return e.drawn, e.wrong
}

// file is a file in the making; its name follows the stem of all.
type file struct {
	name string
	data []byte
}

// one makes a single file.
func one(name string, data []byte, err error) ([]file, error) {
	if err != nil {
		return nil, err
	}
	return []file{{name, data}}, nil
}

// Papers lists every paper, in the order in which they are written.
func Papers() []Paper {
	return []Paper{
		{Key: "sheet", Title: "run sheet (PDF)", Usual: true, make: func(e *edition) ([]file, error) {
			data, err := RunSheet(e.site, e.tables, e.plan, e.opt)
			return one("run-sheet.pdf", data, err)
		}},
		{Key: "map", Title: "map (PDF)", Usual: true, make: func(e *edition) ([]file, error) {
			c, err := e.chart()
			if err != nil {
				return nil, err
			}
			data, err := mapPDF(e.site, c, e.opt)
			return one("map.pdf", data, err)
		}},
		{Key: "svg", Title: "map as a drawing (SVG)", Usual: true, make: func(e *edition) ([]file, error) {
			c, err := e.chart()
			if err != nil {
				return nil, err
			}
			return one("map.svg", mapSVG(e.site, c), nil)
		}},
		{Key: "png", Title: "map as pictures (PNG)", make: func(e *edition) ([]file, error) {
			c, err := e.chart()
			if err != nil {
				return nil, err
			}
			return pictureFiles(c)
		}},
		{Key: "notice", Title: "notice for the building (PDF)", make: func(e *edition) ([]file, error) {
			data, err := Notice(e.site, e.tables, e.plan, e.opt)
			return one("notice.pdf", data, err)
		}},
		{Key: "quote", Title: "quote (PDF and CSV)", lacks: lacksPrices, make: quoteFiles},
		{Key: "report", Title: "report on the work done (PDF)", lacks: lacksVisit, make: func(e *edition) ([]file, error) {
			data, err := Report(e.site, e.tables, e.plan, e.opt)
			return one("report.pdf", data, err)
		}},
		{Key: "csv", Title: "plan as a table (CSV)", Usual: true, make: func(e *edition) ([]file, error) {
			data, err := PlanCSV(e.site, e.tables, e.plan, e.opt)
			return one("plan.csv", data, err)
		}},
		{Key: "results", Title: "results table to fill in (CSV)", make: func(e *edition) ([]file, error) {
			data, err := ResultsCSV(e.site, e.tables, e.plan, e.opt)
			return one("results.csv", data, err)
		}},
		{Key: "json", Title: "plan as data (JSON)", Usual: true, make: func(e *edition) ([]file, error) {
			data, err := PlanJSON(e.site, e.plan)
			return one("plan.json", data, err)
		}},
		{Key: "geojson", Title: "map as data (GeoJSON)", lacks: lacksGeo, make: func(e *edition) ([]file, error) {
			data, err := GeoJSON(e.site, e.plan, e.opt)
			return one("map.geojson", data, err)
		}},
	}
}

func lacksPrices(s *site.Site) error { return quote.Given(&s.Prices) }

func quoteFiles(e *edition) ([]file, error) {
	pdf, err := Quote(e.site, e.tables, e.plan, e.opt)
	if err != nil {
		return nil, err
	}
	table, err := QuoteCSV(e.site, e.tables, e.plan, e.opt)
	if err != nil {
		return nil, err
	}
	return []file{{"quote.pdf", pdf}, {"quote.csv", table}}, nil
}

// UsualPapers lists the papers that a crew asks for each day.
func UsualPapers() []Paper {
	return slices.DeleteFunc(Papers(), func(p Paper) bool { return !p.Usual })
}

// ChoosePapers finds papers by their keys, written with commas between them.
// They come in the order of [Papers].
func ChoosePapers(keys string) ([]Paper, error) {
	wanted := map[string]bool{}
	for key := range strings.SplitSeq(keys, ",") {
		if key = strings.ToLower(strings.TrimSpace(key)); key != "" {
			wanted[key] = true
		}
	}
	all := Papers()
	chosen := slices.DeleteFunc(slices.Clone(all), func(p Paper) bool {
		known := wanted[p.Key]
		delete(wanted, p.Key)
		return !known
	})
	names := make([]string, len(all))
	for i, p := range all {
		names[i] = p.Key
	}
	list := strings.Join(names, ", ")
	if len(wanted) > 0 {
		return nil, fmt.Errorf("there is no paper %q: choose from %s", least(wanted), list)
	}
	if len(chosen) == 0 {
		return nil, errors.New("name a paper: " + list)
	}
	return chosen, nil
}

// least is the first key of a set.
func least(set map[string]bool) string {
	first := ""
	for key := range set {
		if first == "" || key < first {
			first = key
		}
	}
	return first
}
