package audit_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/route/audit"
	"linemap/internal/site"
)

// Runs of the yard by hand: one that its plan has, one that it could have, one
// that breaks a rule (CO3 faces upstream), and one that is none.
var (
	ownRun   = site.RunKey{Spot: "A", Hose: "large", Access: "MH1", End: "p2"}
	otherRun = site.RunKey{Spot: "A", Hose: "large", Access: "MH1", End: "p1"}
	wrongRun = site.RunKey{Spot: "B", Hose: "large", Access: "CO3", End: "p5", Downstream: true}
	gonePipe = site.RunKey{Spot: "A", Hose: "large", Access: "MH1", End: "p99"}
	noWay    = site.RunKey{Spot: "A", Hose: "large", Access: "CO3", End: "p1"}
)

// byHandYard is the yard with decisions that leave its plan as it is.
func byHandYard() (*site.Site, *route.Plan) {
	s, p := yard(), yardPlan()
	s.ByHand = site.ByHand{Keep: []site.RunKey{ownRun, gonePipe}, Bar: []site.RunKey{otherRun, wrongRun, noWay}}
	p.ByHand = &route.HandReport{
		Free: p.Cost, Unknown: []site.RunKey{gonePipe, noWay},
		Broken: []route.Breach{{Key: wrongRun, What: route.FacesAway}},
	}
	return s, p
}

// orderedYard is the yard with the runs of its plan in their order, and two
// decisions that the order does not heed.
func orderedYard() (*site.Site, *route.Plan) {
	s, p := yard(), yardPlan()
	s.ByHand = site.ByHand{
		Keep: []site.RunKey{{Spot: "A", Hose: "large", Access: "CO3", End: "p9"}, noWay}, Bar: []site.RunKey{wrongRun},
		Order: append(p.Keys(), wrongRun, otherRun),
	}
	p.ByHand = &route.HandReport{
		Free: p.Cost, Unknown: []site.RunKey{noWay},
		Broken: []route.Breach{
			{Key: s.ByHand.Keep[0], What: route.KeptLeftOut},
			{Key: wrongRun, What: route.OrderedBarred},
			{Key: otherRun, What: route.NothingLeft},
		},
	}
	return s, p
}

func TestDecisionsThatAreHeededPass(t *testing.T) {
	s, p := byHandYard()
	audit.Require(t, s, yardTables(), p)
	s, p = orderedYard()
	audit.Require(t, s, yardTables(), p)
}

// breach tells one more breach.
func breach(p *route.Plan, b route.Breach) { p.ByHand.Broken = append(p.ByHand.Broken, b) }

