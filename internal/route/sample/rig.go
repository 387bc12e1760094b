// Package sample makes sites for tests and benchmarks: small ones from a line of
// text, random ones from a seed. The same seed always makes the same site.
package sample

import (
	"linemap/internal/rig"
	"linemap/internal/unit"
)

// Rig is a small invented rig: a half-inch hose that takes little bending
// and a three-eighths hose that takes more.
func Rig() rig.Rig {
	nozzle := func(id string, d float64, count int, purposes ...rig.Purpose) rig.Nozzle {
		return rig.Nozzle{
			ID: id, Name: id, Purposes: purposes, Discharge: 0.9, Mass: unit.Pounds(0.5), MinPipe: 2, MaxPipe: 8,
			Orifices: []rig.Orifice{{Count: count, Diameter: unit.Inches(d), Angle: unit.Degrees(30), Facing: rig.Rear}},
		}
	}
	return rig.Rig{
		Name:   "test rig",
		Pump:   rig.Pump{Flow: unit.GallonsPerMinute(12), Rated: unit.Psi(3000), Unloader: unit.Psi(3000)},
		Tank:   rig.Tank{Volume: unit.Gallons(300), Start: unit.Gallons(150), Stop: unit.Gallons(50), Drain: unit.GallonsPerMinute(100), ArrivesFull: true},
		Supply: rig.SupplyHose{Length: unit.Feet(200)},
		Water:  20,
		Hoses: []rig.Hose{
			{
				ID: "half", Name: "1/2 in hose", Bore: unit.Inches(0.5), Length: unit.Feet(300), Reserve: unit.Feet(10),
				Working: unit.Psi(4000), Mass: unit.PoundsPerFoot(0.17), MinPipe: 3, MaxPipe: 8,
				Bends: 3, Sharpest: unit.Degrees(90), BranchTurn: unit.Degrees(60),
			},
			{
				ID: "three-eighths", Name: "3/8 in hose", Bore: unit.Inches(0.375), Length: unit.Feet(200), Reserve: unit.Feet(10),
				Working: unit.Psi(4000), Mass: unit.PoundsPerFoot(0.13), MinPipe: 2, MaxPipe: 6,
				Bends: 5, Sharpest: unit.Degrees(90), BranchTurn: unit.Degrees(90),
			},
		},
		Nozzles: []rig.Nozzle{
			nozzle("puller", 0.042, 6, rig.Pulling),
			nozzle("breaker", 0.042, 6, rig.Penetrating),
			nozzle("flusher", 0.046, 5, rig.Flushing),
			nozzle("spinner", 0.044, 6, rig.Spinning),
			nozzle("cutter", 0.040, 6, rig.RootCutting),
		},
		Crew: rig.Crew{
			People: 2, SetUp: 15, PackUp: 10, Move: 5, TowSpeed: unit.FeetPerMinute(300), Open: 4,
			Lay: unit.FeetPerMinute(60), RunStart: 3, NozzleChange: 3, HoseChange: 6,
			Travel: unit.FeetPerMinute(60), Stroke: unit.Feet(20), Forward: unit.FeetPerMinute(40),
			Back: unit.FeetPerMinute(40), Downstream: 0.5,
		},
	}
}
