package route_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/route/audit"
	"linemap/internal/route/sample"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// line is a straight line of three pipes, a cleanout at each joint, with runs
// of it by hand.
func line() *site.Site {
	s := sample.Sketch("OUT -10ft/4in/out- CO1 -60ft/id=p1- CO2 -60ft/id=p2- CO3 -60ft/id=p3- CAP1", [2]float64{10, 5}, [2]float64{130, 5})
	only(s, "half")
	for i := range s.Network.Nodes {
		s.Network.Nodes[i].Label = string(s.Network.Nodes[i].ID)
	}
	for i := range s.Network.Pipes {
		s.Network.Pipes[i].Label = string(s.Network.Pipes[i].ID)
	}
	return s
}

func up(access network.NodeID, end network.PipeID) site.RunKey {
	return site.RunKey{Spot: "s1", Hose: "half", Access: access, End: end}
}

func down(access network.NodeID, end network.PipeID) site.RunKey {
	return site.RunKey{Spot: "s1", Hose: "half", Access: access, End: end, Downstream: true}
}

// The own plan of the line is one run up from CO1.
func TestOwnPlanOfTheLine(t *testing.T) {
	require.Equal(t, []site.RunKey{up("CO1", "p3")}, solve(t, line()).Keys())
}

// A barred run is not made; where no other cleans a pipe, the pipe says so, and
// its cure helps.
func TestBarredByHand(t *testing.T) {
	s := line()
	s.ByHand.Bar = []site.RunKey{up("CO1", "p3")}
	p := solve(t, s)
	assert.NotContains(t, p.Keys(), up("CO1", "p3"))
	assert.Empty(t, p.Shortfalls)
	assert.Positive(t, p.ByHand.More)
	assert.Regexp(t, `^Made by hand: \d+ min more than the planner's own plan\.$`, p.ByHand.Line())

	s = line()
	s.Network.Nodes[2].Access.OutOfService = true // CO2
	s.Network.Nodes[3].Access.OutOfService = true // CO3
	for _, spot := range []site.SpotID{"s1", "s2"} {
		key := up("CO1", "p3")
		key.Spot = spot
		s.ByHand.Bar = append(s.ByHand.Bar, key)
	}
	p = solve(t, s)
	short := shortOf(t, p, "p3")
	assert.Equal(t, route.BarredByHand, short.Reason)
	assert.Equal(t, "every run that could clean it is barred by hand", short.Why(unit.US))
	assert.Equal(t, "leave the run from CO1 to p3, 1/2 in hose from Spot 1 to the planner again", short.Cure.Say(unit.US))
	assert.Equal(t, []network.PipeID{"p3"}, p.ByHand.Left)
	assert.Contains(t, p.ByHand.Line(), "1 pipe fewer cleaned")
	require.Equal(t, s.ByHand.Bar[0], short.Cure.Run)
	s.ByHand.Bar = s.ByHand.Bar[1:]
	assert.Empty(t, solve(t, s).Shortfalls)
}

// A kept run is made, and the rest about it as well as can be.
func TestKeptByHand(t *testing.T) {
	s := line()
	s.ByHand.Keep = []site.RunKey{down("CO3", "p2")}
	p := solve(t, s)
	assert.ElementsMatch(t, []site.RunKey{up("CO1", "p1"), down("CO3", "p2"), up("CO3", "p3")}, p.Keys())
	assert.True(t, p.Proven)
	assert.Empty(t, p.ByHand.Broken)
}

// A run kept by hand can leave no run for another pipe: here the only other way
// to clean p3 takes p1 with it.
func TestKeptLeavesAPipe(t *testing.T) {
	s := sample.Sketch("OUT -60ft/4in/id=p1- W1 -30ft/id=p2- CO1(down) ; W1 ~30ft/id=p3- CO2(down)", [2]float64{90, 10})
	only(s, "half")
	s.ByHand = site.ByHand{Keep: []site.RunKey{down("CO1", "p1")}, Bar: []site.RunKey{down("CO2", "p3")}}
	p := solve(t, s)
	short := shortOf(t, p, "p3")
	assert.Equal(t, route.KeptByHand, short.Reason)
	assert.Equal(t, "the runs kept by hand leave no run that could clean it", short.Why(unit.US))
	require.Equal(t, s.ByHand.Keep[0], short.Cure.Run)
	s.ByHand.Keep = nil
	p = solve(t, s)
	assert.Empty(t, p.Shortfalls)
	assert.Contains(t, p.Keys(), down("CO2", "p1"))
}