// Every case spoils the plan, or changes what was decided so that the plan no
// longer heeds it, and must be caught as that.
func TestDecisionsThatAreNotHeededAreCaught(t *testing.T) {
	type spoil = func(s *site.Site, p *route.Plan)
	keptRule := func(f func(r *route.Shortfall)) spoil {
		return func(s *site.Site, p *route.Plan) {
			// A small hose in the main: too small for pipe 1 of 4 in.
			key := ownRun
			key.Hose = "small"
			r := &route.Shortfall{
				Pipe: "p2", Size: 4, Length: 10, Reason: route.HoseTooSmall,
				Hose: "small", Access: "MH1", AtPipe: "p1",
			}
			f(r)
			s.ByHand.Keep = append(s.ByHand.Keep, key)
			breach(p, route.Breach{Key: key, What: route.BreaksRule, Rule: r})
		}
	}
	s, p := byHandYard()
	keptRule(func(*route.Shortfall) {})(s, p)
	audit.Require(t, s, yardTables(), p)

	told := func(what route.BreachKind) spoil {
		return func(_ *site.Site, p *route.Plan) { breach(p, route.Breach{Key: otherRun, What: what}) }
	}
	single := map[string]spoil{
		"no report":           func(_ *site.Site, p *route.Plan) { p.ByHand = nil },
		"report of nothing":   func(s *site.Site, _ *route.Plan) { s.ByHand = site.ByHand{} },
		"barred run made":     func(s *site.Site, _ *route.Plan) { s.ByHand.Bar[0] = ownRun; s.ByHand.Keep = s.ByHand.Keep[1:] },
		"kept run not made":   func(s *site.Site, _ *route.Plan) { s.ByHand.Keep[0] = otherRun },
		"kept from elsewhere": func(s *site.Site, _ *route.Plan) { s.ByHand.Keep[0].Spot = "B" },
		"kept the other way":  func(s *site.Site, _ *route.Plan) { s.ByHand.Keep[0].Downstream = true },
		"more than it costs":  func(_ *site.Site, p *route.Plan) { p.ByHand.More = route.Tick },
		"cheaper than the best": func(_ *site.Site, p *route.Plan) {
			p.ByHand.Free += p.Cost
			p.ByHand.More -= p.Cost
			p.ByHand.FreeProven = true
		},
		"free below nothing":    func(_ *site.Site, p *route.Plan) { p.ByHand.Free = -1; p.ByHand.More = p.Cost + 1 },
		"pipe left for nothing": func(_ *site.Site, p *route.Plan) { p.ByHand.Left = []network.PipeID{"p5"} },
		"gone run not told":     func(_ *site.Site, p *route.Plan) { p.ByHand.Unknown = p.ByHand.Unknown[1:] },
		"run told to be gone":   func(_ *site.Site, p *route.Plan) { p.ByHand.Unknown = append(p.ByHand.Unknown, otherRun) },
		"impossible bar untold": func(_ *site.Site, p *route.Plan) { p.ByHand.Broken = nil },
		"nothing decided of it": func(_ *site.Site, p *route.Plan) { p.ByHand.Broken[0].Key.Spot = "A" },
		"told twice":            func(_ *site.Site, p *route.Plan) { breach(p, p.ByHand.Broken[0]) },
		"spot can be used":      told(route.SpotUnfit),
		"access is in service":  told(route.AccessShut),
		"faces that way":        told(route.FacesAway),
		"is in the job":         told(route.NotInJob),
		"not kept and barred":   told(route.KeptAndBarred),
		"nothing kept in way":   told(route.InTheWay),
		"water lasts":           told(route.OutOfWater),
		"no order left it out":  told(route.KeptLeftOut),
		"no order to be barred": told(route.OrderedBarred),
		"no order, no end":      told(route.NothingLeft),
		"no rule told":          told(route.BreaksRule),
		"unknown breach":        told("bad luck"),
		"made, told not to be": func(s *site.Site, p *route.Plan) {
			breach(p, route.Breach{Key: ownRun, What: route.KeptAndBarred})
			s.ByHand.Bar = append(s.ByHand.Bar, ownRun)
		},
		"not in the way": func(s *site.Site, p *route.Plan) {
			s.ByHand.Keep = append(s.ByHand.Keep, runKey(p, 2))
			breach(p, route.Breach{Key: runKey(p, 2), What: route.InTheWay, Other: ownRun})
		},
		"in its own way": func(s *site.Site, p *route.Plan) {
			breach(p, route.Breach{Key: ownRun, What: route.InTheWay, Other: ownRun})
		},
		"goes over no gap": func(_ *site.Site, p *route.Plan) {
			breach(p, route.Breach{Key: otherRun, What: route.OverUncleaned, Pipe: "p1"})
		},
		"pipe that belongs to another breach": func(_ *site.Site, p *route.Plan) { p.ByHand.Broken[0].Pipe = "p5" },
		"run that belongs to another breach":  func(_ *site.Site, p *route.Plan) { p.ByHand.Broken[0].Other = ownRun },
		"rule of another pipe":                keptRule(func(r *route.Shortfall) { r.Pipe = "p1" }),
		"rule of another size":                keptRule(func(r *route.Shortfall) { r.Size = 6 }),
		"rule of another length":              keptRule(func(r *route.Shortfall) { r.Length = 11 }),
		"rule of another hose":                keptRule(func(r *route.Shortfall) { r.Hose = "large" }),
		"rule with a cure":                    keptRule(func(r *route.Shortfall) { r.Cure.Kind = route.SmallerHose }),
		"rule that lacks water":               keptRule(func(r *route.Shortfall) { r.Reason, r.ByWater = route.NoWater, 0 }),
	}
	for name, spoil := range single {
		t.Run(name, func(t *testing.T) {
			s, p := byHandYard()
			spoil(s, p)
			problems := audit.Check(s, yardTables(), p)
			require.NotEmpty(t, problems)
			if name == "rule that lacks water" {
				assertBreaks(t, audit.RuleShortfall, problems)
			} else {
				assertBreaks(t, audit.RuleHand, problems)
			}
		})
	}
	swap := func(keys []site.RunKey, i, j int) { keys[i], keys[j] = keys[j], keys[i] }
	ordered := map[string]spoil{
		"other order":             func(s *site.Site, _ *route.Plan) { swap(s.ByHand.Order, 2, 3) },
		"last first":              func(s *site.Site, _ *route.Plan) { swap(s.ByHand.Order, 0, 4) },
		"run not in the order":    func(s *site.Site, _ *route.Plan) { s.ByHand.Order = slices.Delete(s.ByHand.Order, 4, 5) },
		"first not in the order":  func(s *site.Site, _ *route.Plan) { s.ByHand.Order = s.ByHand.Order[1:] },
		"run not made":            func(s *site.Site, p *route.Plan) { p.ByHand.Broken = p.ByHand.Broken[:2] },
		"from another spot":       func(s *site.Site, _ *route.Plan) { s.ByHand.Order[1].Spot = "B" },
		"to another end":          func(s *site.Site, _ *route.Plan) { s.ByHand.Order[1].End = "p1" },
		"barred and untold":       func(_ *site.Site, p *route.Plan) { p.ByHand.Broken = slices.Delete(p.ByHand.Broken, 1, 2) },
		"told to be barred":       func(s *site.Site, _ *route.Plan) { s.ByHand.Bar = nil },
		"kept, left out, untold":  func(_ *site.Site, p *route.Plan) { p.ByHand.Broken = p.ByHand.Broken[1:] },
		"something left to clean": func(_ *site.Site, p *route.Plan) { breach(p, route.Breach{Key: runKey(p, 2), What: route.NothingLeft}) },
		"water lasts":             func(_ *site.Site, p *route.Plan) { breach(p, route.Breach{Key: runKey(p, 5), What: route.OutOfWater}) },
		"not cut short": func(_ *site.Site, p *route.Plan) {
			breach(p, route.Breach{Key: ownRun, What: route.CutShort, Pipe: "p1"})
		},
		"clean below": func(_ *site.Site, p *route.Plan) {
			breach(p, route.Breach{Key: runKey(p, 2), What: route.NotLowestFirst, Pipe: "p1"})
		},
		"no pipe below":            func(_ *site.Site, p *route.Plan) { breach(p, route.Breach{Key: ownRun, What: route.NotLowestFirst}) },
		"breaks no rule":           func(_ *site.Site, p *route.Plan) { breach(p, noRule(runKey(p, 5))) },
		"in the way of its order":  func(_ *site.Site, p *route.Plan) { breach(p, route.Breach{Key: ownRun, What: route.InTheWay}) },
		"lowest first, and untold": func(s *site.Site, p *route.Plan) { swapRuns(s, p) },
	}
	for name, spoil := range ordered {
		t.Run(name, func(t *testing.T) {
			s, p := orderedYard()
			spoil(s, p)
			assertBreaks(t, audit.RuleHand, audit.Check(s, yardTables(), p))
		})
	}
}

