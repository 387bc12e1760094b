package rig_test

import (
	"fmt"

	"linemap/internal/rig"
	"linemap/internal/unit"
)

// How far does a nozzle pull half-inch hose up a 4 in drain with one bend?
func Example() {
	r := rig.Rig{
		Pump:  rig.Pump{Flow: unit.GallonsPerMinute(12), Rated: unit.Psi(4000), Unloader: unit.Psi(3800)},
		Water: 10,
	}
	hose := rig.Hose{
		Bore: unit.Inches(0.5), Length: unit.Feet(400), Working: unit.Psi(4000),
		Mass: unit.PoundsPerFoot(0.17), MassSpread: 0.1,
	}
	nozzle := rig.Nozzle{Discharge: 0.9, Orifices: []rig.Orifice{
		{Count: 6, Diameter: unit.Millimetres(0.92), Angle: unit.Degrees(15), Facing: rig.Rear},
	}}
	op, _, err := r.Operate(&hose, &nozzle, 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	sys := unit.US
	fmt.Println(sys.Flow(op.Flow), "at the nozzle with", sys.Pressure(op.Nozzle), "pulls", sys.Force(op.Thrust))

	friction := rig.Range{Low: 0.3, Likely: 0.45, High: 0.6}
	path := []rig.Step{
		{Length: unit.Feet(60), Friction: friction},
		{Turn: unit.Degrees(45), Length: unit.Feet(200), Friction: friction},
	}
	for _, c := range []rig.Case{rig.LowReach, rig.LikelyReach, rig.HighReach} {
		fmt.Println(sys.Length(rig.ReachAlong(path, &hose, rig.WaterAt(r.Water), op.Thrust, c)))
	}
	// Output:
	// 12.0 gpm at the nozzle with 3220 psi pulls 35 lbf
	// 176 ft
	// 260 ft
	// 260 ft
}
