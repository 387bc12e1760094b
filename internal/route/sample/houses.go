package sample

import (
	"linemap/internal/network"
	"linemap/internal/unit"
)

// houses draws a sewer up a way with the laterals of houses on either side,
// between two distances from the node, and returns its last fitting.
func (d *streets) houses(node int, at, way xy, p network.Pipe, first, last float64) int {
	station, left := first+float64(d.rand.IntN(12)), d.rand.IntN(2) == 0
	for ; station <= last && !d.full(); station += houseLot/2 + float64(d.rand.IntN(7)) {
		left = !left
		if d.rand.IntN(12) == 0 {
			continue // an empty lot
		}
		here := at.add(way, station)
		node = d.up(node, p, junction(network.Wye), "Y", here)
		side := way.right()
		if left {
			side = way.left()
		}
		pipe := len(d.net.Pipes)
		d.lateral(node, here, way, side)
		d.join(node, pipe)
	}
	return node
}

// lateral draws the lateral of a house: out of the wye by an 1/8 bend to a
// cleanout before the house, and on to the house.
func (d *streets) lateral(node int, at, way, side xy) {
	p := network.Pipe{Class: network.Lateral, Size: 4, Material: network.Clay, Deposit: network.Roots, Severity: d.severity()}
	switch d.rand.IntN(4) {
	case 0:
		p.Material, p.Deposit = network.PVC40, network.Grease
	case 1:
		p.Material, p.Deposit = network.CastIron, network.Scale
	}
	p.OutOfJob = d.rand.IntN(12) == 0
	corner := at.add(way.half(side), 6)
	front := corner.add(side, setback-6)
	co := access(network.TwoWayCleanout, 4)
	if d.rand.IntN(3) == 0 {
		co = cleanout(network.FacesDownstream, 4, false)
	}
	co.Level, co.Access.Riser = lots, unit.Feet(4)
	if d.rand.IntN(3) > 0 {
		turn := bend(45)
		node = d.up(node, p, turn, "B", corner)
		node = d.up(node, p, co, "CO", front)
	} else {
		node = d.up(node, p, co, "CO", corner, front)
	}
	d.up(node, p, network.Node{Kind: network.KindFixture}, "H", front.add(side, 12))
}

// settle sizes the sewers by the houses above them, and gives every pipe its
// fall.
func (d *streets) settle() {
	above := make([]int, len(d.net.Nodes))
	index := make(map[network.NodeID]int, len(d.net.Nodes))
	for i := range d.net.Nodes {
		index[d.net.Nodes[i].ID] = i
	}
	for i := len(above) - 1; i >= 0; i-- {
		if d.below[i] < 0 {
			continue
		}
		p := &d.net.Pipes[d.below[i]]
		if d.net.Nodes[i].Kind == network.KindFixture {
			above[i]++
		}
		if p.Class != network.Lateral {
			p.Size = sewerFor(above[i])
		}
		above[index[p.To]] += above[i]
	}
	for i := range d.net.Pipes {
		p := &d.net.Pipes[i]
		fall := fallOf(p.Size)
		p.Slope = &fall
	}
}

// sewerFor is the size of a sewer for a number of houses.
func sewerFor(houses int) unit.Size {
	switch {
	case houses <= 30:
		return 6
	case houses <= 200:
		return 8
	case houses <= 700:
		return 10
	}
	return 12
}
