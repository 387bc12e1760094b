package audit_test

import (
	"testing"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/route/audit"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// Every case changes one thing about the yard, so that its plan does not fit
// any more, and names a rule that must tell.
var changes = []struct {
	name   string
	rule   string
	change func(s *site.Site)
}{
	{"access buried", audit.RuleAccess, func(s *site.Site) { node(s, "MH1").Access.OutOfService = true }},
	{"access faces the other way", audit.RuleAccess, func(s *site.Site) { node(s, "CO3").Access.Facing = network.FacesDownstream }},
	{"opening too small for the hose", audit.RuleAccess, func(s *site.Site) { node(s, "PF1").Access.Size = 3 }},
	{"opening too small for the nozzle", audit.RuleSize, func(s *site.Site) {
		node(s, "PF1").Access.Size = 3
		s.Rig.Hoses[0].MinPipe = 3
	}},
	{"access is none", audit.RuleAccess, func(s *site.Site) {
		n := node(s, "MH1")
		n.Kind, n.Access = network.KindOutlet, nil
	}},
	{"deeper riser", audit.RuleReadings, func(s *site.Site) { node(s, "MH1").Access.Riser = 2 }},
	{"flow turned round", audit.RulePath, func(s *site.Site) {
		node(s, "OUT3").Kind, node(s, "F4").Kind = network.KindFixture, network.KindOutlet
	}},
	{"wye is a sanitary tee", audit.RuleTurn, func(s *site.Site) { node(s, "W1").Junction.Kind = network.SanitaryTee }},
	{"wye is a combination", audit.RuleBends, func(s *site.Site) { node(s, "W1").Junction.Kind = network.Combination }},
	{"branch is the other leg", audit.RuleBends, func(s *site.Site) { node(s, "W1").Junction.Branches[0] = "p2" }},
	{"hose turns less sharply", audit.RuleTurn, func(s *site.Site) { s.Rig.Hoses[0].Sharpest = unit.Degrees(80) }},
	{"hose bends less", audit.RuleBends, func(s *site.Site) { s.Rig.Hoses[0].Bends = 1.4 }},
	{"hose is shorter", audit.RuleReel, func(s *site.Site) { s.Rig.Hoses[0].Length = 48.9 }},
	{"more reserve", audit.RuleReel, func(s *site.Site) { s.Rig.Hoses[1].Reserve = 4 }},
	{"pipe is larger", audit.RuleSize, func(s *site.Site) { pipe(s, "p2").Size = 10 }},
	{"pipe is longer", audit.RuleReadings, func(s *site.Site) { *pipe(s, "p1").Length = 21 }},
	{"corner is drawn elsewhere", audit.RuleFittings, func(s *site.Site) { pipe(s, "p4").Via[0].Y = 4 }},
	{"corner is drawn slack", audit.RuleFittings, func(s *site.Site) { pipe(s, "p4").Via[0].X = 60.5 }},
	{"spot is farther", audit.RuleReadings, func(s *site.Site) { s.Spots[0].At.Y = -16 }},
	{"spot in traffic", audit.RuleBlocks, func(s *site.Site) { s.Spots[1].Traffic = site.LiveTraffic }},
	{"heavy deposit", audit.RuleStrokes, func(s *site.Site) { pipe(s, "p2").Severity = network.Heavy }},
	{"other deposit", audit.RulePasses, func(s *site.Site) { pipe(s, "p2").Deposit = network.Roots }},
	{"deposit without a row", audit.RuleTables, func(s *site.Site) { pipe(s, "p2").Deposit = network.Ice }},
	{"material without a row", audit.RuleTables, func(s *site.Site) { pipe(s, "p2").Material = network.Clay }},
	{"pipe is not in the job", audit.RuleCoverage, func(s *site.Site) { pipe(s, "p2").OutOfJob = true }},
	{"pipe is in the job", audit.RuleCoverage, func(s *site.Site) { pipe(s, "p8").OutOfJob = false }},
	{"ceiling is felt", audit.RuleOperating, func(s *site.Site) { *pipe(s, "p2").Ceiling = unit.Bar(60) }},
	{"pump gives less", audit.RuleOperating, func(s *site.Site) { s.Rig.Pump.Flow *= 0.9 }},
	{"climbs steeply", audit.RulePull, func(s *site.Site) { pipe(s, "p1").Slope = slope(0.7) }},
	{"climbs a stack", audit.RuleFlags, func(s *site.Site) { pipe(s, "p1").Slope = slope(0.72) }},
	{"falls the other way", audit.RulePull, func(s *site.Site) { pipe(s, "p1").Slope = slope(-0.02) }},
	{"inverts tell the fall", audit.RulePull, func(s *site.Site) {
		low := unit.Metres(0.5) // one metre and a half over the manhole's
		node(s, "W1").Invert = &low
	}},
	{"heavy hose does not get there", audit.RulePull, func(s *site.Site) { s.Rig.Hoses[0].Mass = 5 }},
	{"better nozzle on board", audit.RuleNozzle, func(s *site.Site) {
		n := s.Rig.Nozzles[0]
		n.ID, n.Orifices = "champion", []rig.Orifice{{Count: 6, Diameter: unit.Millimetres(0.95), Angle: unit.Degrees(15), Facing: rig.Rear}}
		s.Rig.Nozzles = append(s.Rig.Nozzles, n)
	}},
	{"equal nozzle before it", audit.RuleNozzle, func(s *site.Site) {
		n := s.Rig.Nozzles[0]
		n.ID = "twin"
		s.Rig.Nozzles = append([]rig.Nozzle{n}, s.Rig.Nozzles...)
	}},
	{"crew is slower", audit.RuleMinutes, func(s *site.Site) { s.Rig.Crew.Travel /= 2 }},
	{"downstream work is slower", audit.RuleMinutes, func(s *site.Site) { s.Rig.Crew.Downstream = 1 }},
	{"set-up is longer", audit.RuleDay, func(s *site.Site) { s.Rig.Crew.SetUp++ }},
	{"hose is dragged slower", audit.RuleDay, func(s *site.Site) { s.Rig.Crew.Lay /= 2 }},
	{"arrives empty", audit.RuleTank, func(s *site.Site) { s.Rig.Tank.ArrivesFull = false }},
	{"tank is smaller", audit.RuleWater, func(s *site.Site) { s.Rig.Tank.Volume = unit.Litres(290) }},
	{"start level is higher", audit.RuleTank, func(s *site.Site) { s.Rig.Tank.Start = unit.Litres(410) }},
	{"stop level is higher", audit.RuleTank, func(s *site.Site) { s.Rig.Tank.Stop = unit.Litres(340) }},
	{"water runs slower", audit.RuleTank, func(s *site.Site) { s.Water[0].Flow /= 2 }},
	{"fill lets less in", audit.RuleTank, func(s *site.Site) { s.Rig.Supply.MaxFlow = unit.LitresPerMinute(10) }},
	{"drains slower", audit.RuleTowing, func(s *site.Site) { s.Rig.Tank.Drain /= 2 }},
	{"given up pipe can be reached", audit.RuleShortfall, func(s *site.Site) { node(s, "CO3").Access.Kind = network.TwoWayCleanout }},
	{"given up pipe can be reached through the trap", audit.RuleShortfall, func(s *site.Site) {
		node(s, "TR1").LetsThrough = true
		n := node(s, "OUT2")
		n.Kind, n.Access = network.KindAccess, &network.Access{Kind: network.Manhole, Size: 6}
	}},
}

func node(s *site.Site, id network.NodeID) *network.Node {
	return find(s.Network.Nodes, func(n *network.Node) bool { return n.ID == id })
}

func pipe(s *site.Site, id network.PipeID) *network.Pipe {
	return find(s.Network.Pipes, func(p *network.Pipe) bool { return p.ID == id })
}

func slope(v unit.Slope) *unit.Slope { return &v }

func TestChangesOfTheSiteAreCaught(t *testing.T) {
	for _, c := range changes {
		t.Run(c.name, func(t *testing.T) {
			s := yard()
			c.change(s)
			assertBreaks(t, c.rule, audit.Check(s, yardTables(), yardPlan()))
		})
	}
}
