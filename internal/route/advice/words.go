package advice

import (
	"fmt"
	"time"

	"linemap/internal/unit"
)

// Table is one part of a report for a reader: a heading, rows under a head, and
// what else is to be said.
type Table struct {
	Title string
	Head  []string
	Rows  [][]string
	Notes []string
}

// The places of the tables of a report.
const (
	RigTable = iota
	CleanoutTable
	SpotTable
	RuleTable
	PullTable
)

// Tables words a report.
func (r *Report) Tables(sys unit.System) []Table {
	return []Table{r.rigTable(sys), r.cleanoutTable(sys), r.spotTable(sys), r.ruleTable(sys), r.doubtTable(sys)}
}

func (r *Report) rigTable(sys unit.System) Table {
	t := Table{
		Title: "Which rig to send",
		Head:  []string{"Rig", "Cleaned", "Missing", "Runs", "Moves", "Likely", "From", "To", "Water", "Least pressure"},
	}
	row := func(name string, o *Outcome) {
		t.Rows = append(t.Rows, []string{
			name, sys.Length(o.Cleaned), sys.Length(o.Missing), fmt.Sprint(o.Runs), fmt.Sprint(o.Moves),
			unit.Minutes(o.Likely), unit.Minutes(o.Low), unit.Minutes(o.High), sys.Volume(o.Water), sys.Pressure(o.LeastPressure),
		})
	}
	row("as it stands", &r.Now)
	for i := range r.Rigs {
		row(r.Rigs[i].What, &r.Rigs[i].Outcome)
	}
	t.Notes = []string{"From and to: all deposits milder, and worse, than noted."}
	if r.Best >= 0 && r.Rigs[r.Best].Better(&r.Now) {
		t.Notes = append(t.Notes, "Send "+r.Rigs[r.Best].What+": "+gain(&r.Rigs[r.Best], sys)+".")
	} else if r.Best >= 0 {
		t.Notes = append(t.Notes, "No other rig does better than the one of the site.")
	}
	return t
}

func (r *Report) cleanoutTable(sys unit.System) Table {
	t := Table{Title: "New cleanouts", Head: []string{"On", "From its upper end", "Reaches"}}
	for _, c := range r.Cleanouts.Set {
		t.Rows = append(t.Rows, []string{c.Name, sys.Length(c.At), sys.Length(c.Gains)})
	}
	if len(t.Rows) == 0 {
		t.Head, t.Notes = nil, []string{"No new cleanout reaches more."}
		return t
	}
	few := "No fewer reach as much."
	if !r.Cleanouts.Exact {
		few = fmt.Sprintf("Perhaps fewer reach as much; %d at the least.", r.Cleanouts.Least)
	}
	t.Notes = []string{
		fmt.Sprintf("With all of them the plan takes %s; %s. %s", unit.Minutes(r.Cleanouts.With.Likely), gain(&r.Cleanouts.With, sys), few),
	}
	return t
}

func (r *Report) spotTable(sys unit.System) Table {
	t := Table{Title: "One more spot", Head: []string{"Place", "Reaches more", "Saves"}}
	for i := range r.Spots[:min(len(r.Spots), 5)] {
		p := &r.Spots[i]
		t.Rows = append(t.Rows, []string{p.What, sys.Length(p.Wins), saved(p.Saves)})
	}
	if len(t.Rows) == 0 {
		t.Head, t.Notes = nil, []string{"No place in the site's stand areas does better than its spots."}
	}
	return t
}

func (r *Report) ruleTable(sys unit.System) Table {
	t := Table{Title: "What each limit costs", Head: []string{"If there were", "Reaches more", "Saves"}}
	for i := range r.Rules {
		t.Rows = append(t.Rows, []string{r.Rules[i].What, sys.Length(r.Rules[i].Wins), saved(r.Rules[i].Saves)})
	}
	return t
}

func (r *Report) doubtTable(sys unit.System) Table {
	t := Table{Title: "How sure the reach is", Head: []string{"Pipe", "Length", ""}}
	for i := range r.Doubts {
		d := &r.Doubts[i]
		t.Rows = append(t.Rows, []string{d.Name, sys.Length(d.Length), d.Say()})
	}
	if len(t.Rows) == 0 {
		t.Head = nil
	}
	t.Notes = []string{"Every run of the plan has pull enough even in the low case."}
	return t
}

// saved words minutes saved, or lost.
func saved(d time.Duration) string {
	switch {
	case d >= time.Minute/2:
		return unit.Minutes(d)
	case d <= -time.Minute/2:
		return "takes " + unit.Minutes(-d) + " more"
	}
	return "nothing"
}

// gain words what a row is better by.
func gain(r *Row, sys unit.System) string {
	what := "it reaches as much"
	switch {
	case r.Wins > hair:
		what = "it reaches " + sys.Length(r.Wins) + " more"
	case r.Wins < -hair:
		what = "it reaches " + sys.Length(-r.Wins) + " less"
	}
	switch saves := saved(r.Saves); {
	case saves == "nothing":
		return what
	case r.Saves < 0:
		return what + " and " + saves
	default:
		return what + " and saves " + saves
	}
}
