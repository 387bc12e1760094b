package site

import (
	"fmt"

	"github.com/govalues/decimal"
	"pgregory.net/rapid"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/unit"
)

// anySite draws a document that the loader takes, with figures as files have
// them.
func anySite(t *rapid.T) *Site {
	base, err := Decode([]byte(whole))
	if err != nil {
		t.Fatal(err)
	}
	s := &Site{
		Version: Version,
		Job: Job{
			Title: anyText(t, "title"), Customer: anyText(t, "customer"), Note: anyText(t, "note"),
			Date: rapid.SampledFrom([]string{"", "2026-03-17", "2028-02-29"}).Draw(t, "date"),
		},
		Units: rapid.SampledFrom([]unit.System{unit.US, unit.Metric}).Draw(t, "units"),
		Paper: rapid.SampledFrom([]Paper{Letter, A4}).Draw(t, "paper"),
		Code:  rapid.SampledFrom([]string{"ipc", "upc", "mine"}).Draw(t, "code"),
		Spots: []Spot{},
		Rig:   base.Rig,
	}
	s.Network = anyNetwork(t)
	for i := range rapid.IntRange(0, 4).Draw(t, "spots") {
		s.Spots = append(s.Spots, Spot{
			ID: SpotID(fmt.Sprint("s", i)), Label: anyText(t, "spot"), At: anyPoint(t),
			Elevation: anyLength(t, "ground", -50, 50), Uneven: rapid.Bool().Draw(t, "uneven"),
			Traffic: rapid.SampledFrom([]Traffic{"", NoTraffic, ConedTraffic, LiveTraffic}).Draw(t, "traffic"),
		})
		s.Water = append(s.Water, WaterPoint{
			ID: WaterID(fmt.Sprint("w", i)), Label: anyText(t, "water"), At: anyPoint(t),
			Kind: rapid.SampledFrom([]WaterKind{Hydrant, HoseBib, Tanker}).Draw(t, "kind"),
			Flow: unit.LitresPerMinute(figure(t, "flow", 1, 2000)),
		})
		s.Lays = append(s.Lays, Lay{Spot: s.Spots[i].ID, Water: s.Water[i].ID, Length: orNil(t, anyLength(t, "lay", 0, 200))})
	}
	s.Geo = orNil(t, Geo{
		Latitude: unit.Degrees(figure(t, "latitude", -89, 89)), Longitude: unit.Degrees(figure(t, "longitude", -180, 180)),
		Bearing: unit.Degrees(figure(t, "bearing", 0, 360)),
	})
	anyRemarks(t, s)
	anyVisits(t, s)
	if rapid.Bool().Draw(t, "priced") {
		s.Prices = anyPrices(t)
	}
	s.Rig.Pump.Flow = unit.LitresPerMinute(figure(t, "pump", 1, 200))
	s.Rig.Pump.Unloader = kilopascals(figure(t, "unloader", 1, 40000))
	s.Rig.Crew.TowSpeed = unit.MetresPerMinute(figure(t, "tow", 1, 600))
	s.Rig.Tank.ArrivesFull = rapid.Bool().Draw(t, "full")
	if rapid.Bool().Draw(t, "no plumbing") {
		s.Rig.Plumbing = rig.Plumbing{}
	}
	return s
}

