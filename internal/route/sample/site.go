package sample

import (
	"fmt"
	"math/rand/v2"

	"linemap/internal/network"
	"linemap/internal/network/sketch"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// Site makes a site from a sketch, with spots at the given places in feet
// and one hydrant at the first.
func Site(net *network.Network, spots ...[2]float64) *site.Site {
	s := &site.Site{Version: site.Version, Units: unit.US, Paper: site.Letter, Network: *net, Rig: Rig()}
	for i, at := range spots {
		p := network.Point{X: unit.Feet(at[0]), Y: unit.Feet(at[1])}
		s.Spots = append(s.Spots, site.Spot{ID: site.SpotID(fmt.Sprintf("s%d", i+1)), Label: fmt.Sprintf("Spot %d", i+1), At: p})
		if i == 0 {
			s.Water = append(s.Water, site.WaterPoint{ID: "h1", Label: "Hydrant", Kind: site.Hydrant, At: p, Flow: unit.GallonsPerMinute(10)})
		}
	}
	return s
}

// Sketch makes a site from the text form of a network.
func Sketch(text string, spots ...[2]float64) *site.Site {
	return Site(sketch.Must(text), spots...)
}

// Random is a small random site: one or two spots, hoses of random length, and
// a hydrant at the first spot.
func Random(r *rand.Rand, pipes int) *site.Site {
	spots := [][2]float64{{0, 20}}
	if r.IntN(2) == 0 {
		spots = append(spots, [2]float64{float64(100 + 10*r.IntN(20)), 20})
	}
	s := Site(Network(r, pipes), spots...)
	for i := range s.Rig.Hoses {
		s.Rig.Hoses[i].Length = unit.Feet(80 + 10*float64(r.IntN(20)))
	}
	if r.IntN(5) == 0 {
		s.Rig.Hoses = s.Rig.Hoses[r.IntN(2):][:1]
	}
	return s
}

// Large is a random drain with spots along it and the hoses full length.
func Large(seed uint64, pipes, spots int) *site.Site {
	r := rand.New(rand.NewPCG(seed, 3))
	net := Network(r, pipes)
	var at [][2]float64
	for range spots {
		n := net.Nodes[r.IntN(len(net.Nodes))].At
		at = append(at, [2]float64{n.X.Feet() + 10, n.Y.Feet() + 10})
	}
	s := Site(net, at...)
	for i := range s.Network.Pipes {
		if p := &s.Network.Pipes[i]; p.Size == 2 && r.IntN(2) == 0 {
			p.Size = 4
		}
	}
	return s
}
