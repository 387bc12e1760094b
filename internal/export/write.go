package export

import (
	"fmt"
	"os"
	"path/filepath"

	"github.com/google/renameio/v2/maybe"

	"linemap/internal/route"
	"linemap/internal/site"
)

// WritePapers writes the papers and the data of a plan into a folder, made
// where it is missing, and returns their paths in the order written:
// <name>-run-sheet.pdf, -map.pdf, -map.svg, -plan.csv and -plan.json.
//
// All of them are made before the first is written, and each replaces an older
// one whole or not at all. The same site and plan give the same bytes.
func WritePapers(dir string, s *site.Site, t *site.Tables, p *route.Plan, opt Options) ([]string, error) {
	opt = opt.For(s)
	drawn, err := drawMap(s, p, opt) // once for both of its papers
	if err != nil {
		return nil, fmt.Errorf("map: %w", err)
	}
	papers := []struct {
		name string
		make func() ([]byte, error)
		data []byte
	}{
		{name: "run-sheet.pdf", make: func() ([]byte, error) { return RunSheet(s, t, p, opt) }},
		{name: "map.pdf", make: func() ([]byte, error) { return mapPDF(s, drawn, opt) }},
		{name: "map.svg", make: func() ([]byte, error) { return mapSVG(s, drawn), nil }},
		{name: "plan.csv", make: func() ([]byte, error) { return PlanCSV(s, t, p, opt) }},
		{name: "plan.json", make: func() ([]byte, error) { return PlanJSON(s, p) }},
	}
	for i := range papers {
		data, err := papers[i].make()
		if err != nil {
			return nil, fmt.Errorf("%s: %w", papers[i].name, err)
		}
		papers[i].data = data
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, err
	}
	paths := make([]string, 0, len(papers))
	for _, paper := range papers {
		path := filepath.Join(dir, opt.Name+"-"+paper.name)
		if err := maybe.WriteFile(path, paper.data, 0o644); err != nil {
			return paths, err
		}
		paths = append(paths, path)
	}
	return paths, nil
}
