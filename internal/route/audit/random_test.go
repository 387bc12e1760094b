package audit_test

import (
	"fmt"
	"math"

	"pgregory.net/rapid"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// grower draws a random drain from an outlet up, with everything in it that a
// hose may meet. Most of it makes sense; some does not.
type grower struct {
	t    *rapid.T
	net  network.Network
	most int // pipes
}

// tip is a node that may grow on, and the way it was come to.
type tip struct {
	node    int
	heading float64
	size    unit.Size
}

func (g *grower) oneIn(n int, label string) bool { return rapid.IntRange(1, n).Draw(g.t, label) == n }

func (g *grower) from(label string, of ...float64) float64 {
	return rapid.SampledFrom(of).Draw(g.t, label)
}

func (g *grower) node(kind network.NodeKind, at network.Point) int {
	n := network.Node{ID: network.NodeID(fmt.Sprintf("n%d", len(g.net.Nodes))), Kind: kind, At: at}
	if g.oneIn(3, "level") {
		n.Level = rapid.SampledFrom([]string{"ground", "upper"}).Draw(g.t, "level name")
	}
	if g.oneIn(3, "invert") {
		invert := unit.Metres(g.from("invert height", 0, -1, -1.25, 0.5, 2))
		n.Invert = &invert
	}
	g.net.Nodes = append(g.net.Nodes, n)
	return len(g.net.Nodes) - 1
}

// grow draws one pipe up from a tip and returns what may grow on behind it.
func (g *grower) grow(from tip) []tip {
	length := g.from("length", 2.3, 5, 9.5, 14, 23)
	at := g.net.Nodes[from.node].At
	p := network.Pipe{
		ID: network.PipeID(fmt.Sprintf("p%d", len(g.net.Pipes))), Size: from.size,
		Material: rapid.SampledFrom([]network.Material{network.PVC40, network.CastIron, network.Clay}).Draw(g.t, "material"),
		Class:    network.Main,
		Deposit: rapid.SampledFrom([]network.Deposit{
			network.Grease, network.Sediment, network.Roots, network.Scale, network.HardStoppage, network.NoDeposit, "",
		}).Draw(g.t, "deposit"),
		Severity: rapid.SampledFrom([]network.Severity{network.Light, network.Moderate, network.Heavy, ""}).Draw(g.t, "severity"),
		OutOfJob: g.oneIn(6, "out of job"),
	}
	if g.oneIn(8, "fragile") {
		p.Fragile = true
		if ceiling := unit.Bar(g.from("ceiling", 0, 40, 80, 120)); ceiling > 0 {
			p.Ceiling = &ceiling
		}
	}
	end := at
	heading := from.heading
	if g.oneIn(9, "stack") {
		p.Class = network.Stack
		measured := unit.Metres(length / 3)
		p.Length = &measured
	} else {
		for range rapid.IntRange(0, 2).Draw(g.t, "corners") {
			end = step(end, heading, length/2)
			p.Via = append(p.Via, end)
			heading += unit.Degrees(g.from("corner", 2, 3.5, -4, 20, -45, 33, -22, 60, 88, -100)).Radians()
		}
		end = step(end, heading, length)
		if g.oneIn(2, "measured") {
			measured := unit.Metres(length)
			p.Length = &measured
		}
	}
	if g.oneIn(4, "sloped") {
		slope := unit.Slope(g.from("slope", 0.01, 0.02, 0.2, -0.01))
		p.Slope = &slope
	}
	to := g.node(network.KindFixture, end)
	p.From, p.To = g.net.Nodes[from.node].ID, g.net.Nodes[to].ID
	if g.oneIn(2, "drawn with the flow") {
		p.From, p.To = p.To, p.From
		for i, j := 0, len(p.Via)-1; i < j; i, j = i+1, j-1 {
			p.Via[i], p.Via[j] = p.Via[j], p.Via[i]
		}
	}
	g.net.Pipes = append(g.net.Pipes, p)
	return g.become(to, tip{to, heading, from.size})
}

func step(from network.Point, heading, length float64) network.Point {
	return network.Point{
		X: from.X + unit.Length(length*math.Cos(heading)),
		Y: from.Y + unit.Length(length*math.Sin(heading)),
	}
}

// become makes something of a new node and tells how it grows on.
func (g *grower) become(node int, straight tip) []tip {
	n := &g.net.Nodes[node]
	turned := func(degrees float64) tip {
		t := straight
		t.heading += unit.Degrees(degrees).Radians()
		return t
	}
	switch rapid.IntRange(0, 13).Draw(g.t, "kind") {
	case 0, 1, 2, 3:
		n.Kind = network.KindAccess
		n.Access = g.access(straight.size)
		if n.Access.Kind == network.PulledFixture || n.Access.Kind == network.RoofVent {
			return nil
		}
		if n.Access.Kind == network.Manhole && g.oneIn(2, "two inflows") {
			return []tip{turned(5), turned(-70)}
		}
		return []tip{straight}
	case 4, 5, 6, 7:
		n.Kind = network.KindJunction
		n.Junction = &network.Junction{Kind: rapid.SampledFrom([]network.JunctionKind{
			network.Wye, network.SanitaryTee, network.Combination, network.DoubleWye, network.Cross,
		}).Draw(g.t, "junction")}
		tips := []tip{straight, turned(50)}
		if n.Junction.Kind == network.DoubleWye || n.Junction.Kind == network.Cross {
			tips = append(tips, turned(-50))
		}
		return tips
	case 8, 9:
		n.Kind = network.KindBend
		n.Turn = unit.Degrees(g.from("turn", 0, 22.5, 45, 90))
		return []tip{turned(g.from("drawn turn", 0, 47, 90, -100))}
	case 10:
		n.Kind = network.KindReducer
		if straight.size > 3 {
			straight.size--
		}
		return []tip{straight}
	case 11:
		n.Kind = rapid.SampledFrom([]network.NodeKind{network.KindTrap, network.KindBackwater}).Draw(g.t, "obstacle")
		n.Turn = unit.Degrees(g.from("trap turn", 0, 180))
		n.LetsThrough = g.oneIn(2, "lets through")
		return []tip{straight}
	}
	return nil
}

func (g *grower) access(size unit.Size) *network.Access {
	a := &network.Access{
		Kind: rapid.SampledFrom([]network.AccessKind{
			network.OneWayCleanout, network.TwoWayCleanout, network.Manhole, network.PulledFixture, network.RoofVent,
		}).Draw(g.t, "access"),
		Facing:       rapid.SampledFrom([]network.Facing{network.FacesUpstream, network.FacesDownstream}).Draw(g.t, "facing"),
		Size:         size,
		Riser:        unit.Metres(g.from("riser", 0, 0.4, 1.5)),
		Entry:        unit.Degrees(g.from("entry", 0, 45, 90)),
		OutOfService: g.oneIn(8, "out of service"),
	}
	if g.oneIn(4, "slow") {
		a.OpenMinutes = 7.3
	}
	return a
}

// randomSite draws a site with up to so many pipes.
func randomSite(t *rapid.T, base *rig.Rig, most int) *site.Site {
	g := &grower{t: t, most: most, net: network.Network{Levels: []network.Level{
		{Name: "ground", Elevation: 0}, {Name: "upper", Elevation: 3},
	}}}
	outlet := g.node(network.KindOutlet, network.Point{})
	tips := []tip{{outlet, 0, unit.Size(g.from("size", 4, 6))}}
	if g.oneIn(2, "manhole at the outlet") {
		g.net.Nodes[outlet].Kind = network.KindAccess
		g.net.Nodes[outlet].Access = &network.Access{Kind: network.Manhole, Size: 6}
	}
	for len(tips) > 0 && len(g.net.Pipes) < most {
		i := rapid.IntRange(0, len(tips)-1).Draw(t, "tip")
		from := tips[i]
		tips = append(tips[:i], tips[i+1:]...)
		before := g.net.Nodes[from.node].Junction
		tips = append(tips, g.grow(from)...)
		if p := &g.net.Pipes[len(g.net.Pipes)-1]; before != nil && g.legs(from.node) > 2 {
			before.Branches = append(before.Branches, p.ID)
		}
	}
	g.loop()
	s := &site.Site{Version: site.Version, Network: g.net, Rig: *base}
	g.rig(&s.Rig)
	g.places(s)
	return s
}

func (g *grower) legs(node int) int {
	n := 0
	for _, p := range g.net.Pipes {
		if p.From == g.net.Nodes[node].ID || p.To == g.net.Nodes[node].ID {
			n++
		}
	}
	return n
}

// loop joins two nodes now and then, so that flow divides. It has no inverts:
// where they contradict the way to the outlet, a cleanout put into the loop may
// turn its flow about, and the cure cannot be judged.
func (g *grower) loop() {
	if len(g.net.Nodes) < 4 || !g.oneIn(6, "loop") {
		return
	}
	for i := range g.net.Nodes {
		g.net.Nodes[i].Invert = nil
	}
	a := rapid.IntRange(0, len(g.net.Nodes)-1).Draw(g.t, "loop from")
	b := rapid.IntRange(0, len(g.net.Nodes)-1).Draw(g.t, "loop to")
	if a == b {
		return
	}
	g.net.Pipes = append(g.net.Pipes, network.Pipe{
		ID: "loop", From: g.net.Nodes[a].ID, To: g.net.Nodes[b].ID, Size: 4,
		Material: network.PVC40, Class: network.Branch, Deposit: network.Grease,
	})
}

// rig makes the hoses short enough to matter, and the tank small enough.
func (g *grower) rig(r *rig.Rig) {
	hoses := append([]rig.Hose(nil), r.Hoses...)
	for i := range hoses {
		hoses[i].Length *= unit.Length(g.from("hose", 1, 0.3, 0.5))
		hoses[i].Bends *= g.from("bends", 1, 0.5)
	}
	r.Hoses = hoses[:rapid.IntRange(1, len(hoses)).Draw(g.t, "hoses")]
	r.Tank.ArrivesFull = g.oneIn(2, "arrives full")
	share := unit.Volume(g.from("tank", 1, 1, 0.6, 0.3))
	r.Tank.Volume *= share
	r.Tank.Start *= share
	r.Tank.Stop *= share
}

// places sets spots, water and lays about the drain.
func (g *grower) places(s *site.Site) {
	somewhere := func(label string) network.Point {
		at := g.net.Nodes[rapid.IntRange(0, len(g.net.Nodes)-1).Draw(g.t, label)].At
		return step(at, g.from(label+" way", 0, 1, 2, 4), g.from(label+" off", 1, 6, 15))
	}
	for i := range rapid.SampledFrom([]int{1, 2, 3, 2, 3, 2, 2, 3, 0}).Draw(g.t, "spots") {
		s.Spots = append(s.Spots, site.Spot{
			ID: site.SpotID(fmt.Sprintf("s%d", i)), Label: fmt.Sprintf("S-%d", i), At: somewhere("spot"),
			Elevation: unit.Metres(g.from("ground", 0, 0, 1)), Uneven: g.oneIn(8, "uneven"),
		})
		if g.oneIn(8, "traffic") {
			s.Spots[i].Traffic = site.LiveTraffic
		}
	}
	for i := range rapid.SampledFrom([]int{1, 2, 2, 1, 0}).Draw(g.t, "water points") {
		s.Water = append(s.Water, site.WaterPoint{
			ID: site.WaterID(fmt.Sprintf("w%d", i)), Kind: site.HoseBib, At: somewhere("water"),
			Flow: unit.LitresPerMinute(g.from("flow", 12, 30, 80)),
		})
	}
	for _, n := range g.net.Nodes {
		if n.Access != nil && len(s.Spots) > 0 && g.oneIn(4, "lay") {
			measured := unit.Metres(g.from("lay length", 3, 12))
			s.Lays = append(s.Lays, site.Lay{Spot: s.Spots[0].ID, Access: n.ID, Length: &measured})
		}
	}
}
