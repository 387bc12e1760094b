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

// The columns of the results table that are read back. That of the counter has
// the unit in its name.
const (
	keyColumn       = "run_key"
	reachedColumn   = "reached_"
	foundColumn     = "found"
	depositColumn   = "deposit"
	severityColumn  = "severity"
	conditionColumn = "condition"
	passesColumn    = "passes"
	minutesColumn   = "minutes"
	initialsColumn  = "initials"
	photosColumn    = "photos"
)

// blankColumns are those that the crew fills in besides the counter's.
func blankColumns() []string {
	return []string{
		foundColumn, depositColumn, severityColumn, conditionColumn,
		passesColumn, minutesColumn, initialsColumn, photosColumn,
	}
}

// ResultsCSV is a table to fill in after the job: one row for each run of the
// plan with what the sheet says of it, then the blanks of the sheet, and at the
// end the key by which [ReadResults] finds the run again. Its form is that of
// [PlanCSV].
func ResultsCSV(s *site.Site, t *site.Tables, p *route.Plan, opt Options) ([]byte, error) {
	g, _ := network.Trace(&s.Network)
	w := &wording{sys: opt.For(s).Units, site: s, tables: t, graph: g}
	q := csvUnits(w.sys)
	var out bytes.Buffer
	file := csv.NewWriter(&out)
	file.UseCRLF = true
	head := []string{"run", "access", "to", "planned_" + q.lengthName, reachedColumn + q.lengthName}
	head = append(append(head, blankColumns()...), keyColumn)
	if err := file.Write(head); err != nil {
		return nil, err
	}
	for i := range p.Blocks {
		b := &p.Blocks[i]
		for k := range b.Runs {
			r := &b.Runs[k]
			key := r.Key(b)
			row := make([]string, len(head))
			copy(row, []string{strconv.Itoa(r.Number), guarded(w.node(r.Access)), guarded(w.pipe(key.End)), q.length(r.End)})
			row[len(row)-1] = keyText(key)
			if err := file.Write(row); err != nil {
				return nil, err
			}
		}
	}
	file.Flush()
	return out.Bytes(), file.Error()
}

// keyText writes the key of a run on one line: "yard/half/co1/p5/up". No id has
// a stroke in it.
func keyText(key site.RunKey) string {
	way := "up"
	if key.Downstream {
		way = "down"
	}
	return strings.Join([]string{string(key.Spot), key.Hose, string(key.Access), string(key.End), way}, "/")
}
