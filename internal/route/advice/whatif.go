package advice

import (
	"context"
	"fmt"
	"slices"
	"time"

	"linemap/internal/rig"
	"linemap/internal/site"
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

// Rigs plans a site with each of some rigs. best is the index of the one that
// reaches most, and among equals takes the fewest minutes, -1 without any. Saves
// and Wins are beside the site's own rig.
func Rigs(ctx context.Context, s *site.Site, t *site.Tables, base Outcome, rigs []rig.Rig) (rows []Row, best int, err error) {
	best = -1
	for i := range rigs {
		with := *s
		with.Rig, with.ByHand = rigs[i], site.ByHand{}
		o, err := Weigh(ctx, &with, t)
		if err != nil {
			return nil, -1, fmt.Errorf("with the rig %s: %w", rigs[i].Name, err)
		}
		rows = append(rows, rowOf(rigs[i].Name, o, base))
		if best < 0 || o.Better(&rows[best].Outcome) {
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

// Rules plans a site with one rule relaxed at a time, to show what it costs. A
// change that changes nothing about the rig is left out.
func Rules(ctx context.Context, s *site.Site, t *site.Tables, base Outcome) ([]Row, error) {
	var rows []Row
	for _, c := range changes(s.Units) {
		with := *s
		with.Rig, with.ByHand = s.Rig.Clone(), site.ByHand{}
		c.do(&with.Rig)
		if same(&with.Rig, &s.Rig) {
			continue
		}
		o, err := Weigh(ctx, &with, t)
		if err != nil {
			return nil, fmt.Errorf("with %s: %w", c.what, err)
		}
		rows = append(rows, rowOf(c.what, o, base))
	}
	return rows, nil
}

func same(a, b *rig.Rig) bool {
	return a.Tank == b.Tank && a.Crew == b.Crew && slices.Equal(a.Hoses, b.Hoses)
}