func runKey(p *route.Plan, number int) site.RunKey { return p.Keys()[number-1] }

// noRule tells a rule that no run breaks.
func noRule(key site.RunKey) route.Breach {
	return route.Breach{Key: key, What: route.BreaksRule, Rule: &route.Shortfall{
		Pipe: key.End, Size: 2, Length: 4, Reason: route.NoNozzle, Hose: key.Hose, Access: key.Access,
	}}
}

// swapRuns makes the branch before the main, in the order and in the plan.
func swapRuns(s *site.Site, p *route.Plan) {
	o, r := s.ByHand.Order, p.Blocks[0].Runs
	o[0], o[1], r[0], r[1] = o[1], o[0], r[1], r[0]
}

// A pipe that decisions keep from being cleaned is told with the decision.
func TestGapsByHandThatAreNoneAreCaught(t *testing.T) {
	gap := func(s *site.Site, p *route.Plan, f route.Shortfall) {
		p.Shortfalls[0] = f // of p5, which no run can clean
		p.ByHand.Left = []network.PipeID{f.Pipe}
	}
	barred := route.Shortfall{
		Pipe: "p5", Size: 4, Length: 5, Reason: route.BarredByHand,
		Cure: route.Cure{Kind: route.FreeRun, Run: otherRun},
	}
	t.Run("cannot be cleaned anyway", func(t *testing.T) {
		s, p := byHandYard()
		gap(s, p, barred)
		assertBreaks(t, audit.RuleHand, audit.Check(s, yardTables(), p))
	})
	t.Run("left out of no order", func(t *testing.T) {
		s, p := byHandYard()
		f := barred
		f.Reason, f.Cure = route.LeftOut, route.Cure{Kind: route.OwnOrder}
		gap(s, p, f)
		assertBreaks(t, audit.RuleHand, audit.Check(s, yardTables(), p))
	})
	t.Run("can be cleaned all the same", func(t *testing.T) {
		s, p := byHandYard()
		p.Blocks[1].Runs = p.Blocks[1].Runs[:1]
		p.Shortfalls = append(p.Shortfalls, route.Shortfall{
			Pipe: "p9", Size: 4, Length: 6, Reason: route.BarredByHand,
			Cure: route.Cure{Kind: route.FreeRun, Run: otherRun},
		})
		p.ByHand.Left = []network.PipeID{"p9"}
		assertBreaks(t, audit.RuleHand, audit.Check(s, yardTables(), p))
	})
	t.Run("a run that was not barred", func(t *testing.T) {
		s, p := byHandYard()
		f := barred
		f.Cure.Run = ownRun
		gap(s, p, f)
		assertBreaks(t, audit.RuleCure, audit.Check(s, yardTables(), p))
	})
	t.Run("a run that another cure names", func(t *testing.T) {
		s, p := byHandYard()
		p.Shortfalls[0].Cure.Run = otherRun
		assertBreaks(t, audit.RuleCure, audit.Check(s, yardTables(), p))
	})
}
