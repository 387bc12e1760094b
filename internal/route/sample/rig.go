// Package sample makes sites for tests and benchmarks: small ones from a line of
// text, random ones, whole buildings and whole districts from a seed. The same
// seed always makes the same site.
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

// StreetRig is an invented trailer rig for sewers in the street, with long reels.
func StreetRig() rig.Rig {
	r := ThreeHoseRig()
	r.Name = "test rig, street reels"
	r.Pump.Flow = unit.GallonsPerMinute(18)
	r.Tank.Volume, r.Tank.Start, r.Tank.Stop = unit.Gallons(700), unit.Gallons(350), unit.Gallons(100)
	r.Hoses = r.Hoses[:2]
	r.Hoses[0].Length, r.Hoses[0].MaxPipe = unit.Feet(500), 12
	r.Hoses[1].Length, r.Hoses[1].MaxPipe = unit.Feet(200), 6
	for i := range r.Nozzles {
		n := &r.Nozzles[i]
		n.MaxPipe = 12
		for k := range n.Orifices {
			n.Orifices[k].Diameter *= 1.2
		}
	}
	return r
}

// ThreeHoseRig is an invented trailer rig with three reels: a half-inch hose for
// the drain, a three-eighths for its branches, and a quarter-inch that takes the
// most bending, for the arms.
func ThreeHoseRig() rig.Rig {
	r := Rig()
	r.Name = "test rig, three reels"
	r.Pump.Rated, r.Pump.Unloader = unit.Psi(4000), unit.Psi(3800)
	r.Tank.Volume, r.Tank.Start = unit.Gallons(330), unit.Gallons(165)
	r.Hoses[0].Length, r.Hoses[0].Bends = unit.Feet(400), 4
	r.Hoses[1].Length, r.Hoses[1].MaxPipe = unit.Feet(300), 4
	r.Hoses = append(r.Hoses, rig.Hose{
		ID: "quarter", Name: "1/4 in hose", Bore: unit.Inches(0.25), Length: unit.Feet(150), Reserve: unit.Feet(5),
		Working: unit.Psi(4000), Mass: unit.PoundsPerFoot(0.05), MinPipe: 1.5, MaxPipe: 4,
		Bends: 8, Sharpest: unit.Degrees(90), BranchTurn: unit.Degrees(90),
	})
	for i, jets := range []rig.Orifice{
		{Count: 6, Diameter: unit.Inches(0.036), Angle: unit.Degrees(15)},
		{Count: 6, Diameter: unit.Inches(0.037), Angle: unit.Degrees(15)},
		{Count: 8, Diameter: unit.Inches(0.032), Angle: unit.Degrees(25)},
		{Count: 6, Diameter: unit.Inches(0.038), Angle: unit.Degrees(25)},
		{Count: 6, Diameter: unit.Inches(0.037), Angle: unit.Degrees(20)},
	} {
		jets.Facing = rig.Rear
		r.Nozzles[i].Orifices = []rig.Orifice{jets}
	}
	r.Nozzles = append(r.Nozzles, rig.Nozzle{
		ID: "button", Name: "button", Discharge: 0.9, Mass: unit.Pounds(0.15), MinPipe: 1.5, MaxPipe: 4,
		Purposes: []rig.Purpose{rig.Pulling, rig.Penetrating, rig.Flushing},
		Orifices: []rig.Orifice{{Count: 4, Diameter: unit.Inches(0.03), Angle: unit.Degrees(15), Facing: rig.Rear}},
	})
	r.Crew.SetUp, r.Crew.PackUp, r.Crew.Move = 20, 15, 10
	return r
}
