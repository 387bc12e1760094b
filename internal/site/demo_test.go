package site_test

import (
	"math"
	"path"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/assets"
	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// demo says what one of the demo sites has to show.
type demo struct {
	file                   string
	leastPipes, mostPipes  int
	units                  unit.System
	paper                  site.Paper
	outlets, spots, waters int
	// warnings are the faults put into the site on purpose, as "kind: place".
	warnings []string
	deposits []network.Deposit
}

var demos = []demo{
	{
		file: "restaurant.linemap", leastPipes: 15, mostPipes: 30,
		units: unit.US, paper: site.Letter, outlets: 2, spots: 2, waters: 2,
		warnings: []string{"slope_under_code: FS-2 lateral"},
		deposits: []network.Deposit{network.Grease, network.Sediment},
	},
	{
		file: "flats.linemap", leastPipes: 50, mostPipes: 70,
		units: unit.Metric, paper: site.A4, outlets: 1, spots: 3, waters: 2,
		warnings: []string{"slope_under_code: Yard sewer", "spot_in_traffic: Lane"},
		deposits: []network.Deposit{network.Grease, network.Sediment, network.Roots, network.Scale},
	},
	{
		file: "school.linemap", leastPipes: 180, mostPipes: 220,
		units: unit.US, paper: site.Letter, outlets: 2, spots: 5, waters: 4,
		warnings: []string{
			"access_spacing: Interceptor outlet line", "slope_under_code: FD-4 lateral",
			"spot_without_water: East field gate",
		},
		deposits: []network.Deposit{network.Grease, network.Sediment, network.Roots, network.Scale},
	},
}

// onDemos runs a test on every demo site.
func onDemos(t *testing.T, test func(t *testing.T, d demo, s *site.Site, g *network.Graph)) {
	for _, d := range demos {
		t.Run(d.file, func(t *testing.T) {
			s, err := site.Decode(demoBytes(t, d.file))
			require.NoError(t, err)
			g, _ := network.Trace(&s.Network)
			test(t, d, s, g)
		})
	}
}

func demoBytes(t *testing.T, file string) []byte {
	data, err := assets.FS.ReadFile(path.Join("demo", file))
	require.NoError(t, err)
	return data
}

func TestEveryDemoIsListed(t *testing.T) {
	entries, err := assets.FS.ReadDir("demo")
	require.NoError(t, err)
	var have, want []string
	for _, e := range entries {
		if path.Ext(e.Name()) == site.Extension {
			have = append(have, e.Name())
		}
	}
	for _, d := range demos {
		want = append(want, d.file)
	}
	assert.ElementsMatch(t, want, have)
}

func TestDemosAreWrittenAsTheProgramWritesThem(t *testing.T) {
	onDemos(t, func(t *testing.T, d demo, s *site.Site, _ *network.Graph) {
		again, err := site.Encode(s)
		require.NoError(t, err)
		assert.Equal(t, string(demoBytes(t, d.file)), string(again))
	})
}

func TestDemosShowWhatTheyPromise(t *testing.T) {
	onDemos(t, func(t *testing.T, d demo, s *site.Site, g *network.Graph) {
		assert.GreaterOrEqual(t, len(s.Network.Pipes), d.leastPipes)
		assert.LessOrEqual(t, len(s.Network.Pipes), d.mostPipes)
		assert.Equal(t, d.units, s.Units)
		assert.Equal(t, d.paper, s.Paper)
		assert.Len(t, g.Outlets, d.outlets)
		assert.Len(t, s.Spots, d.spots)
		assert.Len(t, s.Water, d.waters)
		assert.NotEmpty(t, s.Lays, "a lay around something")
		assert.NotEmpty(t, s.Job.Date)
		found := map[network.Deposit]bool{}
		for i := range s.Network.Pipes {
			found[s.Network.Pipes[i].Deposit] = true
		}
		for _, dep := range d.deposits {
			assert.True(t, found[dep], dep)
		}
	})
}

func TestDemosCarryARigOfTheProgram(t *testing.T) {
	onDemos(t, func(t *testing.T, d demo, s *site.Site, _ *network.Graph) {
		r, err := site.DefaultRig(string(d.units))
		require.NoError(t, err)
		assert.Equal(t, *r, s.Rig)
	})
}

func TestFlatsHaveFragileClayWithACeiling(t *testing.T) {
	s, err := site.Decode(demoBytes(t, "flats.linemap"))
	require.NoError(t, err)
	fragile := 0
	for i := range s.Network.Pipes {
		if p := &s.Network.Pipes[i]; p.Fragile {
			fragile++
			assert.Equal(t, network.Clay, p.Material, p.ID)
			require.NotNil(t, p.Ceiling, p.ID)
			assert.Less(t, *p.Ceiling, s.Rig.Pump.Unloader, p.ID)
		}
	}
	assert.Positive(t, fragile)
}

func TestSchoolHasOneSpotWithoutWater(t *testing.T) {
	s, err := site.Decode(demoBytes(t, "school.linemap"))
	require.NoError(t, err)
	var dry []string
	for i := range s.Spots {
		if flow, _ := s.Inflow(&s.Spots[i]); flow == 0 {
			dry = append(dry, s.Spots[i].Label)
		}
	}
	assert.Equal(t, []string{"East field gate"}, dry)
}

func TestDemoFindingsAreTheOnesPutThere(t *testing.T) {
	onDemos(t, func(t *testing.T, d demo, s *site.Site, _ *network.Graph) {
		findings, err := s.Findings()
		require.NoError(t, err)
		var warnings []string
		for _, f := range findings {
			assert.NotEqual(t, network.Error, f.Gravity, "%s: %s", f.Place, f.What)
			if f.Gravity == network.Warning {
				warnings = append(warnings, f.Kind+": "+f.Place)
			}
		}
		assert.ElementsMatch(t, d.warnings, warnings)
	})
}

func TestDemoLabelsAreUnique(t *testing.T) {
	onDemos(t, func(t *testing.T, _ demo, s *site.Site, _ *network.Graph) {
		seen := map[string]bool{}
		label := func(l string) {
			assert.False(t, l != "" && seen[l], "%q stands twice", l)
			seen[l] = true
		}
		for i := range s.Network.Nodes {
			label(s.Network.Nodes[i].Label)
			if s.Network.Nodes[i].Kind == network.KindAccess {
				assert.NotEmpty(t, s.Network.Nodes[i].Label, s.Network.Nodes[i].ID)
			}
		}
		for i := range s.Network.Pipes {
			label(s.Network.Pipes[i].Label)
		}
	})
}

func TestDemoInvertsFallAlongTheFlow(t *testing.T) {
	onDemos(t, func(t *testing.T, _ demo, s *site.Site, g *network.Graph) {
		measured := 0
		for p := range s.Network.Pipes {
			up, down := &s.Network.Nodes[g.Up[p]], &s.Network.Nodes[g.Down[p]]
			if up.Invert == nil || down.Invert == nil {
				continue
			}
			measured++
			assert.Greater(t, *up.Invert, *down.Invert, g.PipeName(p))
		}
		assert.Greater(t, measured, len(s.Network.Pipes)/4)
	})
}

// A drain never gets smaller on its way to the outlet: every plumbing code
// forbids it (2021 IPC 704.2 in its words, from memory).
func TestDemoPipesNeverShrinkAlongTheFlow(t *testing.T) {
	onDemos(t, func(t *testing.T, _ demo, s *site.Site, g *network.Graph) {
		for p, next := range g.Next {
			if next >= 0 {
				assert.LessOrEqual(t, s.Network.Pipes[p].Size, s.Network.Pipes[next].Size, g.PipeName(p))
			}
		}
	})
}

// fittingTurns are the turns out of a branch into the run, by the make of the
// fitting: a wye is an eighth of a circle, a combination a wye and an 1/8 bend.
var fittingTurns = map[network.JunctionKind]float64{
	network.Wye: 45, network.DoubleWye: 45, network.Combination: 90,
}

func TestDemoBranchesJoinWithTheFlow(t *testing.T) {
	onDemos(t, func(t *testing.T, _ demo, s *site.Site, g *network.Graph) {
		for n := range s.Network.Nodes {
			j := s.Network.Nodes[n].Junction
			if j == nil {
				continue
			}
			name := g.NodeName(n)
			require.Len(t, g.Below[n], 1, name)
			out := g.Below[n][0]
			want, flat := fittingTurns[j.Kind]
			if !flat {
				assert.Equal(t, network.Stack, s.Network.Pipes[out].Class, "%s: a tee or cross stands in a stack", name)
				continue
			}
			for _, p := range g.Above[n] {
				turn := flowTurn(g.Polyline(p), g.Polyline(out))
				if slices.Contains(j.Branches, s.Network.Pipes[p].ID) {
					assert.InDelta(t, want, turn, 5, "%s: branch %s", name, g.PipeName(p))
				} else {
					assert.InDelta(t, 0, turn, 5, "%s: run %s", name, g.PipeName(p))
				}
			}
			assert.False(t, slices.Contains(j.Branches, s.Network.Pipes[out].ID), name)
		}
	})
}

// flowTurn is the angle, in degrees, between the last stretch of one line and
// the first of the next.
func flowTurn(in, out []network.Point) float64 {
	bearing := func(a, b network.Point) float64 { return math.Atan2(float64(b.Y-a.Y), float64(b.X-a.X)) }
	d := bearing(out[0], out[1]) - bearing(in[len(in)-2], in[len(in)-1])
	return math.Abs(math.Remainder(d, 2*math.Pi)) / math.Pi * 180
}

func TestMainLevel(t *testing.T) {
	s := &site.Site{}
	assert.Empty(t, s.MainLevel())
	s.Network.Levels = []network.Level{{Name: "First"}, {Name: "Cellar"}}
	assert.Equal(t, "First", s.MainLevel())
	s.Network.Nodes = []network.Node{{Kind: network.KindCap, Level: "First"}, {Kind: network.KindOutlet, Level: "Cellar"}}
	assert.Equal(t, "Cellar", s.MainLevel(), "the drain leaves there")
}
