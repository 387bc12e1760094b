package punch

import (
	"fmt"
	"slices"
	"strings"

	"linemap/internal/export"
	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/ui/desk"
	"linemap/internal/unit"
)

// gravity ranks a row, the worst first.
type gravity int

const (
	mend  gravity = iota // the plan cannot be trusted before
	short                // pipe that is not cleaned
	heed
	advice
	gravities int = iota
)

// words say a gravity beside its sign.
var words = [gravities]string{"To mend", "Not cleaned", "To look at", "Advice"}

// row is one line of the list.
type row struct {
	gravity gravity
	place   string
	body    []string // paragraphs: what, figures, cure
	ref     edit.Ref // the zero Ref where it is about the whole site
	step    *Step
}

// rowsOf lists what is to be put right, the worst first, as far as it is known.
func rowsOf(d *desk.Desk) []row {
	findings, _ := d.Findings()
	plan := d.Planning()
	rows := make([]row, 0, len(findings))
	grounds := groundNames(d.Site())
	for i := range findings {
		rows = append(rows, findingRow(&findings[i], grounds))
	}
	if plan.Plan != nil {
		for i := range plan.Plan.Shortfalls {
			rows = append(rows, shortRow(d, &plan.Plan.Shortfalls[i]))
		}
		rows = append(rows, handRows(d, &plan)...)
	}
	slices.SortStableFunc(rows, func(a, b row) int { return int(a.gravity) - int(b.gravity) })
	return rows
}

func findingRow(f *network.Finding, grounds map[string]edit.Ref) row {
	r := row{gravity: advice, place: export.Capital(f.Place)}
	switch f.Gravity {
	case network.Error:
		r.gravity = mend
	case network.Warning:
		r.gravity = heed
	}
	var figures []string
	if f.Value != "" {
		figures = append(figures, "found "+f.Value)
	}
	if f.Limit != "" {
		figures = append(figures, "limit "+f.Limit)
	}
	if f.Source != "" {
		figures = append(figures, "by "+f.Source)
	}
	r.add(f.What)
	r.add(strings.Join(figures, ", "))
	r.add(f.Cure)
	switch {
	case f.Pipe != "":
		r.ref = edit.PipeRef(f.Pipe)
	case f.Node != "":
		r.ref = edit.NodeRef(f.Node)
	default:
		r.ref = grounds[f.Place]
	}
	return r
}

func shortRow(d *desk.Desk, s *route.Shortfall) row {
	u := d.Units()
	r := row{
		gravity: short, ref: edit.PipeRef(s.Pipe), step: Mend(d, s.Cure),
		place: export.Capital(s.Name),
	}
	r.add(u.Length(s.Length) + " of " + s.Size.In(u) + ": " + s.Why(u))
	r.add(s.Cure.Say(u))
	return r
}

// add adds a paragraph, set as a sentence.
func (r *row) add(text string) {
	if text = export.Sentence(export.OneLine(text)); text != "" {
		r.body = append(r.body, text)
	}
}

// groundNames finds spots and water points by the names that findings have of
// them.
func groundNames(s *site.Site) map[string]edit.Ref {
	names := map[string]edit.Ref{}
	for i := range s.Water {
		names[s.Water[i].Name()] = edit.WaterRef(s.Water[i].ID)
	}
	for i := range s.Spots {
		names[s.Spots[i].Name()] = edit.SpotRef(s.Spots[i].ID)
	}
	return names
}

// heading counts what the list holds: "2 to mend, 38 ft not cleaned".
func heading(rows []row, plan *route.Plan, u unit.System) string {
	var n [gravities]int
	for i := range rows {
		n[rows[i].gravity]++
	}
	var parts []string
	if n[mend] > 0 {
		parts = append(parts, fmt.Sprintf("%d to mend", n[mend]))
	}
	if n[short] > 0 && plan != nil {
		missing := unit.Length(0)
		for i := range plan.Shortfalls {
			missing += plan.Shortfalls[i].Length
		}
		parts = append(parts, u.Length(missing)+" not cleaned")
	}
	if n[heed] > 0 {
		parts = append(parts, fmt.Sprintf("%d to look at", n[heed]))
	}
	if n[advice] > 0 {
		parts = append(parts, fmt.Sprintf("%d of advice", n[advice]))
	}
	if len(parts) == 0 {
		return "Nothing to put right"
	}
	return strings.Join(parts, ", ")
}
