package advice

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"linemap/internal/site"
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

// asItStands names the site's own rig.
const asItStands = "as it stands"

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
			name, sys.Length(o.Cleaned), missing(o, sys), fmt.Sprint(o.Runs), fmt.Sprint(o.Moves),
			unit.Minutes(o.Likely), unit.Minutes(o.Low), unit.Minutes(o.High), sys.Volume(o.Water), sys.Pressure(o.LeastPressure),
		})
	}
	row(asItStands, &r.Now)
	for i := range r.Rigs {
		row(r.Rigs[i].What, &r.Rigs[i].Outcome)
	}
	if r.Best >= 0 && r.Rigs[r.Best].pays() {
		t.Notes = append(t.Notes, "Send "+r.Rigs[r.Best].What+": "+gain(&r.Rigs[r.Best], sys)+".")
	} else if r.Best >= 0 {
		t.Notes = append(t.Notes, "No other rig does better than the one of the site.")
	}
	t.Notes = append(t.Notes,
		"Likely, from and to: the day with all deposits as noted, milder and worse.",
		"Missing: at the low reach, by which the plans are made.")
	return t
}

// missing words the pipe that is missing, and what of it is at the likely and at
// the high reach where that is less.
func missing(o *Outcome, sys unit.System) string {
	likely, high := o.MissingAt()
	if high >= o.Missing-hair && likely >= o.Missing-hair {
		return sys.Length(o.Missing)
	}
	return fmt.Sprintf("%s, likely %s, at best %s", sys.Length(o.Missing), sys.Length(likely), sys.Length(high))
}

func (r *Report) cleanoutTable(sys unit.System) Table {
	c := &r.Cleanouts
	t := Table{Title: "New cleanouts", Head: []string{"On", "From its upper end", "Size", "Lies", "Deep", "Price", "Reaches"}}
	for i := range c.Set {
		o := &c.Set[i]
		deep := ""
		if o.Depth > 0 {
			deep = sys.Length(o.Depth)
		}
		t.Rows = append(t.Rows, []string{
			o.Name, sys.Length(o.At), o.Size.In(sys), lieWords[o.Lies], deep, price(o.Price), sys.Length(o.Gains),
		})
	}
	if len(t.Rows) == 0 {
		t.Head, t.Notes = nil, []string{"No new cleanout reaches more."}
	} else {
		all := "With it"
		if len(c.Set) > 1 {
			all = fmt.Sprintf("With all %d, at a price of %s,", len(c.Set), price(c.Price))
		}
		t.Notes = []string{
			fmt.Sprintf("%s the plan takes %s; %s.", all, unit.Minutes(c.With.Likely), gain(&c.With, sys)),
			c.proof(),
			"Reaches: what one of them reaches by itself.",
			"Prices, in no currency, go by where the pipe lies, how deep, and its size.",
		}
	}
	if len(c.Beyond) > 0 {
		t.Notes = append(t.Notes, fmt.Sprintf("Out of reach of any one new cleanout: %s, %s.", r.beyond(), sys.Length(c.BeyondLength)))
	}
	return t
}

// beyond names what no one new cleanout reaches, as far as a line holds it.
func (r *Report) beyond() string {
	const most = 4
	var names []string
	for i := range r.Now.Plan.Shortfalls {
		if f := &r.Now.Plan.Shortfalls[i]; slices.Contains(r.Cleanouts.Beyond, f.Pipe) {
			names = append(names, f.Name)
		}
	}
	if more := len(names) - most; more > 0 {
		names = append(names[:most], fmt.Sprintf("%d more", more))
	}
	return strings.Join(names, ", ")
}

var lieWords = map[site.Lie]string{site.InWall: "in a wall", site.InYard: "in the yard", site.UnderSlab: "under the slab"}

func price(p float64) string { return fmt.Sprintf("%.0f", p) }

// proof says how good the set of cleanouts is.
func (c *Cleanouts) proof() string {
	switch n := len(c.Set); {
	case c.Exact && n == 1:
		return "No other one reaches as much for less."
	case c.Exact:
		return fmt.Sprintf("Each judged by itself, no fewer reach as much, and no other %d for less.", n)
	case c.Least == n:
		return "Each judged by itself, no fewer reach as much; perhaps others cost less."
	}
	return fmt.Sprintf("Perhaps fewer reach as much: %d at the least.", c.Least)
}

func (r *Report) spotTable(sys unit.System) Table {
	t := Table{Title: "One more spot", Head: []string{"Place", "Reaches more", "Saves"}}
	for i := range r.Spots[:min(len(r.Spots), 5)] {
		p := &r.Spots[i]
		t.Rows = append(t.Rows, []string{p.What, reach(p.Wins, sys), saved(p.Saves)})
	}
	tried := fmt.Sprintf("Of %s tried in the stand areas", unit.Count(r.Places, "place"))
	switch {
	case len(t.Rows) > 0:
		t.Notes = []string{tried + ", these do better than the site's own spots."}
	case r.Places > 0:
		t.Head, t.Notes = nil, []string{tried + ", none does better than the site's own spots."}
	default:
		t.Head, t.Notes = nil, []string{
			"Spots are proposed where a trailer may stand: in a stand area, off what is kept clear, with water in reach.",
			"The site has no such place.",
		}
	}
	return t
}

func (r *Report) ruleTable(sys unit.System) Table {
	t := Table{Title: "What each limit costs", Head: []string{"If there were", "Reaches more", "Saves"}}
	for i := range r.Rules {
		t.Rows = append(t.Rows, []string{r.Rules[i].What, reach(r.Rules[i].Wins, sys), saved(r.Rules[i].Saves)})
	}
	// The rule is one of safety, not of the rig: a price would be an offer.
	t.Rows = append(t.Rows, []string{"pipe cleaned before the pipe below it", "never", "never"})
	t.Notes = []string{
		"Lowest first is never relaxed and has no price: what is washed out above a dirty pipe backs up behind it and comes out at the fixtures.",
		"A longer hose loses more pressure, so that it can take minutes as well as save them.",
	}
	return t
}

func (r *Report) doubtTable(sys unit.System) Table {
	t := Table{Title: "How sure the reach is", Head: []string{"Rig", "Pipe", "Length", "Low reach", "Likely", "High reach"}}
	rows := func(rig string, o *Outcome) {
		for _, d := range o.Doubts {
			t.Rows = append(t.Rows, []string{rig, d.Name, sys.Length(d.Length), "fails", reached(d.Likely), reached(d.High)})
		}
	}
	rows(asItStands, &r.Now)
	for i := range r.Rigs {
		rows(r.Rigs[i].What, &r.Rigs[i].Outcome)
	}
	t.Notes = []string{"Every run of every plan has pull enough even at the low reach: the most friction, the heaviest hose."}
	if len(t.Rows) == 0 {
		t.Head = nil
		t.Notes = append(t.Notes, "The likely and the high reach clean nothing more.")
	}
	return t
}

func reached(yes bool) string {
	if yes {
		return "reached"
	}
	return "fails"
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

// reach words pipe that is reached more, or less.
func reach(wins unit.Length, sys unit.System) string {
	switch {
	case wins > hair:
		return sys.Length(wins)
	case wins < -hair:
		return sys.Length(-wins) + " less"
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
