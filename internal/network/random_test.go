package network_test

import (
	"fmt"
	"math"
	"slices"

	"pgregory.net/rapid"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// anyNetwork draws a network with nothing sound about it but its IDs: loops,
// parts, pipes side by side, contradicted inverts, fittings of a wrong kind.
// Places lie on a grid of 10 cm, lengths are whole metres where entered.
func anyNetwork(t *rapid.T) *network.Network {
	n := &network.Network{Levels: []network.Level{{Name: "cellar", Elevation: unit.Metres(-3)}, {Name: "roof", Elevation: unit.Metres(9)}}}
	kinds := []network.NodeKind{
		network.KindAccess, network.KindBend, network.KindJunction, network.KindJunction, network.KindFixture, network.KindTrap,
		network.KindReducer, network.KindBackwater, network.KindOutlet, network.KindCap,
	}
	grid := rapid.IntRange(-50, 50)
	place := func() network.Point {
		return network.Point{X: unit.Length(grid.Draw(t, "x")) / 10, Y: unit.Length(grid.Draw(t, "y")) / 10}
	}
	pipes := rapid.IntRange(0, 14).Draw(t, "pipes")
	for i := range rapid.IntRange(1, 10).Draw(t, "nodes") {
		node := network.Node{
			ID: network.NodeID(fmt.Sprintf("n%d", i)), Kind: rapid.SampledFrom(kinds).Draw(t, "kind"), At: place(),
			Level:       rapid.SampledFrom([]string{"", "", "cellar", "roof"}).Draw(t, "level"),
			LetsThrough: rapid.Bool().Draw(t, "through"),
		}
		if rapid.Bool().Draw(t, "measured") {
			z := unit.Length(rapid.IntRange(-3, 3).Draw(t, "invert"))
			node.Invert = &z
		}
		switch node.Kind {
		case network.KindAccess:
			node.Access = &network.Access{
				Kind: rapid.SampledFrom([]network.AccessKind{network.OneWayCleanout, network.TwoWayCleanout, network.Manhole, network.RoofVent}).Draw(t, "access"),
				Size: 4, OutOfService: rapid.Bool().Draw(t, "buried"),
			}
		case network.KindJunction:
			j := &network.Junction{Kind: rapid.SampledFrom([]network.JunctionKind{network.Wye, network.Combination, network.Cross}).Draw(t, "fitting")}
			for range rapid.IntRange(0, 2).Draw(t, "branches") {
				j.Branches = append(j.Branches, network.PipeID(fmt.Sprintf("p%d", rapid.IntRange(0, 14).Draw(t, "branch"))))
			}
			node.Junction = j
		}
		n.Nodes = append(n.Nodes, node)
	}
	end := rapid.SampledFrom(n.Nodes)
	for i := range pipes {
		p := network.Pipe{
			ID: network.PipeID(fmt.Sprintf("p%d", i)), From: end.Draw(t, "from").ID, To: end.Draw(t, "to").ID,
			Size:     rapid.SampledFrom([]unit.Size{2, 3, 4, 6, 7}).Draw(t, "size"),
			Material: rapid.SampledFrom([]network.Material{network.PVC40, network.Clay}).Draw(t, "material"),
			Class:    rapid.SampledFrom([]network.PipeClass{network.Main, network.Lateral, network.Stack}).Draw(t, "class"),
		}
		for range rapid.IntRange(0, 2).Draw(t, "vias") {
			p.Via = append(p.Via, place())
		}
		if rapid.Bool().Draw(t, "entered") {
			l := unit.Length(rapid.IntRange(0, 40).Draw(t, "length"))
			p.Length = &l
		}
		n.Pipes = append(n.Pipes, p)
	}
	return n
}

// clone copies a network deeply enough to edit it.
func clone(n *network.Network) *network.Network {
	c := *n
	c.Nodes, c.Pipes = slices.Clone(n.Nodes), slices.Clone(n.Pipes)
	for i := range c.Pipes {
		c.Pipes[i].Via = slices.Clone(c.Pipes[i].Via)
	}
	for i := range c.Nodes {
		if j := c.Nodes[i].Junction; j != nil {
			c.Nodes[i].Junction = &network.Junction{Kind: j.Kind, Branches: slices.Clone(j.Branches)}
		}
	}
	return &c
}

// moved maps every point of a network.
func moved(n *network.Network, to func(network.Point) network.Point) *network.Network {
	c := clone(n)
	for i := range c.Nodes {
		c.Nodes[i].At = to(c.Nodes[i].At)
	}
	for i := range c.Pipes {
		for k := range c.Pipes[i].Via {
			c.Pipes[i].Via[k] = to(c.Pipes[i].Via[k])
		}
	}
	return c
}

// turned rotates about the origin and then moves.
func turned(angle float64, by network.Point) func(network.Point) network.Point {
	sin, cos := unit.Length(math.Sin(angle)), unit.Length(math.Cos(angle))
	return func(p network.Point) network.Point {
		return network.Point{X: cos*p.X - sin*p.Y + by.X, Y: sin*p.X + cos*p.Y + by.Y}
	}
}

// district makes a town's drain of about so many pipes: a main of manholes, a
// wye line up every street with a lateral and a trap at every house.
func district(pipes int) *network.Network {
	n := &network.Network{}
	node := func(at network.Point, kind network.NodeKind) *network.Node {
		n.Nodes = append(n.Nodes, network.Node{ID: network.NodeID(fmt.Sprintf("n%d", len(n.Nodes))), Kind: kind, At: at})
		return &n.Nodes[len(n.Nodes)-1]
	}
	pipe := func(from, to network.NodeID, size unit.Size) network.PipeID {
		id := network.PipeID(fmt.Sprintf("p%d", len(n.Pipes)))
		n.Pipes = append(n.Pipes, network.Pipe{ID: id, From: from, To: to, Size: size, Material: network.PVC40, Class: network.Main})
		return id
	}
	const house, lot = 15, 20 // metres
	below := node(network.Point{}, network.KindOutlet).ID
	for street := 1; len(n.Pipes) < pipes; street++ {
		x := unit.Length(street * 50)
		mh := node(network.Point{X: x}, network.KindAccess)
		mh.Access = &network.Access{Kind: network.Manhole, Size: 24}
		pipe(below, mh.ID, 12)
		below = mh.ID
		at := below
		for y := unit.Length(lot); y < 100*lot && len(n.Pipes) < pipes; y += lot {
			wye := node(network.Point{X: x, Y: y}, network.KindJunction)
			id := wye.ID
			wye.Junction = &network.Junction{Kind: network.Wye}
			street := len(n.Nodes) - 1
			pipe(at, id, 8)
			trap := node(network.Point{X: x + house, Y: y + house}, network.KindTrap).ID
			n.Nodes[street].Junction.Branches = []network.PipeID{pipe(trap, id, 4)}
			pipe(node(network.Point{X: x + house + 2, Y: y + house}, network.KindFixture).ID, trap, 4)
			at = id
		}
		end := node(network.Point{X: x, Y: 100 * lot}, network.KindAccess)
		end.Access = &network.Access{Kind: network.TwoWayCleanout, Size: 6}
		pipe(at, end.ID, 8)
	}
	return n
}
