package export

import (
	"fmt"
	"strconv"
	"strings"

	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// when says the day and the hour.
func (w *wording) when() []fact {
	job := &w.site.Job
	start := job.Start
	if said := clock(w.sys, start, &w.site.Rig.Crew, 0); !strings.HasPrefix(said, "+") {
		start = said
	}
	return []fact{{"Date", day(w.sys, job.Date)}, {"Start", start}}
}

// job says for whom and where.
func (w *wording) job() []fact {
	job := &w.site.Job
	return []fact{
		{"Customer", job.Customer},
		{"Address", job.Address},
		{"Contact", list(job.Contact, job.Phone)},
		{"Planned by", job.Estimator},
	}
}

// figures are the day in a handful of numbers.
func (w *wording) figures(p *route.Plan) []fact {
	runs, spots := 0, map[site.SpotID]bool{}
	var water unit.Volume
	var pipe unit.Length
	for i := range p.Blocks {
		spots[p.Blocks[i].Spot] = true
		for j := range p.Blocks[i].Runs {
			run := &p.Blocks[i].Runs[j]
			runs++
			water += run.Water
			for _, leg := range run.Path {
				if leg.Cleaned {
					pipe += leg.To - leg.From
				}
			}
		}
	}
	return []fact{
		{"Crew time", unit.Minutes(p.Cost)},
		{"Runs", strconv.Itoa(runs)},
		{"Spots", strconv.Itoa(len(spots))},
		{"Pipe to clean", w.sys.Length(pipe)},
		{"Water to jet", w.sys.Volume(water)},
	}
}

// standing says how good the plan is proved to be, and how many working days
// it takes where it takes more than one.
func (w *wording) standing(p *route.Plan) string {
	byHand := ""
	if p.ByHand != nil {
		byHand = p.ByHand.Line()
	}
	return sentences(w.proof(p), byHand, days(&w.site.Rig.Crew, p.Cost))
}

// left says how much pipe the plan does not clean, "" for none.
func (w *wording) left(p *route.Plan) string {
	if len(p.Shortfalls) == 0 {
		return ""
	}
	var length unit.Length
	for i := range p.Shortfalls {
		length += p.Shortfalls[i].Length
	}
	return fmt.Sprintf("Not cleaned: %s, %s; see the end of this sheet.",
		counted(len(p.Shortfalls), "pipe"), w.sys.Length(length))
}

func (w *wording) proof(p *route.Plan) string {
	rules := "the rules set for this site"
	if p.ByHand != nil {
		rules = "the rules and the decisions made by hand for this site"
	}
	switch {
	case p.ByHand != nil && len(w.site.ByHand.Order) > 0:
		return "The runs and their order were set by hand."
	case len(p.Blocks) == 0:
		return "No run can be made."
	case p.Stopped:
		return fmt.Sprintf("The search was stopped: this is the best plan found. "+
			"No plan takes less than %s.", unit.Minutes(p.Bound))
	case p.Proven:
		return "No quicker plan exists under " + rules + "."
	}
	return fmt.Sprintf("No plan under %s takes less than %s.", rules, unit.Minutes(p.Bound))
}

// minutes lists the crew's time by kind, the total last.
func (w *wording) minutes(p *route.Plan) []fact {
	var facts []fact
	for _, k := range p.MinutesBy() {
		facts = append(facts, fact{capital(word(eventWords, k.Kind)), unit.Minutes(k.Takes)})
	}
	if len(facts) == 0 {
		return nil
	}
	return append(facts, fact{"Total", unit.Minutes(p.Cost)})
}

// rig describes the machine.
func (w *wording) rig() []fact {
	r := &w.site.Rig
	supply := w.sys.Length(r.Supply.Length)
	if r.Supply.MaxFlow > 0 {
		supply += ", takes " + w.sys.Flow(r.Supply.MaxFlow)
	}
	tank := fmt.Sprintf("%s; start at %s, stop at %s", w.sys.Volume(r.Tank.Volume),
		w.sys.Volume(r.Tank.Start), w.sys.Volume(r.Tank.Stop))
	if r.Tank.ArrivesFull {
		tank += "; arrive full"
	} else {
		tank += "; arrive empty"
	}
	return []fact{
		{"Machine", r.Name},
		{"Pump", w.sys.Flow(r.Pump.Flow) + ", unloader at " + w.sys.Pressure(r.Pump.Unloader)},
		{"Tank", tank},
		{"Supply hose", supply},
		{"Crew", people(r.Crew.People)},
	}
}

// people counts the crew.
func people(n int) string {
	if n == 1 {
		return "1 person"
	}
	return strconv.Itoa(n) + " people"
}
