package chart

import (
	"encoding/xml"
	"flag"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/export/svg"
	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// wild draws a site that no one would sketch: nodes anywhere, pipes between
// anything, names of anything, a plan of another site.
func wild(t *rapid.T) (*site.Site, *route.Plan) {
	kinds := []network.NodeKind{
		network.KindAccess, network.KindBend, network.KindJunction, network.KindFixture, network.KindTrap,
		network.KindReducer, network.KindBackwater, network.KindOutlet, network.KindCap, "none",
	}
	ids := []network.NodeID{"a", "b", "c", "d", "e", "f", "gone"}
	place := func(name string) network.Point {
		far := rapid.SampledFrom([]float64{0.001, 1, 30, 400, 9e6}).Draw(t, name+"far")
		at := func(axis string) unit.Length {
			return unit.Length(far * float64(rapid.IntRange(-8, 8).Draw(t, name+axis)) / 8)
		}
		return network.Point{X: at("x"), Y: at("y")}
	}
	label := rapid.StringN(0, 40, 200)
	s := &site.Site{Job: site.Job{Title: label.Draw(t, "title"), Customer: label.Draw(t, "customer"), Date: label.Draw(t, "date")}}
	for _, id := range ids[:rapid.IntRange(0, 6).Draw(t, "nodes")] {
		n := network.Node{
			ID: id, Label: label.Draw(t, "label"), Kind: rapid.SampledFrom(kinds).Draw(t, "kind"), At: place("at"),
			Level: rapid.SampledFrom([]string{"", "Yard", "Roof"}).Draw(t, "level"),
		}
		if n.Kind == network.KindAccess {
			n.Access = &network.Access{
				Kind: rapid.SampledFrom([]network.AccessKind{network.OneWayCleanout, network.Manhole, network.CatchBasin, ""}).Draw(t, "opening"),
				Room: label.Draw(t, "room"), OutOfService: rapid.Bool().Draw(t, "closed"),
				Facing: rapid.SampledFrom([]network.Facing{"", network.FacesUpstream, network.FacesDownstream}).Draw(t, "facing"),
			}
		}
		s.Network.Nodes = append(s.Network.Nodes, n)
	}
	pipes := []network.PipeID{"p1", "p2", "p3", "p4", "p5", "p6"}
	for _, id := range pipes[:rapid.IntRange(0, 6).Draw(t, "pipes")] {
		p := network.Pipe{
			ID: id, From: rapid.SampledFrom(ids).Draw(t, "from"), To: rapid.SampledFrom(ids).Draw(t, "to"),
			Size: unit.Size(rapid.Float64Range(-1, 50).Draw(t, "size")), Fragile: rapid.Bool().Draw(t, "fragile"),
			Material: rapid.SampledFrom([]network.Material{network.PVC40, network.Clay, "straw"}).Draw(t, "material"),
			Class:    rapid.SampledFrom([]network.PipeClass{network.Stack, network.Lateral}).Draw(t, "class"),
		}
		for range rapid.IntRange(0, 2).Draw(t, "corners") {
			p.Via = append(p.Via, place("via"))
		}
		s.Network.Pipes = append(s.Network.Pipes, p)
	}
	for _, id := range []site.SpotID{"s1", "s2"} {
		s.Spots = append(s.Spots, site.Spot{ID: id, Label: label.Draw(t, "spot"), At: place("spot")})
	}
	s.Water = []site.WaterPoint{{ID: "w", At: place("water"), Flow: 1}}
	for _, id := range []site.AreaID{"a1", "a2"} {
		a := site.Area{ID: id, Label: label.Draw(t, "area"), Kind: rapid.SampledFrom(append(site.AreaKinds(), "pond")).Draw(t, "for")}
		for range rapid.IntRange(0, 5).Draw(t, "outline") {
			a.Outline = append(a.Outline, place("corner"))
		}
		s.Areas = append(s.Areas, a)
	}
	s.Rig.Supply.Length = unit.Length(rapid.Float64Range(0, 1e3).Draw(t, "supply"))

	plan := &route.Plan{}
	for i := range rapid.IntRange(0, 3).Draw(t, "blocks") {
		b := route.Block{Spot: rapid.SampledFrom([]site.SpotID{"s1", "s2", "gone"}).Draw(t, "at"), Hose: "h"}
		r := route.Run{Number: 900 + i, Access: rapid.SampledFrom(ids).Draw(t, "access"), Direction: route.Upstream}
		for _, p := range rapid.SliceOfN(rapid.SampledFrom(pipes), 0, 6).Draw(t, "path") {
			r.Path = append(r.Path, route.Leg{Pipe: p, Cleaned: rapid.Bool().Draw(t, "cleaned")})
		}
		b.Runs = append(b.Runs, r)
		plan.Blocks = append(plan.Blocks, b)
	}
	for range rapid.IntRange(0, 30).Draw(t, "short") {
		plan.Shortfalls = append(plan.Shortfalls, route.Shortfall{
			Pipe: rapid.SampledFrom(pipes).Draw(t, "left"), Reason: route.NoAccess, What: label.Draw(t, "what"),
		})
	}
	return s, plan
}

func TestWildSites(t *testing.T) {
	if raced {
		checks := flag.Lookup("rapid.checks").Value
		before := checks.String()
		require.NoError(t, checks.Set("25"))
		defer func() { require.NoError(t, checks.Set(before)) }()
	}
	rapid.Check(t, func(t *rapid.T) {
		s, plan := wild(t)
		c, err := Draw(s, plan, Options{Paper: rapid.SampledFrom([]site.Paper{site.Letter, site.A4, "napkin"}).Draw(t, "paper")})
		require.NoError(t, err)
		out := svg.Encode(c.Sheets, "en", "wild", "")
		assert.NotContains(t, string(out), "NaN")
		assert.NoError(t, xml.Unmarshal(out, new(struct{})))
		for _, sheet := range c.Sheets {
			for _, p := range sheet.Panels {
				for _, piece := range pieces(&p) {
					for _, v := range []float64{piece.centre.X, piece.centre.Y, piece.w, piece.h} {
						assert.False(t, math.IsNaN(v) || math.Abs(v) > 1e4, "%+v", piece)
					}
				}
			}
		}
	})
}

func TestOffTheEarth(t *testing.T) {
	for name, bad := range map[string]unit.Length{
		"not a number": unit.Length(math.NaN()), "endless": unit.Length(math.Inf(-1)), "far": 1e9,
	} {
		t.Run(name, func(t *testing.T) {
			for where, spoil := range map[string]func(s *site.Site){
				`node "OUT"`:         func(s *site.Site) { s.Network.Nodes[0].At.X = bad },
				`pipe "OUT-MH1"`:     func(s *site.Site) { s.Network.Pipes[0].Via = []network.Point{{Y: bad}} },
				`spot "s1"`:          func(s *site.Site) { s.Spots[0].At.Y = bad },
				`water point "w1"`:   func(s *site.Site) { s.Water[0].At.X = bad },
				`area "a1"`:          func(s *site.Site) { s.Areas = []site.Area{{ID: "a1", Outline: []network.Point{{X: bad}}}} },
				`lay from spot "s1"`: func(s *site.Site) { s.Lays[0].Via[0].X = bad },
			} {
				s := shop()
				spoil(s)
				_, err := Draw(s, shopPlan(), Options{})
				assert.ErrorContains(t, err, where)
			}
		})
	}
}
