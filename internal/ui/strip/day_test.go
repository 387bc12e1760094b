package strip

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// shortDay is a day of two stays: set up 10 min, run 1 of 10 and 20 min, pack up,
// move and set up of 5 min each, run 2 of 30 min.
func shortDay() *day {
	s := &site.Site{Units: unit.US}
	s.Job.Start = "07:30"
	s.Rig.Tank.Volume, s.Rig.Tank.Start, s.Rig.Tank.Stop = 1, 0.5, 0.1
	s.Spots = []site.Spot{{ID: "a", Label: "Yard"}, {ID: "b", Label: "Lane"}}
	p := &route.Plan{Blocks: []route.Block{
		{Spot: "a", Hose: "h", Runs: []route.Run{{Number: 1, Access: "x", Passes: []route.Pass{{Kind: site.CleanPass}}}}},
		{Spot: "b", Hose: "h", Runs: []route.Run{{Number: 2, Access: "y", Direction: route.Downstream, Path: []route.Leg{{Pipe: "q"}}, Passes: []route.Pass{{Kind: site.CleanPass}}}}},
	}}
	add := func(kind route.EventKind, takes, block, run int, after unit.Volume) {
		e := route.Event{Kind: kind, Takes: time.Duration(takes) * time.Minute, Block: block, Run: run, Pass: -1, Before: 1, After: after}
		if kind == route.EventJet {
			e.Pass = 0
		}
		if n := len(p.Day); n > 0 {
			e.Start = p.Day[n-1].Start + p.Day[n-1].Takes
			e.Before = p.Day[n-1].After
		}
		p.Day = append(p.Day, e)
	}
	add(route.EventSetUp, 10, 0, -1, 1)
	add(route.EventStart, 10, 0, 1, 1)
	add(route.EventJet, 20, 0, 1, 0.6)
	add(route.EventPackUp, 5, 0, -1, 0)
	add(route.EventMove, 5, 1, -1, 0)
	add(route.EventSetUp, 5, 1, -1, 0)
	add(route.EventJet, 30, 1, 2, 0)
	s.ByHand.Keep = []site.RunKey{{Spot: "b", Hose: "h", Access: "y", End: "q", Downstream: true}}
	return newDay(s, p)
}

func TestDay(t *testing.T) {
	d := shortDay()
	min := func(m int) time.Duration { return time.Duration(m) * time.Minute }
	assert.Equal(t, min(85), d.ends)
	require.Len(t, d.runs, 2)
	assert.Equal(t, []any{min(10), min(40), false}, []any{d.runs[0].from, d.runs[0].to, d.runs[0].kept})
	assert.Equal(t, []any{min(55), min(85), true}, []any{d.runs[1].from, d.runs[1].to, d.runs[1].kept})
	assert.Equal(t, []stay{{"Yard, h", 0, min(45)}, {"Lane, h", min(50), min(85)}}, d.stays)

	for _, c := range []struct{ at, event, before, after, runBefore, runAfter int }{
		{0, 0, 0, 10, 0, 10},
		{9, 0, 0, 10, 0, 10},
		{10, 1, 0, 20, 0, 55},
		{30, 2, 20, 40, 10, 55},
		{47, 4, 45, 50, 10, 55},
		{60, 6, 55, 85, 55, 85},
		{85, -1, 55, 85, 55, 85},
	} {
		at := min(c.at)
		assert.Equal(t, c.event, d.at(at), "event at %d", c.at)
		assert.Equal(t, []time.Duration{min(c.before), min(c.after), min(c.runBefore), min(c.runAfter)},
			[]time.Duration{d.before(at), d.after(at), d.runBefore(at), d.runAfter(at)}, "around %d", c.at)
	}
	from, to := d.seen(span{from: min(15), shown: min(30), width: 1})
	assert.Equal(t, [2]int{1, 4}, [2]int{from, to})
}

