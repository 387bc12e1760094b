package site

import (
	"fmt"
	"slices"
	"time"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// Visit is what a crew wrote down on one day. It tells of the drain as it was
// then: an edit of the drawing changes no visit.
type Visit struct {
	// Date is the day, 2026-03-17. Visits stand in its order, one for each day.
	Date string      `json:"date"`
	Crew string      `json:"crew,omitzero"`
	Note string      `json:"note,omitzero"`
	Runs []RunResult `json:"runs,omitzero"`
}

// RunResult is what came of one run of that day's plan.
type RunResult struct {
	Run RunKey `json:"run"`
	// Number is the number of the run on that day's sheet.
	Number int `json:"number"`
	// Planned is the reading of the hose counter at the far end by the plan,
	// Reached the reading at which the crew turned back, 0 where it made no run.
	Planned unit.Length `json:"planned"`
	Reached unit.Length `json:"reached"`
	// Found is what was found in the crew's words. Deposit and Severity say it
	// in the tables' terms: no deposit where nobody did, no severity for moderate.
	Found    string           `json:"found,omitzero"`
	Deposit  network.Deposit  `json:"deposit,omitzero"`
	Severity network.Severity `json:"severity,omitzero"`
	// Condition is that of the pipe, empty where nobody judged it.
	Condition Condition `json:"condition,omitzero"`
	// Passes were made in Minutes, 0 where it was not written down.
	Passes   int           `json:"passes,omitzero"`
	Minutes  time.Duration `json:"minutes,omitzero"`
	Initials string        `json:"initials,omitzero"`
	// Photos are paths of pictures from the folder of the document.
	Photos []string `json:"photos,omitzero"`
	// Pipes are those that the run was to clean, in the order in which the
	// nozzle comes to them.
	Pipes []PipeResult `json:"pipes,omitzero"`
}

// PipeResult says how much of a pipe was cleaned. The pipe may since be gone.
type PipeResult struct {
	Pipe network.PipeID `json:"pipe"`
	// Length is the pipe's length by that day's plan. Cleaned counts from the
	// end at which the nozzle came in.
	Length  unit.Length `json:"length"`
	Cleaned unit.Length `json:"cleaned"`
}

// Condition says what state a pipe is in, by the eye of the crew.
type Condition string

// The conditions.
const (
	GoodCondition   Condition = "good"
	WatchCondition  Condition = "watch"
	RepairCondition Condition = "repair"
)

// Conditions lists the conditions, the best first.
func Conditions() []Condition {
	return []Condition{GoodCondition, WatchCondition, RepairCondition}
}

// Severities lists how bad a deposit can be, the least first.
func Severities() []network.Severity {
	return []network.Severity{network.Light, network.Moderate, network.Heavy}
}

// Clone returns a copy that shares nothing with v.
func (v Visit) Clone() Visit {
	v.Runs = each(v.Runs, RunResult.Clone)
	return v
}

// Clone returns a copy that shares nothing with r.
func (r RunResult) Clone() RunResult {
	r.Photos, r.Pipes = slices.Clone(r.Photos), slices.Clone(r.Pipes)
	return r
}

// Visit returns the visit of a day, nil where there was none.
func (s *Site) Visit(date string) *Visit {
	return find(s.Visits, func(v *Visit) bool { return v.Date == date })
}

// Result returns what came of a run, nil where the visit does not say.
func (v *Visit) Result(key RunKey) *RunResult {
	return find(v.Runs, func(r *RunResult) bool { return r.Run == key })
}

// Put takes a result in: in the place of what is there of the same run, else in
// the order of the numbers.
func (v *Visit) Put(r RunResult) {
	if was := v.Result(r.Run); was != nil {
		*was = r
		return
	}
	at := 0
	for at < len(v.Runs) && v.Runs[at].Number <= r.Number {
		at++
	}
	v.Runs = slices.Insert(v.Runs, at, r)
}

// checkVisits finds days out of order and what a single visit cannot hold.
func (s *Site) checkVisits(p *problems) {
	for i := range s.Visits {
		v := &s.Visits[i]
		if i > 0 && v.Date <= s.Visits[i-1].Date {
			p.add(at("visits[%d].date", i), quote(v.Date), "a day after "+s.Visits[i-1].Date+", that of the visit before")
		}
		checkVisit(p, fmt.Sprintf("visits[%s].", v.Date), v)
	}
}

// checkVisit finds what of a visit the schema cannot say: a day that no
// calendar has, a run twice, more cleaned than there is.
func checkVisit(p *problems, in string, v *Visit) {
	checkDate(p, at("%sdate", in), v.Date)
	first := make(map[RunKey]int, len(v.Runs))
	for i := range v.Runs {
		r := &v.Runs[i]
		if k, twice := first[r.Run]; twice {
			p.add(at("%sruns[%d].run", in, i), "a run a second time", fmt.Sprintf("unlike that of runs[%d]", k))
		} else {
			first[r.Run] = i
		}
		checkResult(p, fmt.Sprintf("%sruns[%d].", in, i), r)
	}
}

func checkResult(p *problems, in string, r *RunResult) {
	for k, name := range r.Photos {
		checkFile(p, at("%sphotos[%d]", in, k), name)
	}
	for k := range r.Pipes {
		if pr := &r.Pipes[k]; pr.Cleaned > pr.Length {
			p.add(at("%spipes[%s].cleaned", in, pr.Pipe), fmt.Sprintf("%v m", pr.Cleaned.Metres()),
				fmt.Sprintf("at most %v m, the length of the pipe", pr.Length.Metres()))
		}
	}
}
