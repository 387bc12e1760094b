package export

import (
	"fmt"
	"slices"
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
	if said := clock(w.sys, start, 0); !strings.HasPrefix(said, "+") {
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

// standing says how good the plan is proved to be.
func (w *wording) standing(p *route.Plan) string {
	switch {
	case p.Stopped:
		return fmt.Sprintf("The search was stopped: this is the best plan found. "+
			"No plan takes less than %s.", unit.Minutes(p.Bound))
	case p.Proven:
		return "No quicker plan exists under the rules set for this site."
	}
	return fmt.Sprintf("No plan under the rules set for this site takes less than %s.", unit.Minutes(p.Bound))
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

// hoses lists the hoses to load, in the order of the rig.
func (w *wording) hoses(p *route.Plan) []load {
	uses := map[string][]int{}
	for _, b := range p.Blocks {
		for i := range b.Runs {
			uses[b.Hose] = append(uses[b.Hose], b.Runs[i].Number)
		}
	}
	var loads []load
	for i := range w.site.Rig.Hoses {
		h := &w.site.Rig.Hoses[i]
		if len(uses[h.ID]) > 0 {
			what := fmt.Sprintf("%s long, up to %s, pipe %s", w.sys.Length(h.Length), w.sys.Pressure(h.Working),
				w.sizes(h.MinPipe, h.MaxPipe))
			loads = append(loads, load{w.hoseName(h.ID), what, numbers(uses[h.ID])})
		}
	}
	return loads
}

// sizes writes a range of pipe sizes: "3 to 8 in", "DN 80 to 200".
func (w *wording) sizes(least, most unit.Size) string {
	from, to := least.In(w.sys), most.In(w.sys)
	if rest, ok := strings.CutPrefix(to, "DN "); ok && strings.HasPrefix(from, "DN ") {
		return from + " to " + rest
	}
	if rest, ok := strings.CutSuffix(from, " in"); ok && strings.HasSuffix(to, " in") {
		return rest + " to " + to
	}
	return from + " to " + to
}

// nozzles lists the nozzles to load, in the order of the rig.
func (w *wording) nozzles(p *route.Plan) []load {
	uses := map[string][]int{}
	for _, b := range p.Blocks {
		for i := range b.Runs {
			for _, pass := range b.Runs[i].Passes {
				uses[pass.Nozzle] = append(uses[pass.Nozzle], b.Runs[i].Number)
			}
		}
	}
	var loads []load
	for i := range w.site.Rig.Nozzles {
		n := &w.site.Rig.Nozzles[i]
		if len(uses[n.ID]) > 0 {
			what := list(purposes(n), "pipe "+w.sizes(n.MinPipe, n.MaxPipe))
			loads = append(loads, load{w.nozzleName(n.ID), what, numbers(uses[n.ID])})
		}
	}
	return loads
}

// stops lists the blocks of the day in order.
func (w *wording) stops(p *route.Plan) []stop {
	stops := make([]stop, len(p.Blocks))
	for i := range p.Blocks {
		b := &p.Blocks[i]
		var nums []int
		for j := range b.Runs {
			nums = append(nums, b.Runs[j].Number)
		}
		stops[i] = stop{
			Order: i + 1, Clock: w.blockClock(p, i), Spot: w.spotName(b.Spot), Hose: w.hoseName(b.Hose),
			Runs: numbers(nums), Water: w.inflow(b.Spot),
		}
		switch s := w.spot(b.Spot); {
		case i > 0 && p.Blocks[i-1].Spot == b.Spot:
			stops[i].Place = "The same spot, another hose."
		case s != nil:
			stops[i].Place = sentences(stops[i].Water, traffic(s.Traffic), s.Note)
		}
	}
	return stops
}

// blockClock is the time of day at which a block begins.
func (w *wording) blockClock(p *route.Plan, block int) string {
	i := slices.IndexFunc(p.Day, func(e route.Event) bool { return e.Block == block })
	if i < 0 {
		return ""
	}
	return clock(w.sys, w.site.Job.Start, p.Day[i].Start)
}

// inflow says where a spot's water comes from: "hydrant W-1, 20 gpm, 85 ft of
// supply hose".
func (w *wording) inflow(id site.SpotID) string {
	s := w.spot(id)
	if s == nil {
		return ""
	}
	flow, point := w.site.Inflow(s)
	if point == nil {
		return "none in reach: works from the tank"
	}
	return list(w.waterPoint(point), w.sys.Flow(flow),
		w.sys.Length(w.site.SupplyLength(s, point))+" of supply hose")
}

// waterPoint names a water point: "hose bib W-1", "hydrant at the gate".
func (w *wording) waterPoint(p *site.WaterPoint) string {
	kind := word(waterWords, p.Kind)
	if strings.Contains(strings.ToLower(p.Label), kind) {
		return small(p.Label)
	}
	return strings.TrimSpace(kind + " " + p.Label)
}

// traffic says what a spot's traffic asks for.
func traffic(t site.Traffic) string {
	switch t {
	case site.ConedTraffic:
		return "traffic: cones and light"
	case site.LiveTraffic:
		return "live traffic"
	}
	return ""
}

// minutes lists the crew's time by kind, the total last.
func (w *wording) minutes(p *route.Plan) []fact {
	var facts []fact
	for _, k := range p.MinutesBy() {
		facts = append(facts, fact{capital(word(eventWords, k.Kind)), unit.Minutes(k.Takes)})
	}
	return append(facts, fact{"Total", unit.Minutes(p.Cost)})
}

// numbers lists ascending run numbers, three or more in a row as a span: "1 to
// 4, 6".
func numbers(ns []int) string {
	ns = slices.Compact(slices.Sorted(slices.Values(ns)))
	var parts []string
	for i := 0; i < len(ns); {
		j := i
		for j+1 < len(ns) && ns[j+1] == ns[j]+1 {
			j++
		}
		if j-i >= 2 {
			parts = append(parts, fmt.Sprintf("%d to %d", ns[i], ns[j]))
		} else {
			for _, n := range ns[i : j+1] {
				parts = append(parts, strconv.Itoa(n))
			}
		}
		i = j + 1
	}
	return list(parts...)
}

// people counts the crew.
func people(n int) string {
	if n == 1 {
		return "1 person"
	}
	return strconv.Itoa(n) + " people"
}
