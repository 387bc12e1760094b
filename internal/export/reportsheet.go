package export

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// reportSheet is what stands on a report, in reading order and in finished
// words.
type reportSheet struct {
	Title, Revision string
	Day             string // of the last visit
	Job, Figures    []fact
	Short           []string // the job in a few sentences
	Found           []foundRow
	Left            []gap
	Back            []backRow
	Notes           []fact
	Photos          []photo
	History         []visitRow
}

// foundRow is what was found through one opening: the label on its door or
// cover, and where it is.
type foundRow struct{ Run, Label, Where, Cleaned, Found, Condition string }

// backRow is a day to come back by, with the pipes and the reason.
type backRow struct{ By, Pipes, Why string }

// visitRow is one visit of the history.
type visitRow struct{ Day, Crew, Runs, Cleaned, Found, Condition string }

// newReportSheet words the results of a job for the owner.
func newReportSheet(w *work) *reportSheet {
	s := w.site
	r := &reportSheet{
		Title: title(s), Revision: s.Job.Revision, Day: longDay(w.sys, w.visits[len(w.visits)-1].Date),
		Job: w.job(), Back: w.back(), Photos: w.photos(),
	}
	r.Figures, r.Short = w.reportFigures(r.Back), w.inShort(r.Back)
	for _, result := range w.results() {
		r.Found = append(r.Found, w.foundRow(result))
	}
	for _, same := range w.alike() {
		r.Left = append(r.Left, w.leftOver(same))
	}
	for i := range w.visits {
		if v := &w.visits[i]; v.Note != "" {
			r.Notes = append(r.Notes, fact{day(w.sys, v.Date), v.Note})
		}
	}
	for i := len(s.Visits) - 1; i >= 0; i-- {
		r.History = append(r.History, w.visitRow(&s.Visits[i]))
	}
	return r
}

// alike groups the pipes of which something is left by the reason: those that one
// run did not reach stand together.
func (w *work) alike() [][]*pipeWork {
	type reason struct{ why, cure string }
	at := map[reason]int{}
	var groups [][]*pipeWork
	for _, pipe := range w.undone() {
		var key reason
		key.why, key.cure = w.reason(pipe)
		i, there := at[key]
		if !there {
			i = len(groups)
			at[key], groups = i, append(groups, nil)
		}
		groups[i] = append(groups[i], pipe)
	}
	return groups
}

// leftOver words what is left of pipes for one reason.
func (w *work) leftOver(same []*pipeWork) gap {
	var names, specs []string
	var left, whole unit.Length
	for _, pipe := range same {
		left, whole = left+pipe.left(), whole+pipe.length
		names = append(names, strings.TrimPrefix(w.thePipe(pipe.id), "pipe "))
		if spec := w.pipeSpec(pipe.id); !slices.Contains(specs, spec) {
			specs = append(specs, spec)
		}
	}
	g := gap{Pipe: "Pipe ", What: strings.Join(specs, "; "), Length: w.sys.Length(left)}
	if len(names) > 1 {
		g.Pipe = "Pipes "
	}
	g.Pipe += strings.Join(names, ", ")
	if whole-left > rest {
		g.Length += " of " + w.sys.Length(whole)
	}
	g.Why, g.Cure = w.reason(same[0])
	return g
}

// reportFigures is the job in a handful of numbers.
func (w *work) reportFigures(back []backRow) []fact {
	planned, cleaned, _ := w.sums()
	by := "–"
	if len(back) > 0 {
		by = back[0].By
	}
	return []fact{
		{"Come back by", by},
		{"Planned", w.sys.Length(planned)},
		{"Cleaned", w.sys.Length(cleaned)},
		{"Left of it", w.difference(planned, cleaned)},
	}
}

// inShort tells the job in a few sentences.
func (w *work) inShort(back []backRow) []string {
	planned, cleaned, beyond := w.sums()
	results := w.results()
	made := 0
	for _, r := range results {
		if r.Reached > 0 {
			made++
		}
	}
	share := ""
	if planned > 0 {
		share = fmt.Sprintf(" (%d %%)", int(math.Floor(100*float64(cleaned/planned)+0.5)))
	}
	did := "the drains were cleaned with a water jetter"
	if crews := w.crews(); crews != "" {
		did = crews + " cleaned the drains with a water jetter"
	}
	says := []string{fmt.Sprintf("%s %s. %d of %s were made; of %s planned, %s are clean%s.",
		w.days(), did, made, counted(len(results), "run"), w.sys.Length(planned), w.sys.Length(cleaned), share)}
	if said := w.allFound(results); said != "" {
		says = append(says, "Found on the way: "+said+".")
	}
	if said := conditions(results); said != "" {
		says = append(says, "State of the pipe: "+said+".")
	}
	if planned-cleaned > rest {
		says = append(says, w.difference(planned, cleaned)+" of the planned pipe are left. The list says why, and what would help.")
	}
	if beyond > rest {
		says = append(says, w.sys.Length(beyond)+" of pipe could not be planned: no run reaches them. The list says why, and what would help.")
	}
	if len(back) > 0 {
		says = append(says, "Come back by "+back[0].By+". "+back[0].Why)
	}
	return says
}

