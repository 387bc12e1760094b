package export

import (
	"slices"
	"time"

	"linemap/internal/network"
	"linemap/internal/network/sketch"
	"linemap/internal/rig"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// The fixture is a small invented bakery with a plan written down by hand, so
// that the papers are tested apart from the planner: two spots, three runs
// (one with two passes and a branch to confirm, one in fragile pipe, one
// downstream), a wait for water and a shortfall.

func fixtureSite() *site.Site {
	net := sketch.Must(`
		OUT -60ft/6in/clay/roots/sewer/fragile/ceiling=1500psi/label=S1- MH1(label=MH-1 size=24in) -45ft/4in/iron/drain/grease/heavy/label=D1- C1 -30ft/label=D2- W1 -25ft/label=D3- CO3(down label=CO-3 indoor)
		C1 ~18ft/4in/branch/grease/label=B1- B1 -12ft/3in/label=B2- F1(label=Sink)
		W1 ~20ft/2in/lateral/label=L1- F2(label=Basin)`)
	for i := range net.Nodes {
		switch n := &net.Nodes[i]; n.ID {
		case "CO3":
			n.Access.Room = "Bakery, behind the oven"
			n.Note = "Tile cover, needs the long screwdriver."
		case "F2":
			n.Note = "Basin stays in use until 9:00."
		}
	}
	return &site.Site{
		Version: site.Version, Units: unit.US, Paper: site.Letter, Network: *net,
		Job: site.Job{
			Title: "Rolling Pin Bakery, drains", Customer: "Rolling Pin Bakery", Address: "18 Fictive Lane, Inventown",
			Contact: "R. Dough", Phone: "555-0142", Date: "2026-03-17", Start: "07:30", Revision: "B",
			Estimator: "P. Lanner", Note: "Night baking ends at 7:00. The yard gate code is with the contact.",
		},
		Spots: []site.Spot{
			{ID: "yard", Label: "Yard", Traffic: site.ConedTraffic, Note: "beside the bins"},
			{ID: "lane", Label: "Fictive Lane", At: network.Point{X: 50, Y: 12}},
		},
		Water: []site.WaterPoint{{ID: "bib", Label: "W-1", Kind: site.HoseBib, Flow: unit.GallonsPerMinute(8), Note: "Key on the nail."}},
		Rig:   fixtureRig(),
	}
}

func fixtureRig() rig.Rig {
	return rig.Rig{
		Name: "Trailer 2",
		Pump: rig.Pump{Flow: unit.GallonsPerMinute(12), Rated: unit.Psi(4000), Unloader: unit.Psi(3500)},
		Tank: rig.Tank{
			Volume: unit.Gallons(330), Start: unit.Gallons(165), Stop: unit.Gallons(40),
			Drain: unit.GallonsPerMinute(40), ArrivesFull: true,
		},
		Supply: rig.SupplyHose{Length: unit.Feet(100), MaxFlow: unit.GallonsPerMinute(15)},
		Hoses: []rig.Hose{
			{ID: "half", Name: "1/2 in x 400 ft", Bore: unit.Inches(0.5), Length: unit.Feet(400), Reserve: unit.Feet(10), Working: unit.Psi(4000), Bends: 4, MinPipe: 4, MaxPipe: 12},
			{ID: "three", Name: "3/8 in x 300 ft", Bore: unit.Inches(0.375), Length: unit.Feet(300), Reserve: unit.Feet(10), Working: unit.Psi(4000), Bends: 5, MinPipe: 3, MaxPipe: 8},
			{ID: "spare", Name: "1/4 in x 150 ft", Bore: unit.Inches(0.25), Length: unit.Feet(150)},
		},
		Nozzles: []rig.Nozzle{
			{ID: "pen", Name: "Penetrator", Purposes: []rig.Purpose{rig.Penetrating}, MinPipe: 3, MaxPipe: 8},
			{ID: "flush", Name: "Wide flusher", Purposes: []rig.Purpose{rig.Flushing}, MinPipe: 4, MaxPipe: 12},
			{ID: "root", Name: "Root cutter", Purposes: []rig.Purpose{rig.RootCutting}, MinPipe: 4, MaxPipe: 8},
		},
		Crew: rig.Crew{People: 2},
	}
}

func fixtureTables() *site.Tables {
	return &site.Tables{
		Materials: map[network.Material]site.MaterialRow{
			network.Clay: {Name: "vitrified clay"}, network.CastIron: {Name: "no-hub cast iron"},
		},
		Deposits: map[network.Deposit]site.DepositRow{network.Grease: {Name: "grease"}, network.Roots: {Name: "roots"}},
	}
}

func minutes(m float64) time.Duration { return time.Duration(m * float64(time.Minute)) }

func fixturePlan() *route.Plan {
	ft, gal := unit.Feet, unit.Gallons
	p := &route.Plan{
		Cost: minutes(185), Bound: minutes(180),
		Blocks: []route.Block{
			{Spot: "yard", Hose: "half", Runs: []route.Run{
				{
					Number: 1, Access: "MH1", Opens: true, Direction: route.Downstream,
					Lay: ft(22.5), Entry: ft(28), End: ft(88), Bends: 1,
					Path:     []route.Leg{{Pipe: "OUT-MH1", From: ft(28), To: ft(88), Cleaned: true}},
					Fittings: []route.Fitting{{At: ft(28), Node: "MH1", Pipe: "OUT-MH1", What: "entry from the manhole", Turn: unit.Degrees(90), Side: "down"}},
					Passes:   []route.Pass{fixturePass(site.RootCutPass, "root", 88, 1430, 24, 96)},
					Flags: []route.Flag{
						{Kind: route.FlagDownstream},
						{Kind: route.FlagFragile, At: ft(28), Pipe: "OUT-MH1"},
						{Kind: route.FlagSmallMargin, At: ft(80)},
					},
					Reach: [3]unit.Length{ft(88), ft(88), ft(88)}, Minutes: minutes(24), Water: gal(96),
				},
				{
					Number: 2, Access: "MH1", Direction: route.Upstream,
					Lay: ft(22.5), Entry: ft(28), End: ft(128) + unit.Inches(6), Bends: 1.75,
					Path: []route.Leg{
						{Pipe: "MH1-C1", From: ft(28), To: ft(73), Cleaned: true},
						{Pipe: "C1-W1", From: ft(73), To: ft(103)},
						{Pipe: "W1-CO3", From: ft(103), To: ft(128) + unit.Inches(6), Cleaned: true},
					},
					Fittings: []route.Fitting{
						{At: ft(28), Node: "MH1", Pipe: "MH1-C1", What: "entry from the manhole", Turn: unit.Degrees(90), Side: "down"},
						{At: ft(73), Node: "C1", Pipe: "C1-W1", What: "combination, straight through"},
						{At: ft(84) + unit.Inches(7), Pipe: "C1-W1", What: "traced bend, near a 1/16 bend", Turn: unit.Degrees(22.5), Side: "left"},
						{At: ft(103), Node: "W1", Pipe: "W1-CO3", What: "wye, into the branch", Turn: unit.Degrees(45), Side: "right", Confirm: true},
					},
					Passes: []route.Pass{
						fixturePass(site.OpenPass, "pen", 128.5, 2140, 18, 71),
						fixturePass(site.CleanPass, "flush", 103, 2090, 14, 64),
					},
					Flags: []route.Flag{
						{Kind: route.FlagLocator, At: ft(103), Pipe: "W1-CO3"},
						{Kind: route.FlagWeakCarry, At: ft(28), Pipe: "MH1-C1"},
						{Kind: route.FlagOverGap, Pipe: "OUT-MH1"},
					},
					Reach: [3]unit.Length{ft(128.5), ft(128.5), ft(128.5)}, Minutes: minutes(37), Water: gal(135),
				},
			}},
			{Spot: "lane", Hose: "three", Runs: []route.Run{{
				Number: 3, Access: "CO3", Opens: true, Direction: route.Downstream,
				Lay: ft(61), Entry: ft(62), End: ft(117), Bends: 2,
				Path: []route.Leg{
					{Pipe: "W1-CO3", From: ft(62), To: ft(87)}, {Pipe: "C1-W1", From: ft(87), To: ft(117), Cleaned: true},
				},
				Passes: []route.Pass{fixturePass(site.CleanPass, "flush", 117, 1820, 15, 60)},
				Flags:  []route.Flag{{Kind: route.FlagStack, At: ft(87), Pipe: "C1-W1"}},
				Reach:  [3]unit.Length{ft(117), ft(117), ft(117)}, Minutes: minutes(15), Water: gal(60),
			}}},
		},
		Shortfalls: []route.Shortfall{
			{
				Pipe: "W1-F2", Length: ft(20), Reason: route.HoseTooLarge, AtName: "L1", HoseName: "3/8 in x 300 ft", AccessName: "CO-3",
				Cure: route.Cure{Kind: route.SmallerHose, Gains: ft(20)},
			},
			{Pipe: "B1-F1", Length: ft(12), Reason: route.OverReel, ByLength: ft(4), Cure: route.Cure{Kind: route.LongerHose, Length: ft(4), Gains: ft(30)}},
		},
	}
	fixtureDay(p)
	return p
}

func fixturePass(kind site.PassKind, nozzle string, end, psi, mins, gal float64) route.Pass {
	return route.Pass{
		Kind: kind, Nozzle: nozzle, Setting: unit.Psi(3500), End: unit.Feet(end), Strokes: 12, Pulls: 2,
		Operating: rig.Operating{
			Flow: unit.GallonsPerMinute(12), Pump: unit.Psi(3500), Nozzle: unit.Psi(psi), Thrust: unit.PoundsForce(28),
		},
		Minutes: minutes(mins), Water: unit.Gallons(gal),
	}
}

// fixtureDay strings events together so that the day has no gaps.
func fixtureDay(p *route.Plan) {
	at, level := time.Duration(0), unit.Gallons(330)
	add := func(kind route.EventKind, block, run, pass int, mins float64, after unit.Volume) {
		p.Day = append(p.Day, route.Event{
			Kind: kind, Start: at, Takes: minutes(mins), Block: block, Run: run, Pass: pass, Before: level, After: after,
		})
		at, level = at+minutes(mins), after
	}
	add(route.EventSetUp, 0, -1, -1, 20, level)
	add(route.EventOpen, 0, 1, -1, 6, level)
	add(route.EventStart, 0, 1, -1, 5, level)
	add(route.EventJet, 0, 1, 0, 24, unit.Gallons(234))
	add(route.EventStart, 0, 2, -1, 5, unit.Gallons(120))
	add(route.EventWait, 0, 2, 0, 8, unit.Gallons(184))
	add(route.EventJet, 0, 2, 0, 18, unit.Gallons(150))
	add(route.EventNozzleChange, 0, 2, -1, 5, unit.Gallons(190))
	add(route.EventWait, 0, 2, 1, 3, unit.Gallons(214))
	add(route.EventJet, 0, 2, 1, 14, unit.Gallons(162))
	add(route.EventDrain, 0, -1, -1, 4, 0)
	add(route.EventPackUp, 0, -1, -1, 15, 0)
	add(route.EventMove, 1, -1, -1, 11, 0)
	add(route.EventSetUp, 1, -1, -1, 20, 0)
	add(route.EventJet, 1, 3, 0, 15, 0)
	add(route.EventPackUp, 1, -1, -1, 12, 0)
}

// manyRuns is the fixture with its second run set n times: a long day, for
// timing and for page breaks.
func manyRuns(n int) *route.Plan {
	p := fixturePlan()
	run := p.Blocks[0].Runs[1]
	p.Blocks[0].Runs = nil
	for i := range n {
		run.Number = i + 1
		p.Blocks[0].Runs = append(p.Blocks[0].Runs, run)
	}
	p.Blocks = slices.Delete(p.Blocks, 1, 2)
	return p
}
