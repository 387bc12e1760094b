package aim

import (
	"fmt"
	"math/rand/v2"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

func pt(x, y float64) network.Point { return network.Point{X: unit.Metres(x), Y: unit.Metres(y)} }

// yard is a small site: a main of 10 m eastward with a cleanout at its head, a
// pipe with two corners north of it, a stack, and one of everything else.
func yard() *site.Site {
	s := &site.Site{Network: network.Network{
		Levels: []network.Level{{Name: "Ground"}, {Name: "First", Elevation: 3}},
		Nodes: []network.Node{
			{ID: "co", Label: "CO-1", Kind: network.KindAccess, Access: &network.Access{Kind: network.TwoWayCleanout}, At: pt(0, 0), Level: "Ground"},
			{ID: "end", Kind: network.KindCap, At: pt(10, 0), Level: "Ground"},
			{ID: "a", Kind: network.KindCap, At: pt(0, 5), Level: "Ground"},
			{ID: "b", Kind: network.KindCap, At: pt(10, 8), Level: "Ground"},
			{ID: "foot", Kind: network.KindBend, At: pt(20, 0), Level: "Ground"},
			{ID: "head", Kind: network.KindCap, At: pt(20, 0), Level: "First"},
			{ID: "up", Kind: network.KindFixture, At: pt(0, 0), Level: "First"},
		},
		Pipes: []network.Pipe{
			{ID: "main", Label: "L-3", From: "co", To: "end"},
			{ID: "bent", From: "a", To: "b", Via: []network.Point{pt(5, 5), pt(5, 8)}},
			{ID: "stack", From: "head", To: "foot"},
			{ID: "lost", From: "co", To: "nowhere"},
		},
	}}
	s.Spots = []site.Spot{{ID: "s1", At: pt(0, -5)}}
	s.Water = []site.WaterPoint{{ID: "w1", At: pt(3, -5)}}
	s.Notes = []site.Note{{ID: "t1", At: pt(6, -5), Level: "Ground"}}
	s.Lays = []site.Lay{
		{Spot: "s1", Access: "co", Via: []network.Point{pt(-3, -5), pt(-3, 0)}},
		{Spot: "s1", Water: "w1"},
		{Spot: "s1", Water: "dry"},
	}
	s.Underlays = []site.Underlay{
		{ID: "u1", At: pt(5, 0), Level: "Ground"},
		{ID: "u2", At: pt(5, 20), Level: "Ground", Locked: true},
		{ID: "u3", At: pt(5, 30), Level: "Ground", Hidden: true},
	}
	return s
}

func index(s *site.Site) *Index {
	g, _ := network.Trace(&s.Network)
	return NewIndex(s, g)
}

// town is a site of so many pipes, some with corners, with clusters and
// outliers.
func town(pipes int) *site.Site {
	r := rand.New(rand.NewPCG(1, 2))
	s := &site.Site{}
	net := &s.Network
	for i := range pipes {
		x, y := r.Float64()*400, r.Float64()*400
		if i%100 == 0 {
			x *= 200
		}
		a, b := network.NodeID(fmt.Sprint("a", i)), network.NodeID(fmt.Sprint("b", i))
		net.Nodes = append(
			net.Nodes,
			network.Node{ID: a, Kind: network.KindCap, At: pt(x, y)},
			network.Node{ID: b, Kind: network.KindCap, At: pt(x+r.Float64()*12, y+r.Float64()*12)},
		)
		p := network.Pipe{ID: network.PipeID(fmt.Sprint("p", i)), From: a, To: b}
		for range i % 4 {
			p.Via = append(p.Via, pt(x+r.Float64()*12, y+r.Float64()*12))
		}
		net.Pipes = append(net.Pipes, p)
	}
	return s
}