// anyRemarks draws notes, pictures, areas and decisions by hand.
func anyRemarks(t *rapid.T, s *Site) {
	for i := range rapid.IntRange(0, 3).Draw(t, "notes") {
		s.Notes = append(s.Notes, Note{ID: NoteID(fmt.Sprint("n", i)), At: anyPoint(t), Text: anyText(t, "remark")})
		u := Underlay{
			ID: UnderlayID(fmt.Sprint("u", i)), Label: anyText(t, "underlay"), At: anyPoint(t),
			Scale: unit.Metres(figure(t, "scale", 1, 2000) / 1000), Turn: unit.Degrees(figure(t, "turn", 0, 360)),
			Dim:    figure(t, "dim", 0, 1),
			Locked: rapid.Bool().Draw(t, "locked"), Hidden: rapid.Bool().Draw(t, "hidden"),
		}
		if rapid.Bool().Draw(t, "beside") {
			u.File = rapid.SampledFrom([]string{"a.png", "plans/a b.jpg", "été/..a"}).Draw(t, "file")
		} else {
			u.Data = rapid.SliceOfN(rapid.Byte(), 1, 40).Draw(t, "data")
		}
		s.Underlays = append(s.Underlays, u)
	}
	for i := range rapid.IntRange(0, 3).Draw(t, "areas") {
		s.Areas = append(s.Areas, Area{
			ID: AreaID(fmt.Sprint("a", i)), Label: anyText(t, "area"), Note: anyText(t, "remark"),
			Kind:    rapid.SampledFrom(AreaKinds()).Draw(t, "kind"),
			Outline: rapid.SliceOfN(rapid.Custom(anyPoint), 1, 6).Draw(t, "outline"),
		})
	}
	runs := rapid.Custom(func(t *rapid.T) RunKey {
		return RunKey{
			Spot: rapid.SampledFrom([]SpotID{"s0", "s1", "gone"}).Draw(t, "spot"), Hose: "half",
			Access: rapid.SampledFrom([]network.NodeID{"n1", "n2", "gone"}).Draw(t, "access"), End: "p1",
			Downstream: rapid.Bool().Draw(t, "downstream"),
		}
	})
	for _, list := range []*[]RunKey{&s.ByHand.Keep, &s.ByHand.Bar, &s.ByHand.Order} {
		if rapid.Bool().Draw(t, "decided") {
			*list = rapid.SliceOfN(runs, 0, 3).Draw(t, "runs")
		}
	}
}

// anyVisits draws past visits, in the order of their days.
func anyVisits(t *rapid.T, s *Site) {
	for i := range rapid.IntRange(0, 3).Draw(t, "visits") {
		v := Visit{Date: fmt.Sprintf("202%d-02-28", i), Crew: anyText(t, "crew"), Note: anyText(t, "visit")}
		for n := range rapid.IntRange(0, 3).Draw(t, "results") {
			r := RunResult{
				Run:    RunKey{Spot: "s0", Hose: "half", Access: network.NodeID(fmt.Sprint("n", n)), End: "p1", Downstream: rapid.Bool().Draw(t, "downstream")},
				Number: n, Planned: anyLength(t, "planned", 0, 99), Reached: anyLength(t, "reached", 0, 99), Found: anyText(t, "found"),
				Deposit:   rapid.SampledFrom([]network.Deposit{"", network.NoDeposit, network.Grease}).Draw(t, "deposit"),
				Severity:  rapid.SampledFrom(append(Severities(), "")).Draw(t, "severity"),
				Condition: rapid.SampledFrom(append(Conditions(), "")).Draw(t, "condition"),
				Passes:    rapid.IntRange(0, 9).Draw(t, "passes"), Minutes: minutes(figure(t, "minutes", 0, 600)),
			}
			if rapid.Bool().Draw(t, "pictured") {
				r.Photos = []string{"a.png", "b/c.jpg"}
			}
			for p := range rapid.IntRange(0, 2).Draw(t, "of pipes") {
				whole := anyLength(t, "whole", 0, 50)
				r.Pipes = append(r.Pipes, PipeResult{network.PipeID(fmt.Sprint("p", p)), whole, whole * unit.Length(rapid.IntRange(0, 1).Draw(t, "part"))})
			}
			v.Runs = append(v.Runs, r)
		}
		s.Visits = append(s.Visits, v)
	}
}

