package route

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/network"
	"linemap/internal/route/sample"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// drawSite draws a small random site; the same draw gives the same site again.
func drawSite(t *rapid.T) func() *site.Site {
	seed := rapid.Uint64().Draw(t, "seed")
	pipes := rapid.IntRange(1, 7).Draw(t, "pipes")
	return func() *site.Site {
		return sample.Random(rand.New(rand.NewPCG(seed, 1)), pipes)
	}
}

// dry is the proven least dry cost of a site, and the targets it cleans.
func dry(t *rapid.T, s *site.Site, tab *site.Tables) (cost ticks, cleaned []network.PipeID) {
	m, err := newModel(s, tab)
	require.NoError(t, err)
	c := newCatalogue(m)
	for _, p := range c.targets {
		cleaned = append(cleaned, s.Network.Pipes[p].ID)
	}
	slices.Sort(cleaned)
	if len(c.targets) == 0 {
		return 0, nil
	}
	se := newSearch(context.Background(), c, nil)
	se.construct()
	require.True(t, se.run())
	return se.best.cost, cleaned
}

// More freedom never makes a plan dearer where it reaches the same pipes, and
// never reaches fewer.
func TestMoreFreedomIsNeverDearer(t *testing.T) {
	tab := sample.Tables()
	freer := []struct {
		name string
		free func(*site.Site)
	}{
		{"more bends", func(s *site.Site) {
			for i := range s.Rig.Hoses {
				s.Rig.Hoses[i].Bends++
			}
		}},
		{"less reserve", func(s *site.Site) {
			for i := range s.Rig.Hoses {
				s.Rig.Hoses[i].Reserve = 0
			}
		}},
		{"one more spot", func(s *site.Site) {
			s.Spots = append(s.Spots, site.Spot{ID: "more", Label: "More", At: network.Point{X: unit.Feet(60), Y: unit.Feet(8)}})
		}},
		{"more hydrants", func(s *site.Site) {
			for i, sp := range s.Spots {
				s.Water = append(s.Water, site.WaterPoint{
					ID: site.WaterID("more" + string(rune('a'+i))), At: sp.At, Flow: unit.GallonsPerMinute(30),
				})
			}
		}},
		{"every cleanout two-way", func(s *site.Site) {
			for i := range s.Network.Nodes {
				if a := s.Network.Nodes[i].Access; a != nil && a.Kind == network.OneWayCleanout {
					a.Kind, a.Facing = network.TwoWayCleanout, ""
				}
			}
		}},
	}
	for _, f := range freer {
		t.Run(f.name, rapid.MakeCheck(func(t *rapid.T) {
			site := drawSite(t)
			cost, cleaned := dry(t, site(), tab)
			more := site()
			f.free(more)
			cost2, cleaned2 := dry(t, more, tab)
			for _, p := range cleaned {
				require.Contains(t, cleaned2, p)
			}
			if len(cleaned) == len(cleaned2) {
				require.LessOrEqual(t, cost2, cost)
			}
		}))
	}
}

// One more access in service never makes a plan dearer where it reaches the same
// pipes, and never reaches fewer.
func TestOneMoreAccessIsNeverDearer(t *testing.T) {
	tab := sample.Tables()
	rapid.Check(t, func(t *rapid.T) {
		site := drawSite(t)
		more, fewer := site(), site()
		var all []*network.Access
		for i := range fewer.Network.Nodes {
			if a := fewer.Network.Nodes[i].Access; a != nil {
				all = append(all, a)
			}
		}
		if len(all) == 0 {
			t.Skip("there is no access")
		}
		rapid.SampledFrom(all).Draw(t, "shut").OutOfService = true
		cost, cleaned := dry(t, fewer, tab)
		cost2, cleaned2 := dry(t, more, tab)
		for _, p := range cleaned {
			require.Contains(t, cleaned2, p)
		}
		if len(cleaned) == len(cleaned2) {
			require.LessOrEqual(t, cost2, cost)
		}
	})
}

// Names, order, place and bearing carry no meaning.
func TestSameSiteSameCost(t *testing.T) {
	tab := sample.Tables()
	rapid.Check(t, func(t *rapid.T) {
		site := drawSite(t)
		a, b := site(), site()
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "shuffle"), 2))
		net := &b.Network
		r.Shuffle(len(net.Nodes), func(i, j int) { net.Nodes[i], net.Nodes[j] = net.Nodes[j], net.Nodes[i] })
		r.Shuffle(len(net.Pipes), func(i, j int) { net.Pipes[i], net.Pipes[j] = net.Pipes[j], net.Pipes[i] })
		r.Shuffle(len(b.Spots), func(i, j int) { b.Spots[i], b.Spots[j] = b.Spots[j], b.Spots[i] })
		for i := range net.Nodes {
			net.Nodes[i].ID = "x" + net.Nodes[i].ID
			net.Nodes[i].At.X += 1000
			if j := net.Nodes[i].Junction; j != nil {
				for k := range j.Branches {
					j.Branches[k] = "x" + j.Branches[k]
				}
			}
		}
		for i := range net.Pipes {
			p := &net.Pipes[i]
			p.ID, p.From, p.To = "x"+p.ID, "x"+p.From, "x"+p.To
			if r.IntN(2) == 0 {
				p.From, p.To = p.To, p.From
			}
		}
		for i := range b.Spots {
			b.Spots[i].At.X += 1000
		}
		for i := range b.Water {
			b.Water[i].At.X += 1000
		}
		if rapid.Bool().Draw(t, "turn") {
			quarterTurn(b)
		}
		cost, cleaned := dry(t, a, tab)
		cost2, cleaned2 := dry(t, b, tab)
		require.Equal(t, len(cleaned), len(cleaned2))
		require.Equal(t, cost, cost2)
	})
}

// quarterTurn turns a site by 90 degrees, which loses no bit of a coordinate.
func quarterTurn(s *site.Site) {
	turn := func(p *network.Point) { p.X, p.Y = -p.Y, p.X }
	for i := range s.Network.Nodes {
		turn(&s.Network.Nodes[i].At)
	}
	for i := range s.Network.Pipes {
		for v := range s.Network.Pipes[i].Via {
			turn(&s.Network.Pipes[i].Via[v])
		}
	}
	for i := range s.Spots {
		turn(&s.Spots[i].At)
	}
	for i := range s.Water {
		turn(&s.Water[i].At)
	}
}
