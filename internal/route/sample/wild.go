package sample

import (
	"fmt"
	"math/rand/v2"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// Wild is a random site, small but odd in many ways at once: one to three spots,
// some out of reach of water or all of them, one to three hoses of random length,
// a tank that may be too small, fragile pipe, accesses that cost much or little to
// open, crews that move quickly or slowly, and loops.
func Wild(r *rand.Rand, pipes int) *site.Site {
	net := Network(r, pipes)
	for range r.IntN(3) {
		loop(r, net)
	}
	var spots [][2]float64
	for range 1 + r.IntN(3) {
		n := net.Nodes[r.IntN(len(net.Nodes))].At
		spots = append(spots, [2]float64{n.X.Feet() + float64(r.IntN(60)), n.Y.Feet() + float64(10+r.IntN(60))})
	}
	s := Site(net, spots...)
	s.Rig = ThreeHoseRig()
	wildRig(r, s)
	for i := range net.Pipes {
		p := &s.Network.Pipes[i]
		p.Severity = []network.Severity{network.Light, network.Moderate, network.Heavy}[r.IntN(3)]
		if r.IntN(10) == 0 {
			ceiling := unit.Psi(float64(300 + 100*r.IntN(20)))
			p.Fragile, p.Ceiling = true, &ceiling
		}
	}
	return s
}

func wildRig(r *rand.Rand, s *site.Site) {
	g := &s.Rig
	for i := range g.Hoses {
		g.Hoses[i].Length = unit.Feet(60 + 10*float64(r.IntN(28)))
		if r.IntN(3) == 0 {
			g.Hoses[i].MaxPipe = 6
		}
	}
	r.Shuffle(len(g.Hoses), func(i, j int) { g.Hoses[i], g.Hoses[j] = g.Hoses[j], g.Hoses[i] })
	g.Hoses = g.Hoses[:1+r.IntN(len(g.Hoses))]
	g.Supply.Length = unit.Feet(float64(20 + 20*r.IntN(10)))
	if r.IntN(2) == 0 {
		v := unit.Gallons(float64(40 + 20*r.IntN(10)))
		g.Tank.Volume, g.Tank.Start, g.Tank.Stop = v, v/2, v/8
	}
	g.Tank.ArrivesFull = r.IntN(2) == 0
	if r.IntN(4) == 0 {
		s.Water = nil
	}
	c := &g.Crew
	c.SetUp, c.PackUp, c.Move = float64(1+r.IntN(20)), float64(1+r.IntN(15)), float64(r.IntN(10))
	c.HoseChange, c.Open = float64(2+r.IntN(9)), float64(r.IntN(12))
	if r.IntN(40) == 0 {
		c.HoseChange = float64(r.IntN(2))
	}
	c.Downstream = float64(r.IntN(4)) / 4
}

// loop joins two nodes that pipes join already by another way, at times the two
// ends of one pipe. Both become manholes, which take any number of pipes.
func loop(r *rand.Rand, net *network.Network) {
	if len(net.Nodes) < 3 {
		return
	}
	a, b := 1+r.IntN(len(net.Nodes)-1), 1+r.IntN(len(net.Nodes)-1)
	if a == b {
		return
	}
	for _, i := range []int{a, b} {
		n := &net.Nodes[i]
		n.Kind, n.Turn, n.Junction = network.KindAccess, 0, nil
		n.Access = &network.Access{Kind: network.Manhole, Size: 8, OpenMinutes: float64(r.IntN(9)), OutOfService: r.IntN(3) == 0}
	}
	length := unit.Feet(float64(10 + 10*r.IntN(12)))
	net.Pipes = append(net.Pipes, network.Pipe{
		ID: network.PipeID(fmt.Sprintf("p%d", len(net.Pipes))), From: net.Nodes[a].ID, To: net.Nodes[b].ID,
		Size: 4, Material: network.PVC40, Length: &length, Class: network.Main, Deposit: network.Sediment,
	})
}
