package site

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// yard is a site with a spot at the origin and an access 30 m east and 40 m
// north of it, 50 m away as the crow flies.
func yard() (*Site, *Spot, *network.Node) {
	s := &Site{
		Network: network.Network{
			Levels: []network.Level{{Name: "Cellar", Elevation: -3}},
			Nodes:  []network.Node{{ID: "co", Kind: network.KindAccess, At: network.Point{X: 30, Y: 40}, Access: &network.Access{}}},
		},
		Spots: []Spot{{ID: "s", Label: "Yard"}},
	}
	return s, &s.Spots[0], &s.Network.Nodes[0]
}

func TestLayLength(t *testing.T) {
	deep := unit.Metres(-2)
	measured := unit.Metres(61)
	for _, c := range []struct {
		name string
		set  func(*Site, *Spot, *network.Node)
		want unit.Length
		way  []network.Point
	}{
		{"straight", func(*Site, *Spot, *network.Node) {}, 50, []network.Point{{}, {X: 30, Y: 40}}},
		{
			"round a corner",
			func(s *Site, _ *Spot, _ *network.Node) {
				s.Lays = []Lay{{Spot: "s", Access: "co", Via: []network.Point{{X: 30, Y: 0}}}}
			},
			70,
			[]network.Point{{}, {X: 30}, {X: 30, Y: 40}},
		},
		{
			"measured",
			func(s *Site, _ *Spot, _ *network.Node) {
				s.Lays = []Lay{{Spot: "s", Access: "co", Via: []network.Point{{X: 30, Y: 0}}, Length: &measured}}
			},
			61,
			[]network.Point{{}, {X: 30}, {X: 30, Y: 40}},
		},
		{
			"lays of others",
			func(s *Site, _ *Spot, _ *network.Node) {
				s.Lays = []Lay{
					{Spot: "other", Access: "co", Length: &measured},
					{Spot: "s", Access: "other", Length: &measured},
					{Spot: "s", Water: "co", Length: &measured},
				}
			},
			50,
			[]network.Point{{}, {X: 30, Y: 40}},
		},
		{"down to the invert", func(_ *Site, _ *Spot, n *network.Node) { n.Invert = &deep }, 52, nil},
		{"up the riser to the ground", func(_ *Site, _ *Spot, n *network.Node) { n.Invert, n.Access.Riser = &deep, 2 }, 50, nil},
		{"down into the cellar", func(_ *Site, _ *Spot, n *network.Node) { n.Level = "Cellar" }, 53, nil},
		{"an invert tells more than a level", func(_ *Site, _ *Spot, n *network.Node) { n.Level, n.Invert = "Cellar", &deep }, 52, nil},
		{"from high ground", func(_ *Site, spot *Spot, _ *network.Node) { spot.Elevation = 4 }, 54, nil},
		{"from low ground", func(_ *Site, spot *Spot, _ *network.Node) { spot.Elevation = -4 }, 54, nil},
		{
			"measured and up to a roof",
			func(s *Site, _ *Spot, n *network.Node) {
				s.Lays = []Lay{{Spot: "s", Access: "co", Length: &measured}}
				n.Access.Riser = 9
			},
			70, nil,
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, spot, n := yard()
			c.set(s, spot, n)
			assert.InDelta(t, float64(c.want), float64(s.LayLength(spot, n)), 1e-9)
			if c.way != nil {
				assert.Equal(t, c.way, s.LayPath(spot, n))
			}
		})
	}
}

func TestInflow(t *testing.T) {
	bib := WaterPoint{ID: "bib", Kind: HoseBib, At: network.Point{X: 10}, Flow: 2}
	hydrant := WaterPoint{ID: "hydrant", Kind: Hydrant, At: network.Point{X: 30}, Flow: 9}
	far := WaterPoint{ID: "far", Kind: Tanker, At: network.Point{X: 100}, Flow: 99}
	round := unit.Metres(45)
	for _, c := range []struct {
		name  string
		water []WaterPoint
		lays  []Lay
		most  unit.Flow
		want  unit.Flow
		from  WaterID
	}{
		{"no water", nil, nil, 0, 0, ""},
		{"none in reach", []WaterPoint{far}, nil, 0, 0, ""},
		{"strongest in reach", []WaterPoint{far, bib, hydrant}, nil, 0, 9, "hydrant"},
		{"held to the fill", []WaterPoint{hydrant}, nil, 5, 5, "hydrant"},
		{"nearest of those that fill it", []WaterPoint{hydrant, bib}, nil, 1, 1, "bib"},
		{"hose led round", []WaterPoint{bib, hydrant}, []Lay{{Spot: "s", Water: "hydrant", Length: &round}}, 0, 2, "bib"},
		{"hose led round a corner", []WaterPoint{bib, hydrant}, []Lay{{Spot: "s", Water: "hydrant", Via: []network.Point{{Y: 20}}}}, 0, 2, "bib"},
		{"equal twins", []WaterPoint{{ID: "b", Flow: 2}, {ID: "a", Flow: 2}}, nil, 0, 2, "a"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, spot, _ := yard()
			s.Water, s.Lays = c.water, c.lays
			s.Rig.Supply.Length, s.Rig.Supply.MaxFlow = 40, c.most
			flow, w := s.Inflow(spot)
			assert.Equal(t, c.want, flow)
			if c.from == "" {
				assert.Nil(t, w)
			} else if assert.NotNil(t, w) {
				assert.Equal(t, c.from, w.ID)
				assert.LessOrEqual(t, s.SupplyLength(spot, w), s.Rig.Supply.Length)
			}
		})
	}
}

func TestUsable(t *testing.T) {
	for name, c := range map[string]struct {
		spot Spot
		want bool
	}{
		"plain":           {Spot{}, true},
		"no traffic":      {Spot{Traffic: NoTraffic}, true},
		"coned":           {Spot{Traffic: ConedTraffic}, true},
		"live":            {Spot{Traffic: LiveTraffic}, false},
		"uneven":          {Spot{Uneven: true}, false},
		"uneven and live": {Spot{Uneven: true, Traffic: LiveTraffic}, false},
	} {
		assert.Equal(t, c.want, c.spot.Usable(), name)
	}
}
