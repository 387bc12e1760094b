package chart

import (
	"linemap/internal/network"
	"linemap/internal/network/sketch"
	"linemap/internal/rig"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// shop is a small invented site on two storeys: a yard sewer, a building drain
// with branches, a stack, one branch that no hose reaches.
func shop() *site.Site {
	net := sketch.Must(`
		OUT(label=Street) -30ft/6in/clay/roots/sewer- MH1(label=MH-1) -42ft- CO1(up label=CO-1 room=Yard) -12ft/4in/iron/grease/drain- W1 -15ft- W2 -14ft- CO2(up label=CO-2 room=Kitchen)
		W1 ~16ft/3in/pvc/grease/branch- F1(label=Sink)
		W2 ~9ft/2in/pvc/grease/lateral- TR1 -6ft- F2(label=FD-1)
	`)
	for i := range net.Nodes {
		net.Nodes[i].Level = "Ground floor"
	}
	up := func(id network.NodeID, kind network.NodeKind, x, y float64) network.Node {
		return network.Node{ID: id, Label: string(id), Kind: kind, Level: "Second floor", At: network.Point{X: unit.Feet(x), Y: unit.Feet(y)}}
	}
	at := func(id network.NodeID) *network.Node {
		for i := range net.Nodes {
			if net.Nodes[i].ID == id {
				return &net.Nodes[i]
			}
		}
		panic("no node " + id)
	}
	sink := at("F1")
	x, y := sink.At.X.Feet(), sink.At.Y.Feet()
	*sink = network.Node{ID: "F1", Kind: network.KindJunction, Level: "Ground floor", At: sink.At, Junction: &network.Junction{Kind: network.SanitaryTee}}
	net.Levels = []network.Level{{Name: "Ground floor"}, {Name: "Second floor", Elevation: unit.Feet(11)}}
	net.Nodes = append(net.Nodes,
		up("T9", network.KindJunction, x, y), up("WC-1", network.KindFixture, x-8, y), up("LAV-1", network.KindFixture, x+10, y+3))
	pipe := func(id network.PipeID, from, to network.NodeID, size unit.Size, class network.PipeClass) network.Pipe {
		return network.Pipe{ID: id, From: from, To: to, Size: size, Material: network.PVC40, Class: class, Deposit: network.Scale}
	}
	net.Pipes = append(net.Pipes,
		pipe("S1", "T9", "F1", 3, network.Stack), pipe("L1", "WC-1", "T9", 3, network.Lateral), pipe("L2", "LAV-1", "T9", 1.5, network.Lateral))
	net.Pipes[len(net.Pipes)-3].Label = "Stack 1"
	return &site.Site{
		Version: site.Version, Units: unit.US, Paper: site.Letter,
		Job: site.Job{
			Title: "Corner shop, kitchen line", Customer: "Invented Grill & Co.", Address: "12 Example Street, Sampleton",
			Date: "2026-03-17", Revision: "B",
		},
		Network: *net,
		Spots: []site.Spot{
			{ID: "s1", Label: "Rear lane", At: network.Point{X: unit.Feet(60), Y: unit.Feet(-24)}},
			{ID: "s2", Label: "Front kerb", At: network.Point{X: unit.Feet(-6), Y: unit.Feet(20)}, Uneven: true},
		},
		Water: []site.WaterPoint{
			{ID: "w1", Label: "Garage wall", Kind: site.HoseBib, At: network.Point{X: unit.Feet(96), Y: unit.Feet(-20)}, Flow: unit.GallonsPerMinute(8)},
		},
		Lays: []site.Lay{{Spot: "s1", Access: "CO2", Via: []network.Point{{X: unit.Feet(105), Y: unit.Feet(-14)}}}},
		Rig: rig.Rig{
			Supply: rig.SupplyHose{Length: unit.Feet(100)},
			Hoses:  []rig.Hose{{ID: "h1", Name: "1/2 in hose"}},
		},
	}
}

// shopPlan is a plan of the shop made by hand.
func shopPlan() *route.Plan {
	run := func(n int, access network.NodeID, way route.Direction, pipes ...network.PipeID) route.Run {
		r := route.Run{Number: n, Access: access, Direction: way, Opens: true}
		reading := unit.Feet(20)
		for _, p := range pipes {
			r.Path = append(r.Path, route.Leg{Pipe: p, From: reading, To: reading + unit.Feet(15), Cleaned: true})
			reading += unit.Feet(15)
		}
		r.End = reading
		return r
	}
	return &route.Plan{
		Blocks: []route.Block{{Spot: "s1", Hose: "h1", Runs: []route.Run{
			run(1, "MH1", route.Downstream, "OUT-MH1"),
			run(2, "MH1", route.Upstream, "MH1-CO1"),
			run(3, "CO1", route.Upstream, "CO1-W1", "W1-F1", "S1", "L1"),
			run(4, "CO1", route.Upstream, "W1-W2", "W2-CO2"),
		}}},
		Shortfalls: []route.Shortfall{
			{Pipe: "L2", Name: "L2", Size: 1.5, Length: unit.Feet(10), Reason: route.NoAccess, Cure: route.Cure{Kind: route.ClearByHand}},
			{
				Pipe: "W2-TR1", Name: "W2-TR1", Size: 2, Length: unit.Feet(9), Reason: route.HoseTooLarge,
				AtName: "2 in pipe W2-TR1", AccessName: "CO-1", HoseName: "1/2 in hose", Cure: route.Cure{Kind: route.SmallerHose},
			},
			{Pipe: "TR1-F2", Name: "TR1-F2", Size: 2, Length: unit.Feet(6), Reason: route.Blocked, What: "trap", AtName: "trap TR1", Cure: route.Cure{Kind: route.ClearByHand}},
		},
	}
}
