package hand

import (
	"fmt"
	"testing"

	"linemap/internal/network"
	"linemap/internal/site"
)

// estate is a site with so many pipes in rows.
func estate(t testing.TB, pipes int) *site.Site {
	s := empty(t)
	net := &s.Network
	for i := range pipes {
		x, y := metre(i%100*12), metre(i/100*3)
		a, b := network.NodeID(fmt.Sprint("a", i)), network.NodeID(fmt.Sprint("b", i))
		net.Nodes = append(
			net.Nodes,
			network.Node{ID: a, Kind: network.KindCap, At: network.Point{X: x, Y: y}},
			network.Node{ID: b, Kind: network.KindCap, At: network.Point{X: x + 10, Y: y}},
		)
		net.Pipes = append(net.Pipes, network.Pipe{
			ID: network.PipeID(fmt.Sprint("p", i)), From: a, To: b, Size: 4, Material: network.PVC40, Class: network.Lateral,
		})
	}
	return s
}

// A move of the pointer with what is shown of it, at 10,000 pipes.
func BenchmarkMove(b *testing.B) {
	for _, script := range []string{"take K", "take P", "take P; click 5,1", "take C"} {
		b.Run(script, func(b *testing.B) {
			k := newBench(b, estate(b, 10_000))
			k.do(script)
			i := 0
			for b.Loop() {
				i++
				ev := k.event(Move, network.Point{X: metre(i % 900), Y: metre(i % 250)})
				k.tool.Handle(&k.world, ev)
				k.tool.Ghost(&k.world)
			}
		})
	}
}

// A click that draws a corner, at 10,000 pipes.
func BenchmarkCorner(b *testing.B) {
	k := newBench(b, estate(b, 10_000))
	k.do("take P; click 5,1")
	for b.Loop() {
		k.give(func() Event { ev := k.event(Press, network.Point{X: 5, Y: 2}); return ev }())
		k.do("key BackSpace")
	}
}