// difference is a length less another, as the difference of what is read of
// both: figures that stand beside each other add up.
func (w *work) difference(a, b unit.Length) string {
	last := unit.Metres(0.1)
	if w.sys != unit.Metric {
		last = unit.Feet(1)
	}
	round := func(l unit.Length) unit.Length { return unit.Length(math.Round(float64(l/last))) * last }
	return w.sys.Length(round(a) - round(b))
}

// days names the days of the job's visits.
func (w *work) days() string {
	first, last := w.visits[0].Date, w.visits[len(w.visits)-1].Date
	if first == last {
		return "On " + longDay(w.sys, first) + ","
	}
	return "From " + day(w.sys, first) + " to " + day(w.sys, last) + ","
}

// crews names who was there.
func (w *work) crews() string {
	var all []string
	for i := range w.visits {
		if c := strings.TrimSpace(OneLine(w.visits[i].Crew)); c != "" && !slices.Contains(all, c) {
			all = append(all, c)
		}
	}
	return list(all...)
}

// allFound lists what was found with the number of runs, the most frequent
// first: "heavy grease (2 runs), roots (1 run)".
func (w *work) allFound(results []*site.RunResult) string {
	var order []string
	count := map[string]int{}
	for _, r := range results {
		if r.Deposit == "" {
			continue
		}
		said := w.deposit(&network.Pipe{Deposit: r.Deposit, Severity: r.Severity})
		if count[said]++; count[said] == 1 {
			order = append(order, said)
		}
	}
	slices.SortStableFunc(order, func(a, b string) int { return count[b] - count[a] })
	for i, said := range order {
		order[i] = said + " (" + counted(count[said], "run") + ")"
	}
	return list(order...)
}

// conditions sums up what the crew said of the pipe, the best first.
func conditions(results []*site.RunResult) string {
	count := map[site.Condition]int{}
	for _, r := range results {
		count[r.Condition]++
	}
	var says []string
	for _, c := range site.Conditions() {
		if n := count[c]; n > 0 {
			says = append(says, conditionWords[c]+" on "+counted(n, "run"))
		}
	}
	return list(says...)
}

// conditionWords say what a condition means.
var conditionWords = map[site.Condition]string{
	site.GoodCondition: "good", site.WatchCondition: "to be watched", site.RepairCondition: "to be repaired",
}

// foundRow words the result of one run.
func (w *work) foundRow(r *site.RunResult) foundRow {
	what, where := w.opening(r.Run.Access)
	row := foundRow{
		Run: strconv.Itoa(r.Number), Label: w.node(r.Run.Access), Where: cmp.Or(where, what),
		Found: sentence(w.found(r)), Condition: capital(conditionWords[r.Condition]),
	}
	var planned, cleaned unit.Length
	for _, p := range r.Pipes {
		planned, cleaned = planned+p.Length, cleaned+p.Cleaned
	}
	switch {
	case r.Reached == 0:
		row.Cleaned = "not made"
	case planned-cleaned <= rest:
		row.Cleaned = "all " + w.sys.Length(planned)
	case cleaned <= rest:
		row.Cleaned = "none of " + w.sys.Length(planned)
	default:
		row.Cleaned = w.sys.Length(cleaned) + " of " + w.sys.Length(planned)
	}
	return row
}

// found says what was found: the deposit in the trade's words, then the crew's.
func (w *work) found(r *site.RunResult) string {
	said := ""
	if r.Deposit != "" {
		said = w.deposit(&network.Pipe{Deposit: r.Deposit, Severity: r.Severity})
	}
	return sentences(said, OneLine(r.Found))
}

// back lists the days to come back by, the first in front; pipes with the same
// day and reason stand together.
func (w *work) back() []backRow {
	var rows []backRow
	for _, b := range w.site.ComeBack(w.tables) {
		row := backRow{By: longDay(w.sys, b.Date), Why: b.Why(w.tables), Pipes: w.pipe(b.Pipe)}
		if n := len(rows); n > 0 && rows[n-1].By == row.By && rows[n-1].Why == row.Why {
			rows[n-1].Pipes += ", " + row.Pipes
			continue
		}
		rows = append(rows, row)
	}
	return rows
}

// visitRow sums up one visit.
func (w *work) visitRow(v *site.Visit) visitRow {
	row := visitRow{Day: day(w.sys, v.Date), Crew: OneLine(v.Crew)}
	var cleaned unit.Length
	var results []*site.RunResult
	made := 0
	for i := range v.Runs {
		r := &v.Runs[i]
		results = append(results, r)
		if r.Reached > 0 {
			made++
		}
		for _, p := range r.Pipes {
			cleaned += p.Cleaned
		}
	}
	row.Runs = fmt.Sprintf("%d of %d", made, len(results))
	row.Cleaned, row.Found, row.Condition = w.sys.Length(cleaned), capital(w.allFound(results)), capital(conditions(results))
	return row
}

// lacksVisit says that a site has no visit to report on.
func lacksVisit(s *site.Site) error {
	if len(s.Visits) == 0 {
		return errNoVisit
	}
	return nil
}

// reportOf is the work of a site's last job.
func reportOf(s *site.Site, t *site.Tables, p *route.Plan, sys unit.System) *work {
	g, _ := network.Trace(&s.Network)
	return newWork(&wording{sys: sys, site: s, tables: t, graph: g}, p)
}