func TestHit(t *testing.T) {
	d := shortDay()
	s := whole(d.ends, 100, 850) // ten pixels a minute
	r := stack(150, 15)
	mid := func(b band) float64 { return b.y + b.h/2 }
	for _, c := range []struct {
		name       string
		x, y       float64
		event, run int
		time       bool
		whole      bool
	}{
		{"set up", 150, mid(r.crew), 0, 0, false, false},
		{"jetting", 350, mid(r.crew), 2, 1, false, false},
		{"tab of a run", 350, mid(r.runs), 2, 1, false, true},
		{"tab without a run", 150, mid(r.runs), 0, 0, false, false},
		{"clock over a run", 350, mid(r.clock), 2, 0, true, false},
		{"tank under a run", 350, mid(r.tank), 2, 0, true, false},
		{"left of the day", 50, mid(r.crew), -1, 0, false, false},
		{"right of the day", 960, mid(r.crew), -1, 0, false, false},
		{"line of words", 350, mid(r.words), -1, 0, false, false},
		{"above", 350, -1, -1, 0, false, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := d.hit(s, r, c.x, c.y)
			assert.Equal(t, []any{c.event, c.run, c.time, c.whole}, []any{p.event, p.run, p.ofTime, p.whole})
		})
	}
}

func TestBlocks(t *testing.T) {
	d := shortDay()
	p := &pen{picture: &picture{day: d, span: whole(d.ends, 100, 850), rows: stack(150, 15)}}
	jet := p.block(&d.plan.Day[2], 1)
	assert.Equal(t, [2]float64{301, 199}, [2]float64{jet.X, jet.W}, "with a pixel to the block before")
	assert.InDelta(t, p.rows.crew.bottom(), jet.Bottom(), 1e-9)
	move := p.block(&d.plan.Day[4], 1)
	assert.Less(t, move.Y, p.rows.runs.y, "the tow reaches up between the stays")
	p.span = whole(d.ends, 100, 10)
	for i := range d.plan.Day {
		assert.GreaterOrEqual(t, p.block(&d.plan.Day[i], 1).W, 1.0)
	}
}

func TestTicks(t *testing.T) {
	labels := func(s *site.Site, sp span, ends time.Duration) (out []string) {
		wide := func(s string) float64 { return 6 * float64(len(s)) }
		for _, k := range ticks(s, sp, ends, wide) {
			out = append(out, k.label)
			assert.True(t, k.at >= sp.from && k.at <= sp.to())
		}
		return out
	}
	s := &site.Site{Units: unit.US}
	s.Job.Start = "07:50"
	day := whole(4*time.Hour, 0, 600)
	assert.Equal(t, []string{"7:50 am", "8:30 am", "9:00 am", "9:30 am", "10:00 am", "10:30 am", "11:00 am"}, labels(s, day, 4*time.Hour), "8:00 has no room beside the start")
	close := day.zoom(300, 8, 4*time.Hour)
	assert.Equal(t, []string{"9:35 am", "9:40 am", "9:45 am", "9:50 am", "9:55 am", "10:00 am"}, labels(s, close, 4*time.Hour))
	s.Units = unit.Metric
	assert.Equal(t, []string{"07:50", "08:30", "09:00", "09:30", "10:00", "10:30", "11:00", "11:30"}, labels(s, day, 4*time.Hour))

	s.Job.Start = ""
	assert.Equal(t, []string{"+0 min", "+1 h 00 min", "+2 h 00 min", "+3 h 00 min"}, labels(s, day, 4*time.Hour))

	s.Job.Start, s.Rig.Crew.Shift = "08:00", 120
	assert.Equal(t, []string{"08:00", "08:30", "09:00", "09:30", "08:00, day 2", "09:00", "09:30"}, labels(s, day, 4*time.Hour))
	s.Rig.Crew.Shift = 1e-3 // thousands of days
	assert.NotEmpty(t, labels(s, day, 4*time.Hour))
}
