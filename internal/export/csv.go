package export

import (
	"bytes"
	"encoding/csv"
	"strconv"
	"strings"

	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
)

// PlanCSV is the plan as a table: one row for each pass of each run, in the
// order of the day. What belongs to a run (its access, its readings, the pipes
// it cleans) stands in each of its rows, so every row can be read, sorted and
// filtered by itself; run_minutes and run_water are therefore not to be summed
// over rows, minutes and water are.
//
// The form is RFC 4180: a header, commas, CRLF, quotes where needed, UTF-8.
// Columns with a unit carry it in their name. Text that a spreadsheet could
// take for a formula has an apostrophe set before it.
func PlanCSV(s *site.Site, t *site.Tables, p *route.Plan, opt Options) ([]byte, error) {
	g, _ := network.Trace(&s.Network)
	w := &wording{sys: opt.For(s).Units, site: s, tables: t, graph: g}
	cols := csvColumns(w.sys)
	var out bytes.Buffer
	file := csv.NewWriter(&out)
	file.UseCRLF = true
	record := make([]string, len(cols))
	for i, c := range cols {
		record[i] = c.name
	}
	if err := file.Write(record); err != nil {
		return nil, err
	}
	tank := tankByPass(p)
	for b := range p.Blocks {
		for r := range p.Blocks[b].Runs {
			run := &p.Blocks[b].Runs[r]
			for i := range run.Passes {
				row := &csvRow{w: w, order: b + 1, block: &p.Blocks[b], run: run, index: i, pass: &run.Passes[i]}
				row.event = tank[[2]int{run.Number, i}]
				for c := range cols {
					record[c] = cols[c].cell(row)
				}
				if err := file.Write(record); err != nil {
					return nil, err
				}
			}
		}
	}
	file.Flush()
	return out.Bytes(), file.Error()
}

// csvRow is what a row is made of.
type csvRow struct {
	w     *wording
	order int
	block *route.Block
	run   *route.Run
	index int
	pass  *route.Pass
	event *route.Event // the jetting of the pass, nil where the day has none
}

// tankByPass finds the jetting of every pass, by run number and pass index.
func tankByPass(p *route.Plan) map[[2]int]*route.Event {
	events := map[[2]int]*route.Event{}
	for i := range p.Day {
		if e := &p.Day[i]; e.Kind == route.EventJet {
			events[[2]int{e.Run, e.Pass}] = e
		}
	}
	return events
}

// guarded makes free text safe to open in a spreadsheet: one that starts like
// a formula gets an apostrophe before it (OWASP, "CSV Injection"), and all of
// it stands in one line.
func guarded(s string) string {
	s = OneLine(s)
	if first := strings.TrimSpace(s); first != "" && strings.ContainsRune("=+-@\uFF1D\uFF0B\uFF0D\uFF20", []rune(first)[0]) {
		return "'" + s
	}
	return s
}

// figure writes a number with at most the given decimals.
func figure(v float64, decimals int) string {
	text := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	if text == "-0" {
		return "0"
	}
	return text
}
