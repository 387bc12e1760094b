package audit_test

import (
	"math"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/route"
	"linemap/internal/route/audit"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// Every case spoils one thing in the good plan of the yard and names the rule
// that must catch it.
var corruptions = []struct {
	name  string
	rule  string
	spoil func(p *route.Plan)
}{
	// Names.
	{"unknown spot", audit.RulePlan, func(p *route.Plan) { p.Blocks[0].Spot = "Z" }},
	{"unknown hose", audit.RulePlan, func(p *route.Plan) { p.Blocks[0].Hose = "rope" }},
	{"unknown access", audit.RulePlan, func(p *route.Plan) { runOf(p, 1).Access = "MH9" }},
	{"unknown pipe", audit.RulePlan, func(p *route.Plan) { runOf(p, 1).Path[1].Pipe = "p99" }},
	{"unknown nozzle", audit.RulePlan, func(p *route.Plan) { runOf(p, 1).Passes[0].Nozzle = "spoon" }},
	{"unknown direction", audit.RulePlan, func(p *route.Plan) { runOf(p, 1).Direction = "sideways" }},
	{"no path", audit.RulePlan, func(p *route.Plan) { runOf(p, 1).Path = nil }},

	// Coverage and order.
	{"target left out", audit.RuleCoverage, func(p *route.Plan) { p.Shortfalls = nil }},
	{"target explained twice", audit.RuleCoverage, func(p *route.Plan) { p.Shortfalls = append(p.Shortfalls, p.Shortfalls[0]) }},
	{"cleaned and explained", audit.RuleCoverage, func(p *route.Plan) { p.Shortfalls[0].Pipe = "p9" }},
	{"cleaned twice", audit.RuleCoverage, func(p *route.Plan) { runOf(p, 2).Path[0].Cleaned = true }},
	{"shortfall out of the job", audit.RuleCoverage, func(p *route.Plan) {
		p.Shortfalls = append(p.Shortfalls, route.Shortfall{Pipe: "p6", Size: 4, Length: 3})
	}},
	{"shortfall of no pipe", audit.RuleCoverage, func(p *route.Plan) { p.Shortfalls[0].Pipe = "p99" }},
	{"branch before main", audit.RuleOrder, func(p *route.Plan) {
		runs := p.Blocks[0].Runs
		runs[0], runs[1] = runs[1], runs[0]
	}},
	{"left uncleaned on the way", audit.RuleOrder, func(p *route.Plan) { runOf(p, 1).Path[0].Cleaned = false }},
	{"goes on for nothing", audit.RuleOrder, func(p *route.Plan) { runOf(p, 1).Path[1].Cleaned = false }},
	{"downstream run leaves pipe", audit.RuleOrder, func(p *route.Plan) { runOf(p, 3).Path[0].Cleaned = false }},

	// Path.
	{"starts elsewhere", audit.RulePath, func(p *route.Plan) { runOf(p, 1).Access = "CO2" }},
	{"faces the other way", audit.RuleAccess, func(p *route.Plan) {
		r := runOf(p, 4)
		r.Direction, r.Path[0].Pipe = route.Downstream, "p5"
	}},
	{"turned about", audit.RulePath, func(p *route.Plan) { runOf(p, 1).Direction = route.Downstream }},
	{"legs do not join", audit.RulePath, func(p *route.Plan) { runOf(p, 1).Path[1].Pipe = "p9" }},
	{"through a trap", audit.RulePath, func(p *route.Plan) {
		r := runOf(p, 4)
		r.Direction = route.Downstream
		r.Path = []route.Leg{{Pipe: "p5"}, {Pipe: "p6"}}
	}},
	{"small hose in a large pipe", audit.RuleSize, func(p *route.Plan) { p.Blocks[1].Hose = "small" }},
	{"large hose in a small pipe", audit.RuleSize, func(p *route.Plan) { p.Blocks[2].Hose = "large" }},
	{"large hose in a small opening", audit.RuleAccess, func(p *route.Plan) { p.Blocks[2].Hose = "large" }},
	{"too far for the reel", audit.RuleReel, func(p *route.Plan) { p.Blocks[1].Spot = "A" }},
	{"bends miscounted", audit.RuleBends, func(p *route.Plan) { runOf(p, 2).Bends = 1 }},

	// Readings and fittings.
	{"lay", audit.RuleReadings, func(p *route.Plan) { runOf(p, 1).Lay += 0.1 }},
	{"entry", audit.RuleReadings, func(p *route.Plan) { runOf(p, 1).Entry -= 1 }},
	{"end", audit.RuleReadings, func(p *route.Plan) { runOf(p, 1).End = 47 }},
	{"leg's start", audit.RuleReadings, func(p *route.Plan) { runOf(p, 1).Path[1].From = 35 }},
	{"leg's end", audit.RuleReadings, func(p *route.Plan) { runOf(p, 1).Path[0].To = unit.Length(math.NaN()) }},
	{"fitting untold", audit.RuleFittings, func(p *route.Plan) { runOf(p, 1).Fittings = runOf(p, 1).Fittings[:1] }},
	{"fitting too many", audit.RuleFittings, func(p *route.Plan) {
		runOf(p, 1).Fittings = append(runOf(p, 1).Fittings, route.Fitting{At: 40, Pipe: "p2", What: "1/4 bend"})
	}},
	{"fitting misplaced", audit.RuleFittings, func(p *route.Plan) { runOf(p, 1).Fittings[1].At = 35.9 }},
	{"turn of a fitting", audit.RuleFittings, func(p *route.Plan) { runOf(p, 3).Fittings[0].Turn = unit.Degrees(45) }},
	{"side of a corner", audit.RuleFittings, func(p *route.Plan) { runOf(p, 3).Fittings[0].Side = "left" }},
	{"branch not to be confirmed", audit.RuleFittings, func(p *route.Plan) { runOf(p, 2).Fittings[1].Confirm = false }},
	{"fitting without a name", audit.RuleFittings, func(p *route.Plan) { runOf(p, 2).Fittings[1].What = "" }},

	// Passes.
	{"pass left out", audit.RulePasses, func(p *route.Plan) { runOf(p, 1).Passes = runOf(p, 1).Passes[:1] }},
	{"pass nobody asked for", audit.RulePasses, func(p *route.Plan) {
		r := runOf(p, 4)
		r.Passes = append(r.Passes, route.Pass{Kind: site.FinishPass, Nozzle: "flusher"})
	}},
	{"passes out of order", audit.RulePasses, func(p *route.Plan) {
		r := runOf(p, 1)
		r.Passes[0], r.Passes[1] = r.Passes[1], r.Passes[0]
	}},
	{"nozzle for nothing of the kind", audit.RuleNozzle, func(p *route.Plan) { runOf(p, 4).Passes[0].Nozzle = "cutter" }},
	{"second best nozzle", audit.RuleNozzle, func(p *route.Plan) { runOf(p, 3).Passes[1].Nozzle = "puller" }},
	{"nozzle too large", audit.RuleSize, func(p *route.Plan) { runOf(p, 5).Passes[0].Nozzle = "puller" }},
	{"pass turns too early", audit.RuleReadings, func(p *route.Plan) { runOf(p, 1).Passes[0].End = 36 }},
	{"flow", audit.RuleOperating, func(p *route.Plan) { runOf(p, 1).Passes[0].Flow *= 1.01 }},
	{"pump pressure", audit.RuleOperating, func(p *route.Plan) { runOf(p, 1).Passes[0].Pump *= 1.01 }},
	{"nozzle pressure", audit.RuleOperating, func(p *route.Plan) { runOf(p, 1).Passes[0].Operating.Nozzle *= 1.01 }},
	{"hose loss", audit.RuleOperating, func(p *route.Plan) { runOf(p, 1).Passes[0].Loss = 0 }},
	{"setting", audit.RuleOperating, func(p *route.Plan) { runOf(p, 1).Passes[0].Setting = unit.Bar(220) }},
	{"thrust", audit.RuleOperating, func(p *route.Plan) { runOf(p, 1).Passes[0].Thrust *= 1.01 }},
	{"no thrust", audit.RulePull, func(p *route.Plan) { runOf(p, 1).Passes[0].Thrust = 0 }},
	{"drag", audit.RulePull, func(p *route.Plan) { runOf(p, 1).Passes[0].Drag /= 2 }},
	{"peak pull", audit.RulePull, func(p *route.Plan) { runOf(p, 1).Passes[0].Peak = 0 }},
	{"low reach", audit.RuleReach, func(p *route.Plan) { runOf(p, 1).Reach[0] = 17 }},
	{"strokes", audit.RuleStrokes, func(p *route.Plan) { runOf(p, 1).Passes[0].Strokes = 29 }},
	{"pulls", audit.RuleStrokes, func(p *route.Plan) { runOf(p, 2).Passes[0].Pulls = 1 }},
	{"minutes of a pass", audit.RuleMinutes, func(p *route.Plan) { runOf(p, 1).Passes[0].Minutes += route.Tick }},
	{"minutes of a run", audit.RuleMinutes, func(p *route.Plan) { runOf(p, 1).Minutes -= 3 * time.Minute }},
	{"water of a pass", audit.RuleWater, func(p *route.Plan) { runOf(p, 1).Passes[0].Water += unit.Litres(1) }},
	{"water of a run", audit.RuleWater, func(p *route.Plan) { runOf(p, 1).Water = 0 }},

	// Blocks and numbers.
	{"spot that cannot be used", audit.RuleBlocks, func(p *route.Plan) { p.Blocks[0].Spot = "C" }},
	{"block without a run", audit.RuleBlocks, func(p *route.Plan) { p.Blocks[2].Runs = nil }},
	{"block split in two", audit.RuleBlocks, func(p *route.Plan) {
		b := p.Blocks[1]
		p.Blocks[1].Runs = b.Runs[:1]
		p.Blocks = slices.Insert(p.Blocks, 2, route.Block{Spot: b.Spot, Hose: b.Hose, Runs: b.Runs[1:]})
	}},
	{"number", audit.RuleNumbers, func(p *route.Plan) { runOf(p, 3).Number = 7 }},
	{"opened twice", audit.RuleNumbers, func(p *route.Plan) { runOf(p, 2).Opens = true }},
	{"not opened", audit.RuleNumbers, func(p *route.Plan) { runOf(p, 3).Opens = false }},

	// The day.
	{"gap in the day", audit.RuleDay, func(p *route.Plan) { p.Day[5].Start += time.Minute }},
	{"event left out", audit.RuleDay, func(p *route.Plan) { p.Day = slices.Delete(p.Day, 2, 3) }},
	{"event put in", audit.RuleDay, func(p *route.Plan) { p.Day = slices.Insert(p.Day, 2, p.Day[2]) }},
	{"event after the end", audit.RuleDay, func(p *route.Plan) { p.Day = append(p.Day, p.Day[0]) }},
	{"event of another run", audit.RuleDay, func(p *route.Plan) { p.Day[3].Run = 2 }},
	{"short set-up", audit.RuleDay, func(p *route.Plan) { p.Day[0].Takes -= route.Tick }},
	{"long move", audit.RuleDay, func(p *route.Plan) { p.Day[13].Takes += route.Tick }},
	{"long wait", audit.RuleDay, func(p *route.Plan) { p.Day[7].Takes += 2 * route.Tick }},
	{"no wait", audit.RuleTank, func(p *route.Plan) { p.Day = slices.Delete(p.Day, 7, 8) }},
	{"wait for nothing", audit.RuleTank, func(p *route.Plan) {
		wait := p.Day[7]
		wait.Run, wait.Pass, wait.Start = 1, 0, p.Day[3].Start
		p.Day = slices.Insert(p.Day, 3, wait)
	}},
	{"fetched for nothing", audit.RuleTank, func(p *route.Plan) {
		fill := p.Day[17]
		fill.Run, fill.Start = 4, p.Day[24].Start
		p.Day = slices.Insert(p.Day, 24, fill)
	}},
	{"level before", audit.RuleTank, func(p *route.Plan) { p.Day[4].Before += unit.Litres(1) }},
	{"level after", audit.RuleTank, func(p *route.Plan) { p.Day[3].After = 0 }},
	{"towed half full", audit.RuleTowing, func(p *route.Plan) { p.Day[12].After = unit.Litres(303.4) }},
	{"towed full without water", audit.RuleTowing, func(p *route.Plan) { p.Day[31].After = unit.Litres(600) }},
	{"not drained", audit.RuleTowing, func(p *route.Plan) { p.Day = slices.Delete(p.Day, 30, 31) }},
	{"cost", audit.RuleCost, func(p *route.Plan) { p.Cost -= time.Minute }},
	{"bound over the cost", audit.RuleCost, func(p *route.Plan) { p.Bound = p.Cost + time.Minute }},
	{"bound below nothing", audit.RuleCost, func(p *route.Plan) { p.Bound = -1 }},
	{"proved by nothing", audit.RuleCost, func(p *route.Plan) { p.Proven = true }},

	// Shortfalls and flags.
	{"reachable pipe given up", audit.RuleShortfall, func(p *route.Plan) {
		p.Blocks[1].Runs = p.Blocks[1].Runs[:1]
		p.Shortfalls = append(p.Shortfalls, route.Shortfall{Pipe: "p9", Size: 4, Length: 6, Reason: route.NoAccess})
	}},
	{"reason that is not so", audit.RuleShortfall, func(p *route.Plan) {
		p.Shortfalls[0].Reason, p.Shortfalls[0].Access, p.Shortfalls[0].Hose = route.PullShort, "CO3", "large"
		p.Shortfalls[0].ByForce = 1
	}},
	{"reason without an attempt", audit.RuleShortfall, func(p *route.Plan) { p.Shortfalls[0].Reason = route.Blocked }},
	{"no spot, and there are", audit.RuleShortfall, func(p *route.Plan) { p.Shortfalls[0].Reason = route.NoSpot }},
	{"unknown reason", audit.RuleShortfall, func(p *route.Plan) { p.Shortfalls[0].Reason = "bad luck" }},
	{"figure of another reason", audit.RuleShortfall, func(p *route.Plan) { p.Shortfalls[0].ByLength = 1 }},
	{"length of a shortfall", audit.RuleShortfall, func(p *route.Plan) { p.Shortfalls[0].Length = 6 }},
	{"cure that does not help", audit.RuleCure, func(p *route.Plan) { p.Shortfalls[0].Cure.Pipe = "p9" }},
	{"cure beyond the pipe", audit.RuleCure, func(p *route.Plan) { p.Shortfalls[0].Cure.At = 5.5 }},
	{"cure half way", audit.RuleCure, func(p *route.Plan) { p.Shortfalls[0].Cure.At = 2 }},
	{"longer hose where none goes", audit.RuleCure, func(p *route.Plan) {
		p.Shortfalls[0].Cure = route.Cure{Kind: route.LongerHose, Length: 100, Gains: 5}
		p.Shortfalls[0].Hose = "large"
	}},
	{"gains", audit.RuleCure, func(p *route.Plan) { p.Shortfalls[0].Cure.Gains = 11 }},
	{"unknown cure", audit.RuleCure, func(p *route.Plan) { p.Shortfalls[0].Cure.Kind = "prayer" }},
	{"downstream not told", audit.RuleFlags, func(p *route.Plan) { runOf(p, 3).Flags = nil }},
	{"locator not told", audit.RuleFlags, func(p *route.Plan) { runOf(p, 2).Flags = nil }},
	{"fragile pipe not told", audit.RuleFlags, func(p *route.Plan) { runOf(p, 1).Flags = nil }},
	{"gap not told", audit.RuleFlags, func(p *route.Plan) { runOf(p, 4).Flags = nil }},
	{"gap where none is", audit.RuleFlags, func(p *route.Plan) {
		runOf(p, 2).Flags = append(runOf(p, 2).Flags, route.Flag{Kind: route.FlagOverGap})
	}},
	{"stack where none is", audit.RuleFlags, func(p *route.Plan) {
		runOf(p, 2).Flags = append(runOf(p, 2).Flags, route.Flag{Kind: route.FlagStack})
	}},
	{"flag off the run", audit.RuleFlags, func(p *route.Plan) {
		runOf(p, 2).Flags = append(runOf(p, 2).Flags, route.Flag{Kind: route.FlagSmallMargin, At: 99})
	}},
	{"unknown flag", audit.RuleFlags, func(p *route.Plan) {
		runOf(p, 2).Flags = append(runOf(p, 2).Flags, route.Flag{Kind: "beware"})
	}},
}

// runOf finds a run by its place in the plan.
func runOf(p *route.Plan, number int) *route.Run { return p.Runs()[number-1] }

func TestCorruptPlansAreCaught(t *testing.T) {
	for _, c := range corruptions {
		t.Run(c.name, func(t *testing.T) {
			p := yardPlan()
			c.spoil(p)
			assertBreaks(t, c.rule, audit.Check(yard(), yardTables(), p))
		})
	}
}

func assertBreaks(t *testing.T, rule string, problems []audit.Problem) {
	t.Helper()
	var rules []string
	for _, p := range problems {
		rules = append(rules, p.Rule)
		require.NotEmpty(t, p.Place, p)
		require.NotEmpty(t, p.What, p)
	}
	assert.Contains(t, rules, rule, problems)
}
