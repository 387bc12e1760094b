package strip

import (
	"slices"
	"sort"
	"time"

	"linemap/internal/rig"
	"linemap/internal/route"
	"linemap/internal/route/replay"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// day is a plan as the strip shows it.
type day struct {
	site  *site.Site
	plan  *route.Plan
	tank  *replay.Tank
	runs  []section
	stays []stay
	ends  time.Duration
}

// section is all that is done for one run, from opening its access to the last of
// its passes.
type section struct {
	run      *route.Run
	from, to time.Duration
	kept     bool // by hand
}

// stay is the time that the trailer stands at a spot with one hose.
type stay struct {
	name     string
	from, to time.Duration
}

func newDay(s *site.Site, p *route.Plan) *day {
	d := &day{site: s, plan: p, tank: replay.NewTank(s, p)}
	for i := range p.Day {
		e := &p.Day[i]
		d.ends = max(d.ends, e.Start+e.Takes)
		d.stand(e)
		d.work(e)
	}
	return d
}

// stand puts an event into its stay; the tow is in none.
func (d *day) stand(e *route.Event) {
	if e.Kind == route.EventMove || e.Block < 0 || e.Block >= len(d.plan.Blocks) {
		return
	}
	for len(d.stays) <= e.Block {
		d.stays = append(d.stays, stay{name: d.stayName(&d.plan.Blocks[len(d.stays)]), from: e.Start})
	}
	d.stays[e.Block].to = e.Start + e.Takes
}

func (d *day) stayName(b *route.Block) string {
	spot, hose := string(b.Spot), b.Hose
	for i := range d.site.Spots {
		if o := &d.site.Spots[i]; o.ID == b.Spot && o.Label != "" {
			spot = o.Label
		}
	}
	if i := slices.IndexFunc(d.site.Rig.Hoses, func(h rig.Hose) bool { return h.ID == b.Hose && h.Name != "" }); i >= 0 {
		hose = d.site.Rig.Hoses[i].Name
	}
	return spot + ", " + hose
}

// work puts an event into the section of its run.
func (d *day) work(e *route.Event) {
	if n := len(d.runs); n > 0 && d.runs[n-1].run.Number == e.Run {
		d.runs[n-1].to = e.Start + e.Takes
		return
	}
	if e.Run < 0 || e.Block < 0 || e.Block >= len(d.plan.Blocks) {
		return
	}
	block := &d.plan.Blocks[e.Block]
	for i := range block.Runs {
		if r := &block.Runs[i]; r.Number == e.Run {
			kept := slices.Contains(d.site.ByHand.Keep, r.Key(block))
			d.runs = append(d.runs, section{r, e.Start, e.Start + e.Takes, kept})
		}
	}
}

// at finds the event at a time, -1 for none.
func (d *day) at(t time.Duration) int {
	if t < 0 || t >= d.ends {
		return -1
	}
	return sort.Search(len(d.plan.Day), func(i int) bool { return d.plan.Day[i].Start > t }) - 1
}

// seen is the events that a span shows: from, up to and without to.
func (d *day) seen(s span) (from, to int) {
	from = max(0, sort.Search(len(d.plan.Day), func(i int) bool { return d.plan.Day[i].Start > s.from })-1)
	to = sort.Search(len(d.plan.Day), func(i int) bool { return d.plan.Day[i].Start >= s.to() })
	return from, max(from, to)
}

// section finds the section of a run, nil for none.
func (d *day) section(run int) *section {
	for i := range d.runs {
		if d.runs[i].run.Number == run {
			return &d.runs[i]
		}
	}
	return nil
}

// water is the tank's content at a time within an event.
func (d *day) water(event int, t time.Duration) unit.Volume {
	return d.tank.Within(event, t-d.plan.Day[event].Start)
}

// before and after are the starts of events on either side of a time; past the
// last one comes the day's end.

func (d *day) before(t time.Duration) time.Duration {
	i := sort.Search(len(d.plan.Day), func(i int) bool { return d.plan.Day[i].Start >= t })
	if i == 0 {
		return 0
	}
	return d.plan.Day[i-1].Start
}

func (d *day) after(t time.Duration) time.Duration {
	i := sort.Search(len(d.plan.Day), func(i int) bool { return d.plan.Day[i].Start > t })
	if i == len(d.plan.Day) {
		return d.ends
	}
	return d.plan.Day[i].Start
}

// runBefore and runAfter are the starts of runs on either side of a time.

func (d *day) runBefore(t time.Duration) time.Duration {
	i := sort.Search(len(d.runs), func(i int) bool { return d.runs[i].from >= t })
	if i == 0 {
		return 0
	}
	return d.runs[i-1].from
}

func (d *day) runAfter(t time.Duration) time.Duration {
	i := sort.Search(len(d.runs), func(i int) bool { return d.runs[i].from > t })
	if i == len(d.runs) {
		return d.ends
	}
	return d.runs[i].from
}