// What cannot be heeded is told in plain words, and the rest is planned without
// it.
func TestDecisionsNotHeeded(t *testing.T) {
	uneven := site.Spot{ID: "s3", Label: "Slope", At: network.Point{}, Uneven: true}
	gone, long, slope := up("CO1", "p9"), up("CO1", "p3"), up("CO1", "p1")
	slope.Spot = "s3"
	for _, c := range []struct {
		name   string
		change func(s *site.Site)
		keep   []site.RunKey
		bar    []site.RunKey
		say    string
	}{
		{
			"gone", func(*site.Site) {},
			[]site.RunKey{gone},
			nil,
			"The run from CO1 to pipe p9, 1/2 in hose from Spot 1 stands for none: something that it names is gone, or no way leads there.",
		},
		{"no way", func(*site.Site) {}, []site.RunKey{up("CO2", "p1")}, nil, "or no way leads there."},
		{
			"too far", func(s *site.Site) { s.Rig.Hoses[0].Length = unit.Feet(150) },
			[]site.RunKey{long},
			nil,
			"The run from CO1 to p3, 1/2 in hose from Spot 1 cannot be made: over the reel length by 45 ft.",
		},
		{"too far, barred", func(s *site.Site) { s.Rig.Hoses[0].Length = unit.Feet(150) }, nil, []site.RunKey{long}, "over the reel length"},
		{"spot", func(s *site.Site) { s.Spots = append(s.Spots, uneven) }, []site.RunKey{slope}, nil, "the trailer cannot stand at Slope."},
		{"access", func(s *site.Site) { s.Network.Nodes[1].Access.OutOfService = true }, []site.RunKey{up("CO1", "p1")}, nil, "CO1 is out of service."},
		{"facing", func(s *site.Site) {
			a := s.Network.Nodes[1].Access
			a.Kind, a.Facing = network.OneWayCleanout, network.FacesDownstream
		}, []site.RunKey{up("CO1", "p1")}, nil, "CO1 faces the other way."},
		{"out of job", func(s *site.Site) { s.Network.Pipes[1].OutOfJob = true }, []site.RunKey{up("CO1", "p1")}, nil, "p1 is not in the job."},
		{"kept and barred", func(*site.Site) {}, []site.RunKey{long}, []site.RunKey{long}, "is both kept and barred, so it is not made."},
		{
			"one end twice", func(*site.Site) {},
			[]site.RunKey{down("CO3", "p2"), up("CO1", "p2")},
			nil,
			"The run from CO1 to p2, 1/2 in hose from Spot 1 cannot be made beside the downstream run from CO3 to p2, 1/2 in hose from Spot 1.",
		},
		{"through the other's end", func(*site.Site) {}, []site.RunKey{up("CO1", "p2"), down("CO3", "p1")}, nil, "cannot be made beside the run from CO1 to p2"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := line()
			c.change(s)
			s.ByHand = site.ByHand{}
			own := solve(t, s)
			s.ByHand = site.ByHand{Keep: c.keep, Bar: c.bar}
			p := solve(t, s)
			said := p.ByHand.Say(s)
			require.Len(t, said, 2)
			assert.Contains(t, said[1], c.say)
			assert.Contains(t, said[0], "1 decision not heeded")
			if len(c.keep) == 1 && len(c.bar) == 0 {
				assert.Equal(t, own.Blocks, p.Blocks)
			}
		})
	}
}

// The order made by hand is kept to, and told where it breaks a rule.
func TestOrderedByHand(t *testing.T) {
	s := line()
	s.ByHand.Order = []site.RunKey{up("CO3", "p3"), up("CO1", "p3"), up("CO2", "p2")}
	p := solve(t, s)
	// The second run finds its last pipe clean, and the third all of it.
	assert.Equal(t, []site.RunKey{up("CO3", "p3"), up("CO1", "p2")}, p.Keys())
	assert.Equal(t, []string{
		"The run from CO3 to p3, 1/2 in hose from Spot 1 is made before p2 below it is clean, against the rule of lowest first.",
		"The run from CO1 to p3, 1/2 in hose from Spot 1 ends at p2: what lies beyond is clean by then.",
		"The run from CO2 to p2, 1/2 in hose from Spot 1 is left out: all of its pipe is clean by then.",
	}, p.ByHand.Say(s)[1:])
	assert.NotEmpty(t, flagsOf(p.Runs()[0], route.FlagEarly))

	s.ByHand.Order = []site.RunKey{up("CO1", "p1")}
	p = solve(t, s)
	short := shortOf(t, p, "p3")
	assert.Equal(t, route.LeftOut, short.Reason)
	assert.Equal(t, "left out of the order made by hand", short.Why(unit.US))
	assert.Equal(t, "add a run for it to the order, or let the planner order the runs", short.Cure.Say(unit.US))
	assert.True(t, p.Proven)
	assert.Negative(t, p.ByHand.More)
	assert.Contains(t, p.ByHand.Line(), "less than the planner's own plan, and 2 pipes fewer cleaned")
}

// A cancelled search heeds the decisions all the same.
func TestCancelledByHand(t *testing.T) {
	s := sample.Large(1, 100, 4)
	own := solve(t, s)
	s.ByHand = site.ByHand{Bar: own.Keys()[:2], Keep: own.Keys()[2:6]}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	p, err := route.Solve(ctx, s, sample.Tables(), route.Options{})
	require.NoError(t, err)
	require.True(t, p.Stopped)
	audit.Require(t, s, sample.Tables(), p)
}

// A run that is made against a rule is heeded all the same.
func TestPassedOver(t *testing.T) {
	h := &route.HandReport{
		Unknown: []site.RunKey{{}},
		Broken:  []route.Breach{{What: route.CutShort}, {What: route.SpotUnfit}, {What: route.NotLowestFirst}},
	}
	assert.Equal(t, 2, h.PassedOver())
	assert.Contains(t, h.Line(), "; 2 runs not as the rules ask; 2 decisions not heeded.")
}
