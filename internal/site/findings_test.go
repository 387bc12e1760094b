package site

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// TestFindings changes one thing of a document and asks which findings come
// that were not there before.
func TestFindings(t *testing.T) {
	for _, c := range []struct {
		name                      string
		change                    func(*Site)
		kind                      string
		gravity                   network.Gravity
		place, value, limit, what string
	}{
		{
			"no spots", func(s *Site) { s.Spots, s.Lays = nil, nil },
			"no_spot", network.Error, "site", "0 usable of 0", "1 or more", "no spot",
		},
		{
			"every spot unusable", func(s *Site) { s.Spots[0].Traffic = LiveTraffic },
			"no_spot", network.Error, "site", "0 usable of 2", "1 or more", "no spot",
		},
		{
			"live traffic", func(s *Site) { s.Spots[0].Traffic = LiveTraffic },
			"spot_in_traffic", network.Warning, "Yard", "", "", "live traffic",
		},
		{
			"uneven ground", func(s *Site) { s.Spots[0].Uneven = true },
			"spot_uneven", network.Warning, "Yard", "", "", "uneven",
		},
		{
			"no water at all", func(s *Site) { s.Water, s.Lays = nil, nil },
			"spot_without_water", network.Warning, "Yard", "no water point on the site", "supply hose 100 ft", "No water point",
		},
		{
			"water too far", func(s *Site) { *s.Lays[1].Length = unit.Feet(120) },
			"spot_without_water", network.Warning, "Yard", "Hydrant is 120 ft away", "supply hose 100 ft", "No water point",
		},
		{
			"nameless spot", func(s *Site) { s.Spots[0].Label, s.Spots[0].Uneven = "", true },
			"spot_uneven", network.Warning, "spot yard", "", "", "uneven",
		},
		{
			"lay from nowhere", func(s *Site) { s.Lays[0].Spot = "moon" },
			"lay_unknown", network.Error, "lay moon to co1", "", "", "does not lead",
		},
		{
			"lay to nowhere", func(s *Site) { s.Lays[0].Access = "moon" },
			"lay_unknown", network.Error, "lay yard to moon", "", "", "does not lead",
		},
		{
			"lay to a bend", func(s *Site) { s.Lays[0].Access = "b1" },
			"lay_unknown", network.Error, "lay yard to b1", "", "", "does not lead",
		},
		{
			"lay to dry water", func(s *Site) { s.Lays[1].Water = "moon" },
			"lay_unknown", network.Error, "lay yard to moon", "", "", "does not lead",
		},
		{
			"lay to no end", func(s *Site) { s.Lays[1].Water = "" },
			"lay_unknown", network.Error, "lay yard to ", "", "", "does not lead",
		},
		{
			"lay shorter than the crow flies", func(s *Site) { *s.Lays[0].Length = unit.Feet(20) },
			"lay_too_short", network.Warning, "lay yard to co1", "20 ft", "43 ft or more", "shorter",
		},
		{
			"area of two corners", func(s *Site) { s.Areas[1].Outline = s.Areas[1].Outline[:2] },
			"area_too_few_corners", network.Error, "Fire lane", "2", "3 or more", "too few corners",
		},
		{
			"area of a hand's breadth", func(s *Site) {
				s.Areas[2].Outline = []network.Point{{X: 30}, {X: 30.1}, {X: 30, Y: 0.1}}
			},
			"area_without_ground", network.Error, "walkway a3", "0 sq ft", "", "encloses no ground",
		},
		{
			"area that is a line", func(s *Site) {
				s.Areas[2].Outline = []network.Point{{X: 30}, {X: 33}, {X: 40}}
			},
			"area_crosses_itself", network.Error, "walkway a3", "108 ft east, 0 ft north", "", "crosses or touches itself",
		},
		{
			"area like a bow tie", func(s *Site) {
				o := s.Areas[2].Outline
				o[1].X, o[2], o[3] = 36, o[3], o[2]
			},
			"area_crosses_itself", network.Error, "walkway a3", "105 ft east, 20 ft north", "", "crosses or touches itself",
		},
		{
			"spot in the fire lane", func(s *Site) { s.Spots[0].At = network.Point{X: -5, Y: 0} },
			"spot_in_the_way", network.Warning, "Yard", "", "", "in keep-clear area Fire lane, and a plan may use it all the same",
		},
		{
			"spot off the lot", func(s *Site) { s.Spots[0].At = network.Point{X: 5, Y: -7} },
			"spot_outside", network.Warning, "Yard", "", "", "outside every area where the trailer may stand, and a plan may use it all the same",
		},
		{
			"hose over the walkway", func(s *Site) {
				s.Areas[2].Outline = []network.Point{{X: 5, Y: -8}, {X: 12, Y: -8}, {X: 12, Y: -7}, {X: 5, Y: -7}}
			},
			"lay_across_area", network.Advice, "walkway a3", "1 lay", "", "lies across it",
		},
		{
			"supply hose over the fire lane", func(s *Site) { s.Areas[1].Outline[0].Y = -22; s.Areas[1].Outline[1].Y = -22 },
			"lay_across_area", network.Advice, "keep-clear area Fire lane", "1 lay", "", "lies across it",
		},
		{
			"kept run without its spot", func(s *Site) { s.ByHand.Keep[0].Spot = "moon" },
			"by_hand_gone", network.Advice, "run from roof vent vent to pipe p3", `spot "moon"`, "", "A run kept by hand no longer exists.",
		},
		{
			"barred run without its hose", func(s *Site) { s.ByHand.Bar[0].Hose = "thin" },
			"by_hand_gone", network.Advice, "run from roof vent vent to pipe p6", `hose "thin"`, "", "A run barred by hand no longer exists.",
		},
		{
			"ordered run from a bend, to nowhere", func(s *Site) { s.ByHand.Order[1].Access, s.ByHand.Order[1].End = "b1", "p9" },
			"by_hand_gone", network.Advice, "run from access b1 to pipe p9", `access "b1", pipe "p9"`, "", "A run ordered by hand no longer exists.",
		},
		{
			"run both kept and barred", func(s *Site) { s.ByHand.Bar[0] = s.ByHand.Keep[0] },
			"by_hand_both", network.Warning, "run from roof vent vent to pipe p3", "", "", "both kept and barred",
		},
		{
			"pipe of a visit that was taken away", func(s *Site) { s.Visits[0].Runs[0].Pipes[0].Pipe = "p9" },
			"visit_pipe_gone", network.Advice, "visit of 2025-09-02", `pipe "p9"`, "", "no longer on the drawing",
		},
		{
			"more pipes gone than are named", func(s *Site) {
				for i := range 7 {
					s.Visits[0].Runs[0].Pipes = append(s.Visits[0].Runs[0].Pipes, PipeResult{Pipe: network.PipeID(fmt.Sprint("q", i))})
				}
			},
			"visit_pipe_gone", network.Advice, "visit of 2025-09-02", `pipe "q0", pipe "q1", pipe "q2", pipe "q3", pipe "q4" and 2 more`, "", "",
		},
		{
			"pipe larger than every rate", func(s *Site) { s.Network.Pipes[0].Size = 8 },
			"size_without_rate", network.Advice, "prices", "pipes of this size: 1", "rates up to 6 in", "no price for a length of pipe of 8 in",
		},
		{
			"no hoses", func(s *Site) { s.Rig.Hoses = nil },
			"rig_figure", network.Error, "rig", "none", "one or more", "hoses",
		},
		{
			"unloader above the rating", func(s *Site) { s.Rig.Pump.Unloader = unit.Psi(5000) },
			"rig_figure", network.Error, "rig", "5000 psi (345 bar)", "at most the rated 3990 psi (275 bar)", "pump.unloader",
		},
		{
			"no date", func(s *Site) { s.Job.Date = "" },
			"job_incomplete", network.Advice, "job", "", "", "no date",
		},
		{
			"no customer", func(s *Site) { s.Job.Customer = "" },
			"job_incomplete", network.Advice, "job", "", "", "no customer",
		},
		{
			"code of no table", func(s *Site) { s.Code = "mine" },
			"code_unknown", network.Warning, "job", `"mine"`, "one of ipc, local_chicago, local_philadelphia, upc", "not in the tables",
		},
		{
			"a pipe that runs uphill", func(s *Site) { s.Network.Nodes[0].Invert = nil; *s.Network.Pipes[1].Slope = -0.02 },
			"adverse_slope", network.Warning, "pipe p2", "", "", "",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := wholeSite(t)
			before, err := s.Findings()
			require.NoError(t, err)
			c.change(s)
			after, err := s.Findings()
			require.NoError(t, err)
			i := slices.IndexFunc(after, func(f network.Finding) bool {
				return f.Kind == c.kind && f.Place == c.place && !slices.Contains(before, f)
			})
			require.GreaterOrEqual(t, i, 0, "%+v", after)
			f := after[i]
			assert.Equal(t, c.gravity, f.Gravity)
			if c.value != "" {
				assert.Equal(t, c.value, f.Value)
				assert.Equal(t, c.limit, f.Limit)
			}
			assert.Contains(t, f.What, c.what)
			assert.NotEmpty(t, f.Cure)
		})
	}
}

func TestFindingsStandWorstFirst(t *testing.T) {
	s := wholeSite(t)
	s.Job.Date, s.Spots[0].Uneven = "", true
	all, err := s.Findings()
	require.NoError(t, err)
	rank := map[network.Gravity]int{network.Error: 0, network.Warning: 1, network.Advice: 2}
	assert.True(t, slices.IsSortedFunc(all, func(a, b network.Finding) int { return rank[a.Gravity] - rank[b.Gravity] }))
	again, err := s.Findings()
	require.NoError(t, err)
	assert.Equal(t, all, again)
}

// TestNewSiteHasLittleToSay asks that an empty document complains of what is
// missing and of nothing that the program itself put in.
func TestNewSiteHasLittleToSay(t *testing.T) {
	for _, units := range []unit.System{unit.US, unit.Metric} {
		s, err := New(units)
		require.NoError(t, err)
		all, err := s.Findings()
		require.NoError(t, err)
		for _, f := range all {
			assert.Contains(t, []string{"no_spot", "job_incomplete", "no_outlet", "empty"}, f.Kind, "%+v", f)
		}
	}
}
