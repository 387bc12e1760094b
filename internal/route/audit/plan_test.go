package audit_test

import (
	"math"
	"time"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// The plan of the yard, worked out by hand. Pace, in minutes per metre: a
// stroke out 2/12 + 1/12 = 1/4, a pull 1/6 (roots 1/3), travel 1/12.
//
//	p1 grease          clean 20/4 + 20/6 = 8.33      finish 20/12 + 20/6 = 5.00
//	p2 sediment        clean 10/4 + 10/6 = 4.17
//	p3 grease, heavy   clean 6/4 + 2x6/6 + 6/12 = 4  finish 6/12 + 6/6 = 1.50
//	p1 travelled       2x20/12 = 3.33
//	p4 roots, down     cut 1.5 (8/4 + 8/3) = 7       clean 1.5 (8/12 + 8/6) = 3
//	p9 sediment        clean 6/4 + 6/6 = 2.50
//	p7 sediment        clean 4/4 + 4/6 = 1.67
//
// Every pass draws the pump's rated 40 L/min.
func yardPlan() *route.Plan {
	s := yard()
	run1 := pushed(s, "large", route.Run{
		Number: 1, Access: "MH1", Opens: true, Direction: route.Upstream,
		Lay: 15, Entry: 16, End: 46, Bends: 1, Minutes: mins(12.50 + 3 + 5), Water: 0.7,
		Path: []route.Leg{{Pipe: "p1", From: 16, To: 36, Cleaned: true}, {Pipe: "p2", From: 36, To: 46, Cleaned: true}},
		Fittings: []route.Fitting{
			{At: 16, Node: "MH1", Pipe: "p1", What: "manhole", Turn: unit.Degrees(90)},
			{At: 36, Node: "W1", Pipe: "p2", What: "wye, straight through"},
		},
		Passes: []route.Pass{
			{Kind: site.CleanPass, Nozzle: "puller", End: 46, Strokes: 30, Pulls: 1, Minutes: mins(12.50), Water: 0.5},
			{Kind: site.FinishPass, Nozzle: "flusher", End: 36, Pulls: 1, Minutes: mins(5), Water: 0.2},
		},
		Flags: []route.Flag{{Kind: route.FlagFragile, At: 36, Pipe: "p2"}},
	}, 150, leg{20, 90, 0}, leg{10, 0, 0})
	run2 := pushed(s, "large", route.Run{
		Number: 2, Access: "MH1", Direction: route.Upstream,
		Lay: 15, Entry: 16, End: 42, Bends: 1.5, Minutes: mins(7.33 + 3 + 4.83), Water: 0.4864,
		Path: []route.Leg{{Pipe: "p1", From: 16, To: 36}, {Pipe: "p3", From: 36, To: 42, Cleaned: true}},
		Fittings: []route.Fitting{
			{At: 16, Node: "MH1", Pipe: "p1", What: "manhole", Turn: unit.Degrees(90)},
			{At: 36, Node: "W1", Pipe: "p3", What: "wye, into the branch", Turn: unit.Degrees(45), Side: "left", Confirm: true},
		},
		Passes: []route.Pass{
			{Kind: site.CleanPass, Nozzle: "puller", End: 42, Strokes: 6, Pulls: 2, Minutes: mins(7.33), Water: 0.2932},
			{Kind: site.FinishPass, Nozzle: "flusher", End: 42, Pulls: 1, Minutes: mins(4.83), Water: 0.1932},
		},
		Flags: []route.Flag{{Kind: route.FlagLocator, At: 36, Pipe: "p3"}},
	}, 0, leg{20, 90, 0}, leg{6, 45, 0})
	run3 := pushed(s, "large", route.Run{
		Number: 3, Access: "PF1", Opens: true, Direction: route.Downstream,
		Lay: 15, Entry: 15, End: 23, Bends: 1, Minutes: mins(7 + 3 + 3), Water: 0.4,
		Path:     []route.Leg{{Pipe: "p4", From: 15, To: 23, Cleaned: true}},
		Fittings: []route.Fitting{{At: 20, Pipe: "p4", What: "1/4 bend", Turn: unit.Degrees(90), Side: "right"}},
		Passes: []route.Pass{
			{Kind: site.RootCutPass, Nozzle: "cutter", End: 23, Strokes: 8, Pulls: 1, Minutes: mins(7), Water: 0.28},
			{Kind: site.CleanPass, Nozzle: "flusher", End: 23, Pulls: 1, Minutes: mins(3), Water: 0.12},
		},
		Flags: []route.Flag{{Kind: route.FlagDownstream}},
	}, 0, leg{5, 0, 0}, leg{3, 90, 0})
	run4 := pushed(s, "large", route.Run{
		Number: 4, Access: "CO3", Opens: true, Direction: route.Upstream,
		Lay: 18, Entry: 18.5, End: 24.5, Bends: 0.5, Minutes: mins(2.5), Water: 0.1,
		Path:     []route.Leg{{Pipe: "p9", From: 18.5, To: 24.5, Cleaned: true}},
		Fittings: []route.Fitting{{At: 18.5, Node: "CO3", Pipe: "p9", What: "cleanout", Turn: unit.Degrees(45)}},
		Passes: []route.Pass{
			{Kind: site.CleanPass, Nozzle: "puller", End: 24.5, Strokes: 6, Pulls: 1, Minutes: mins(2.5), Water: 0.1},
		},
		Flags: []route.Flag{{Kind: route.FlagOverGap, At: 18.5, Pipe: "p9"}},
	}, 0, leg{6, 45, 0})
	run5 := pushed(s, "small", route.Run{
		Number: 5, Access: "CO2", Opens: true, Direction: route.Upstream,
		Lay: 17, Entry: 17, End: 21, Bends: 0.5, Minutes: mins(1.67), Water: 0.0668,
		Path:     []route.Leg{{Pipe: "p7", From: 17, To: 21, Cleaned: true}},
		Fittings: []route.Fitting{{At: 17, Node: "CO2", Pipe: "p7", What: "cleanout", Turn: unit.Degrees(45)}},
		Passes: []route.Pass{
			{Kind: site.CleanPass, Nozzle: "midget", End: 21, Strokes: 4, Pulls: 1, Minutes: mins(1.67), Water: 0.0668},
		},
	}, 0, leg{4, 45, 0})
	p := &route.Plan{
		Blocks: []route.Block{
			{Spot: "A", Hose: "large", Runs: []route.Run{run1, run2}},
			{Spot: "B", Hose: "large", Runs: []route.Run{run3, run4}},
			{Spot: "B", Hose: "small", Runs: []route.Run{run5}},
		},
		Shortfalls: []route.Shortfall{{
			Pipe: "p5", Name: "pipe p5", Size: 4, Length: 5, Reason: route.NoAccess,
			Cure: route.Cure{Kind: route.NewCleanout, Pipe: "p5", Name: "pipe p5", At: 5, Gains: 5},
		}},
		Day: yardDay(),
	}
	for _, e := range p.Day {
		p.Cost += e.Takes
	}
	p.Bound = mins(100)
	return p
}

// yardDay is the day with its tank, in litres: 20 L/min flow in at A, nothing
// at B; 40 are drawn by every pass, 60 drained.
func yardDay() []route.Event {
	const none = -1
	d := diaryOf{level: 600}
	d.add(route.EventSetUp, 10, 600, 0, none, none)
	d.add(route.EventOpen, 5, 600, 0, 1, none) // 4 + 2x15/30
	d.add(route.EventStart, 2, 600, 0, 1, none)
	d.add(route.EventJet, 12.5, 350, 0, 1, 0) // 600 - 12.5x20
	d.add(route.EventNozzleChange, 3, 410, 0, 1, 1)
	d.add(route.EventJet, 5, 310, 0, 1, 1)
	d.add(route.EventStart, 2, 350, 0, 2, none)
	d.add(route.EventWait, 2.5, 400, 0, 2, 0) // up to the start level
	d.add(route.EventJet, 7.33, 253.4, 0, 2, 0)
	d.add(route.EventNozzleChange, 3, 313.4, 0, 2, 1)
	d.add(route.EventWait, 4.33, 400, 0, 2, 1)
	d.add(route.EventJet, 4.83, 303.4, 0, 2, 1)
	d.add(route.EventPackUp, 6, 0, 0, none, none) // 303.4 drain in 5.06
	d.add(route.EventMove, 4, 0, 1, none, none)   // 3 + 60/60
	d.add(route.EventSetUp, 10, 0, 1, none, none)
	d.add(route.EventOpen, 8, 0, 1, 3, none) // 7 + 2x15/30
	d.add(route.EventStart, 2, 0, 1, 3, none)
	d.add(route.EventFill, 38, 600, 1, 3, 0) // 2 (3 + 60/60) + 600/20
	d.add(route.EventJet, 7, 320, 1, 3, 0)
	d.add(route.EventNozzleChange, 3, 320, 1, 3, 1)
	d.add(route.EventFill, 22, 600, 1, 3, 1)
	d.add(route.EventJet, 3, 480, 1, 3, 1)
	d.add(route.EventOpen, 5.2, 480, 1, 4, none) // 4 + 2x18/30
	d.add(route.EventStart, 2, 480, 1, 4, none)
	d.add(route.EventJet, 2.5, 380, 1, 4, 0)
	d.add(route.EventHoseChange, 5, 380, 2, none, none)
	d.add(route.EventOpen, 5.13, 380, 2, 5, none) // 4 + 2x17/30
	d.add(route.EventStart, 2, 380, 2, 5, none)
	d.add(route.EventFill, 19, 600, 2, 5, 0)
	d.add(route.EventJet, 1.67, 533.2, 2, 5, 0)
	d.add(route.EventDrain, 2.89, 359.8, 2, none, none) // 533.2/60 - 6
	d.add(route.EventPackUp, 6, 0, 2, none, none)
	return d.events
}

// diaryOf writes events one after another.
type diaryOf struct {
	events []route.Event
	clock  time.Duration
	level  float64
}

func (d *diaryOf) add(kind route.EventKind, minutes, after float64, block, run, pass int) {
	d.events = append(d.events, route.Event{
		Kind: kind, Start: d.clock, Takes: mins(minutes), Block: block, Run: run, Pass: pass,
		Before: unit.Litres(d.level), After: unit.Litres(after),
	})
	d.clock += mins(minutes)
	d.level = after
}

// mins is a time in minutes, to the hundredth.
func mins(m float64) time.Duration { return time.Duration(math.Round(m*100)) * route.Tick }

// leg is one straight of a path: its length, the turn before it and its climb,
// in metres and degrees.
type leg struct{ length, turn, climb float64 }

// pushed fills in what the physics of package rig gives for a run: the
// operating points, drag, pull and reach. ceiling is that of the first pass,
// in bar. Figures of package rig are checked against published ones there.
func pushed(s *site.Site, hoseID string, r route.Run, ceiling float64, legs ...leg) route.Run {
	hose := find(s.Rig.Hoses, func(h *rig.Hose) bool { return h.ID == hoseID })
	friction := yardTables().Materials[network.PVC40].Friction
	water := rig.WaterAt(s.Rig.Water)
	var steps []rig.Step
	for _, l := range legs {
		steps = append(steps, rig.Step{
			Length: unit.Metres(l.length), Turn: unit.Degrees(l.turn), Climb: unit.Degrees(l.climb), Friction: friction,
		})
	}
	for i := range r.Passes {
		p := &r.Passes[i]
		nozzle := find(s.Rig.Nozzles, func(n *rig.Nozzle) bool { return n.ID == p.Nozzle })
		limit := unit.Pressure(0)
		if i == 0 {
			limit = unit.Bar(ceiling)
		}
		op, setting, err := s.Rig.Operate(hose, nozzle, limit)
		if err != nil {
			panic(err)
		}
		out, at := steps[:0:0], r.Entry
		for _, st := range steps {
			if at < p.End {
				out = append(out, st)
			}
			at += st.Length
		}
		p.Operating, p.Setting = op, setting
		p.Drag = rig.Drag(out, hose, water, rig.LowReach)
		p.Peak = rig.PeakPull(out, hose, water, op.Thrust, rig.LowReach)
	}
	for i, c := range []rig.Case{rig.LowReach, rig.LikelyReach, rig.HighReach} {
		r.Reach[i] = r.Entry + rig.ReachAlong(steps, hose, water, r.Passes[0].Thrust, c)
	}
	return r
}

func find[T any](list []T, is func(*T) bool) *T {
	for i := range list {
		if is(&list[i]) {
			return &list[i]
		}
	}
	panic("not there")
}