// anyPrices draws prices as a file has them.
func anyPrices(t *rapid.T) Prices {
	amount := func(name string) decimal.Decimal {
		d, err := decimal.New(rapid.Int64Range(0, 9_999_999).Draw(t, name), rapid.IntRange(0, 4).Draw(t, "places"))
		if err != nil {
			t.Fatal(err)
		}
		if d.IsZero() {
			return decimal.Decimal{} // as it is read back
		}
		return d
	}
	p := Prices{
		Currency: rapid.SampledFrom([]string{"USD", "JPY", "XYZ"}).Draw(t, "currency"),
		Units:    rapid.SampledFrom([]unit.System{unit.US, unit.Metric}).Draw(t, "prices by"),
		CallOut:  amount("call out"), CrewHour: amount("hour"), Water: amount("water"), Minimum: amount("minimum"),
		NightFrom: rapid.SampledFrom([]string{"", "18:00"}).Draw(t, "night"),
		Date:      rapid.SampledFrom([]string{"", "2026-02-25"}).Draw(t, "quoted"),
		ValidDays: rapid.IntRange(0, 90).Draw(t, "valid"), Terms: anyText(t, "terms"),
	}
	for _, sz := range unit.Sizes() {
		if rapid.Bool().Draw(t, "row") {
			p.Rates = append(p.Rates, Rate{sz, amount("rate")})
		}
	}
	return p
}

func anyNetwork(t *rapid.T) network.Network {
	n := network.Network{Nodes: []network.Node{}, Pipes: []network.Pipe{}}
	count := rapid.IntRange(0, 8).Draw(t, "nodes")
	for i := range count {
		node := network.Node{ID: network.NodeID(fmt.Sprint("n", i)), Label: anyText(t, "label"), At: anyPoint(t)}
		node.Invert = orNil(t, anyLength(t, "invert", -20, 20))
		switch rapid.IntRange(0, 3).Draw(t, "kind") {
		case 0:
			node.Kind, node.Access = network.KindAccess, &network.Access{
				Kind: network.TwoWayCleanout, Size: anySize(t), Riser: anyLength(t, "riser", 0, 9),
				Entry: unit.Degrees(figure(t, "entry", 0, 360)), OpenMinutes: figure(t, "open", 0, 99),
			}
		case 1:
			node.Kind, node.Junction = network.KindJunction, &network.Junction{Kind: network.Wye, Branches: []network.PipeID{}}
		case 2:
			node.Kind, node.Turn = network.KindBend, unit.Degrees(figure(t, "turn", 0, 180))
		default:
			node.Kind, node.LetsThrough = network.KindTrap, rapid.Bool().Draw(t, "through")
		}
		n.Nodes = append(n.Nodes, node)
		if i == 0 {
			continue
		}
		below := n.Nodes[rapid.IntRange(0, i-1).Draw(t, "below")].ID
		n.Pipes = append(n.Pipes, network.Pipe{
			ID: network.PipeID(fmt.Sprint("p", i)), From: node.ID, To: below, Size: anySize(t),
			Material: network.CastIron, Class: network.Branch,
			Via:      rapid.SampledFrom([][]network.Point{nil, {anyPoint(t)}, {anyPoint(t), anyPoint(t)}}).Draw(t, "via"),
			Length:   orNil(t, anyLength(t, "length", 1, 400)),
			Slope:    orNil(t, unit.Slope(figure(t, "slope", -1, 1))),
			Ceiling:  orNil(t, kilopascals(figure(t, "ceiling", 1, 9000))),
			OutOfJob: rapid.Bool().Draw(t, "out"),
		})
	}
	return n
}

// figure draws a decimal of at most four places.
func figure(t *rapid.T, name string, low, high int) float64 {
	const places = 10000
	return float64(rapid.IntRange(low*places, high*places).Draw(t, name)) / places
}

func anyLength(t *rapid.T, name string, low, high int) unit.Length {
	return unit.Metres(figure(t, name, low, high))
}

func anyPoint(t *rapid.T) network.Point {
	return network.Point{X: anyLength(t, "x", -900, 900), Y: anyLength(t, "y", -900, 900)}
}

func anySize(t *rapid.T) unit.Size { return rapid.SampledFrom(unit.Sizes()).Draw(t, "size") }

// anyText draws a text with whatever a keyboard gives.
func anyText(t *rapid.T, name string) string { return rapid.StringN(0, 20, -1).Draw(t, name) }

func orNil[T any](t *rapid.T, v T) *T {
	if rapid.Bool().Draw(t, "given") {
		return &v
	}
	return nil
}
