package advice

import (
	"context"
	"slices"
	"time"

	"linemap/internal/rig"
	"linemap/internal/unit"
)

// Row is one other way to do the job and what it comes to. Saves and Wins are
// the minutes and the length of pipe that it is better by than the site as it
// stands.
type Row struct {
	What string `json:"what"`
	Outcome
	Saves time.Duration `json:"saves_minutes"`
	Wins  unit.Length   `json:"wins"`
}

func rowOf(what string, o, base Outcome) Row {
	return Row{What: what, Outcome: o, Saves: base.Likely - o.Likely, Wins: base.Missing - o.Missing}
}

// pays tells whether a row is better by as much as a reader is told: pipe, or as
// much pipe in half a minute less.
func (r *Row) pays() bool {
	return r.Wins > hair || r.Wins > -hair && r.Saves >= time.Minute/2
}

// rigRows plans a site with each of the rigs. best is the index of the one that
// reaches most, and among equals takes the fewest minutes, -1 without any. Saves
// and Wins are beside the site's own rig.
func (c *comparison) rigRows(ctx context.Context) (rows []Row, best int, err error) {
	best = -1
	for i := range c.rigs {
		with := *c.site
		with.Rig = c.rigs[i]
		row, err := c.with(ctx, c.rigs[i].Name, &with, c.tables)
		if err != nil {
			return nil, -1, err
		}
		if row.Doubts, err = doubts(&with, c.tables, row.Plan); err != nil {
			return nil, -1, err
		}
		rows = append(rows, row)
		if best < 0 || row.Better(&rows[best].Outcome) {
			best = i
		}
	}
	return rows, best, nil
}

// change is one thing about a rig that might be other than it is.
type change struct {
	what string
	do   func(*rig.Rig)
}

func eachHose(do func(*rig.Hose)) func(*rig.Rig) {
	return func(r *rig.Rig) {
		for i := range r.Hoses {
			do(&r.Hoses[i])
		}
	}
}

// changes lists what might be other about a rig, in the units of the site.
func changes(sys unit.System) []change {
	step, word := unit.Feet(50), [2]string{"50 ft", "100 ft"}
	if sys == unit.Metric {
		step, word = unit.Metres(15), [2]string{"15 m", "30 m"}
	}
	return []change{
		{"every hose " + word[0] + " longer", eachHose(func(h *rig.Hose) { h.Length += step })},
		{"every hose " + word[1] + " longer", eachHose(func(h *rig.Hose) { h.Length += 2 * step })},
		{"no reserve left on the reel", eachHose(func(h *rig.Hose) { h.Reserve = 0 })},
		{"one more quarter bend a run", eachHose(func(h *rig.Hose) { h.Bends++ })},
		{"any single turn up to a quarter bend", eachHose(func(h *rig.Hose) { h.Sharpest = max(h.Sharpest, unit.QuarterBends(1)) })},
		{"hoses steered into any branch", eachHose(func(h *rig.Hose) { h.BranchTurn = max(h.BranchTurn, unit.QuarterBends(1)) })},
		{"downstream runs at no extra", func(r *rig.Rig) { r.Crew.Downstream = 0 }},
		{"a tank twice as large", func(r *rig.Rig) { r.Tank.Volume *= 2 }},
		{"coming with a full tank", func(r *rig.Rig) { r.Tank.ArrivesFull = true }},
	}
}

// rules plans a site with one limit relaxed at a time, to show what it costs. A
// change that changes nothing about the rig is left out.
func (c *comparison) rules(ctx context.Context) ([]Row, error) {
	var rows []Row
	for _, change := range c.changes {
		with := *c.site
		with.Rig = c.site.Rig.Clone()
		change.do(&with.Rig)
		row, err := c.with(ctx, change.what, &with, c.tables)
		if err != nil {
			return nil, err
		}
		rows = append(rows, row)
	}
	return rows, nil
}

func same(a, b *rig.Rig) bool {
	return a.Tank == b.Tank && a.Crew == b.Crew && slices.Equal(a.Hoses, b.Hoses)
}
