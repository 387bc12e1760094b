package route

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/network/sketch"
	"linemap/internal/rig"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// tables reads the trade tables.
func tables(tb testing.TB) *site.Tables {
	tb.Helper()
	t, err := site.LoadTables()
	require.NoError(tb, err)
	return t
}

// testRig is a small invented rig: a half-inch hose that takes little bending
// and a three-eighths hose that takes more.
func testRig() rig.Rig {
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

// siteFrom makes a site from a sketch, with spots at the given places in feet
// and one hydrant at the first.
func siteFrom(net *network.Network, spots ...[2]float64) *site.Site {
	s := &site.Site{Version: site.Version, Units: unit.US, Paper: site.Letter, Network: *net, Rig: testRig()}
	for i, at := range spots {
		p := network.Point{X: unit.Feet(at[0]), Y: unit.Feet(at[1])}
		s.Spots = append(s.Spots, site.Spot{ID: site.SpotID(fmt.Sprintf("s%d", i+1)), Label: fmt.Sprintf("Spot %d", i+1), At: p})
		if i == 0 {
			s.Water = append(s.Water, site.WaterPoint{ID: "h1", Label: "Hydrant", Kind: site.Hydrant, At: p, Flow: unit.GallonsPerMinute(10)})
		}
	}
	return s
}

func sketchSite(text string, spots ...[2]float64) *site.Site {
	return siteFrom(sketch.Must(text), spots...)
}

func solve(tb testing.TB, s *site.Site) *Plan {
	tb.Helper()
	p, err := Solve(context.Background(), s, tables(tb), Options{})
	require.NoError(tb, err)
	return p
}

// randomNetwork grows a drain of n pipes upward from an outlet.
func randomNetwork(r *rand.Rand, n int) *network.Network {
	net := &network.Network{}
	node := func(k network.NodeKind, x, y float64) network.NodeID {
		id := network.NodeID(fmt.Sprintf("n%d", len(net.Nodes)))
		net.Nodes = append(net.Nodes, network.Node{ID: id, Label: string(id), Kind: k, At: network.Point{X: unit.Feet(x), Y: unit.Feet(y)}})
		return id
	}
	node(network.KindOutlet, 0, 0)
	ups := map[network.NodeID][]network.PipeID{}
	pick := func(of ...network.Deposit) network.Deposit { return of[r.IntN(len(of))] }
	for i := range n {
		var at int
		for { // an outlet takes one pipe, other nodes two from above
			at = r.IntN(len(net.Nodes))
			if limit := 2; at == 0 && len(ups[net.Nodes[0].ID]) == 0 || at > 0 && len(ups[net.Nodes[at].ID]) < limit {
				break
			}
		}
		from := net.Nodes[at]
		length := 10 + float64(r.IntN(12))*10
		up := node(network.KindBend, from.At.X.Feet()+length, from.At.Y.Feet()+float64(r.IntN(5))*4)
		id := network.PipeID(fmt.Sprintf("p%d", i))
		l := unit.Feet(length)
		sizes := []unit.Size{2, 3, 4, 4, 4, 6}
		net.Pipes = append(net.Pipes, network.Pipe{
			ID: id, From: up, To: from.ID, Size: sizes[r.IntN(len(sizes))], Material: network.PVC40, Length: &l,
			Class:    network.Main,
			Deposit:  pick(network.Grease, network.Grease, network.Sediment, network.Scale, network.Roots, network.UnknownDep),
			OutOfJob: r.IntN(5) == 0,
		})
		ups[from.ID] = append(ups[from.ID], id)
	}
	access := func(nd *network.Node) {
		nd.Kind, nd.Turn = network.KindAccess, 0
		nd.Access = &network.Access{Kind: network.TwoWayCleanout, Size: 4, OpenMinutes: float64(r.IntN(9))}
		switch r.IntN(4) {
		case 0:
			nd.Access.Kind, nd.Access.Facing = network.OneWayCleanout, network.FacesUpstream
		case 1:
			nd.Access.Kind, nd.Access.Facing = network.OneWayCleanout, network.FacesDownstream
		}
	}
	for i := 1; i < len(net.Nodes); i++ {
		nd := &net.Nodes[i]
		switch up := ups[nd.ID]; {
		case len(up) == 2 && r.IntN(3) > 0:
			nd.Kind = network.KindJunction
			nd.Junction = &network.Junction{Kind: network.Wye, Branches: up[r.IntN(2):][:1]}
			if r.IntN(3) == 0 {
				nd.Junction.Kind = network.SanitaryTee
			}
		case len(up) == 2:
			nd.Kind = network.KindAccess
			nd.Access = &network.Access{Kind: network.Manhole, Size: 8}
		case r.IntN(3) > 0:
			access(nd)
		case len(up) == 1:
			nd.Turn = unit.Degrees([]float64{22.5, 45, 90}[r.IntN(3)])
		default:
			nd.Kind = network.KindCap
		}
	}
	return net
}

func randomSite(r *rand.Rand, pipes int) *site.Site {
	spots := [][2]float64{{0, 20}}
	if r.IntN(2) == 0 {
		spots = append(spots, [2]float64{float64(100 + 10*r.IntN(20)), 20})
	}
	s := siteFrom(randomNetwork(r, pipes), spots...)
	for i := range s.Rig.Hoses {
		s.Rig.Hoses[i].Length = unit.Feet(80 + 10*float64(r.IntN(20)))
	}
	if r.IntN(5) == 0 {
		s.Rig.Hoses = s.Rig.Hoses[r.IntN(2):][:1]
	}
	return s
}
