package audit_test

import (
	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// The yard is a small site with round figures, so that its plan can be worked
// out by hand. Everything in it is invented.
//
//	(0,0)      (20,0)   (30,0)
//	MH1 --p1-- W1 --p2-- CAP1          spot A (0,-15) with a hose bib
//	             ~p3~ F1
//
//	PF1 --p4-- OUT1                    spot B (60,-15), 60 m from the water
//	OUT2 --p6-- TR1 --p5-- CO3 --p9-- F3
//	OUT3 --p8-- CO2 --p7-- F4
func yard() *site.Site {
	m := func(v float64) *unit.Length { l := unit.Metres(v); return &l }
	at := func(x, y float64) network.Point { return network.Point{X: unit.Metres(x), Y: unit.Metres(y)} }
	ceiling := unit.Bar(150) // over what the nozzle stands at: told, and not felt
	nodes := []network.Node{
		{
			ID: "MH1", Kind: network.KindAccess, At: at(0, 0), Invert: m(-1),
			Access: &network.Access{Kind: network.Manhole, Size: 6, Riser: 1, Entry: unit.Degrees(90)},
		},
		{
			ID: "W1", Kind: network.KindJunction, At: at(20, 0),
			Junction: &network.Junction{Kind: network.Wye, Branches: []network.PipeID{"p3"}},
		},
		{ID: "CAP1", Kind: network.KindCap, At: at(30, 0)},
		{ID: "F1", Kind: network.KindFixture, At: at(24, 4)},
		{
			ID: "PF1", Kind: network.KindAccess, At: at(60, 0),
			Access: &network.Access{Kind: network.PulledFixture, Size: 4, OpenMinutes: 7},
		},
		{ID: "OUT1", Kind: network.KindOutlet, At: at(63, 5)},
		{ID: "OUT2", Kind: network.KindOutlet, At: at(75, -8)},
		{ID: "TR1", Kind: network.KindTrap, At: at(75, -5)},
		{
			ID: "CO3", Kind: network.KindAccess, At: at(75, 0), Invert: m(-0.5),
			Access: &network.Access{
				Kind: network.OneWayCleanout, Facing: network.FacesUpstream,
				Size: 4, Riser: 0.5, Entry: unit.Degrees(45),
			},
		},
		{ID: "F3", Kind: network.KindFixture, At: at(75, 6)},
		{ID: "OUT3", Kind: network.KindOutlet, At: at(52, -2)},
		{
			ID: "CO2", Kind: network.KindAccess, At: at(52, 0),
			Access: &network.Access{Kind: network.TwoWayCleanout, Size: 2, Entry: unit.Degrees(45)},
		},
		{ID: "F4", Kind: network.KindFixture, At: at(52, 4)},
	}
	pipe := func(id network.PipeID, from, to network.NodeID, length float64, d network.Deposit) network.Pipe {
		return network.Pipe{
			ID: id, From: from, To: to, Length: m(length), Size: 4,
			Material: network.PVC40, Class: network.Branch, Deposit: d,
		}
	}
	pipes := []network.Pipe{
		pipe("p1", "W1", "MH1", 20, network.Grease),
		pipe("p2", "W1", "CAP1", 10, network.Sediment), // drawn against the flow
		pipe("p3", "F1", "W1", 6, network.Grease),
		pipe("p4", "PF1", "OUT1", 8, network.Roots),
		pipe("p5", "CO3", "TR1", 5, network.Grease),
		pipe("p6", "TR1", "OUT2", 3, network.Grease),
		pipe("p7", "F4", "CO2", 4, network.Sediment),
		pipe("p8", "CO2", "OUT3", 2, network.Sediment),
		pipe("p9", "F3", "CO3", 6, network.Sediment),
	}
	pipes[1].Fragile, pipes[1].Ceiling = true, &ceiling
	pipes[2].Severity = network.Heavy
	pipes[3].Length, pipes[3].Via = nil, []network.Point{at(60, 5)} // 5 m north, then 3 m east
	pipes[5].OutOfJob, pipes[7].OutOfJob = true, true
	pipes[6].Size, pipes[7].Size = 2, 2
	return &site.Site{
		Version: site.Version,
		Network: network.Network{Nodes: nodes, Pipes: pipes},
		Spots:   []site.Spot{{ID: "A", At: at(0, -15)}, {ID: "B", At: at(60, -15)}, {ID: "C", At: at(30, 5), Uneven: true}},
		Water:   []site.WaterPoint{{ID: "W", Kind: site.HoseBib, At: at(0, -15), Flow: unit.LitresPerMinute(20)}},
		Lays:    []site.Lay{{Spot: "B", Access: "CO3", Length: m(18)}},
		Rig:     yardRig(),
	}
}

func yardRig() rig.Rig {
	rear := func(count int, mm, angle float64) rig.Orifice {
		return rig.Orifice{Count: count, Diameter: unit.Millimetres(mm), Angle: unit.Degrees(angle), Facing: rig.Rear}
	}
	perMinute := func(metres float64) unit.Speed { return unit.Speed(metres / 60) }
	return rig.Rig{
		Name: "yard rig",
		Pump: rig.Pump{Flow: unit.LitresPerMinute(40), Rated: unit.Bar(250), Unloader: unit.Bar(220)},
		Tank: rig.Tank{
			Volume: unit.Litres(600), Start: unit.Litres(400), Stop: unit.Litres(50),
			Drain: unit.LitresPerMinute(60), ArrivesFull: true,
		},
		Supply: rig.SupplyHose{Length: 30},
		Water:  20,
		Hoses: []rig.Hose{
			{
				ID: "large", Bore: unit.Millimetres(12.7), Length: 60, Reserve: 3, Working: unit.Bar(250), Mass: 0.25,
				MassSpread: 0.1, MinPipe: 4, MaxPipe: 8, Bends: 4, Sharpest: unit.Degrees(90), BranchTurn: unit.Degrees(60),
			},
			{
				ID: "small", Bore: unit.Millimetres(9.5), Length: 24, Reserve: 2, Working: unit.Bar(250), Mass: 0.15,
				MinPipe: 1.5, MaxPipe: 3, Bends: 4, Sharpest: unit.Degrees(90), BranchTurn: unit.Degrees(60),
			},
		},
		Nozzles: []rig.Nozzle{
			{ID: "puller", Purposes: []rig.Purpose{rig.Pulling}, Orifices: []rig.Orifice{rear(6, 1, 15)}, Discharge: 0.9, MinPipe: 4, MaxPipe: 8},
			{ID: "flusher", Purposes: []rig.Purpose{rig.Flushing}, Orifices: []rig.Orifice{rear(8, 0.9, 30)}, Discharge: 0.9, MinPipe: 4, MaxPipe: 8},
			{ID: "cutter", Purposes: []rig.Purpose{rig.RootCutting}, Orifices: []rig.Orifice{rear(6, 1, 20)}, Discharge: 0.9, MinPipe: 4, MaxPipe: 8},
			{ID: "midget", Purposes: []rig.Purpose{rig.Pulling}, Orifices: []rig.Orifice{rear(6, 1.05, 20)}, Discharge: 0.9, MinPipe: 1.5, MaxPipe: 4},
		},
		Crew: rig.Crew{
			People: 2, SetUp: 10, PackUp: 6, Move: 3, TowSpeed: perMinute(60), Open: 4, Lay: perMinute(30),
			RunStart: 2, NozzleChange: 3, HoseChange: 5, Travel: perMinute(12), Stroke: 2,
			Forward: perMinute(12), Back: perMinute(12), Downstream: 0.5,
		},
	}
}

// yardTables are trade tables with round figures.
func yardTables() *site.Tables {
	perMinute := func(metres float64) unit.Speed { return unit.Speed(metres / 60) }
	once := map[network.Severity]int{network.Light: 1, network.Moderate: 1, network.Heavy: 1}
	twice := map[network.Severity]int{network.Light: 1, network.Moderate: 1, network.Heavy: 2}
	clean := site.PassRow{
		Kind: site.CleanPass, Nozzles: []rig.Purpose{rig.Pulling, rig.Flushing},
		Strokes: true, Pull: perMinute(6), Pulls: twice,
	}
	finish := site.PassRow{
		Kind: site.FinishPass, Nozzles: []rig.Purpose{rig.Flushing, rig.Pulling}, Pull: perMinute(6), Pulls: once,
	}
	cut := site.PassRow{
		Kind: site.RootCutPass, Nozzles: []rig.Purpose{rig.RootCutting}, Strokes: true, Pull: perMinute(3), Pulls: once,
	}
	flush := site.PassRow{
		Kind: site.CleanPass, Nozzles: []rig.Purpose{rig.Flushing, rig.Pulling}, Pull: perMinute(6), Pulls: once,
	}
	return &site.Tables{
		Materials: map[network.Material]site.MaterialRow{
			network.PVC40: {Friction: rig.Range{Low: 0.2, Likely: 0.3, High: 0.4}, Manning: 0.01},
		},
		Deposits: map[network.Deposit]site.DepositRow{
			network.Grease:   {Passes: []site.PassRow{clean, finish}},
			network.Sediment: {Passes: []site.PassRow{clean}},
			network.Roots:    {Passes: []site.PassRow{cut, flush}},
		},
	}
}
