package audit

import (
	"fmt"
	"math"
	"time"

	"linemap/internal/unit"
)

// Problem is one place where a plan and the rules disagree.
type Problem struct {
	// Rule is the key of the rule that is broken, one of the Rule constants.
	Rule string
	// Place names the run, the event, the pipe or the node.
	Place string
	// What says what is wrong in one sentence; Got and Want are the figure in
	// the plan and the figure by the rules, where there are any.
	What      string
	Got, Want string
}

// String is the problem on one line.
func (p Problem) String() string {
	s := p.Rule + ": " + p.Place + ": " + p.What
	if p.Got != "" || p.Want != "" {
		s += fmt.Sprintf(" (got %s, want %s)", p.Got, p.Want)
	}
	return s
}

// The rules, as keys of [Problem.Rule].
const (
	RulePlan      = "plan"      // the plan can be read at all: names are known, lists are there
	RuleTables    = "tables"    // the trade tables have the rows that the site asks for
	RuleCoverage  = "coverage"  // every pipe of the job is cleaned once or explained once
	RuleOrder     = "order"     // lowest first
	RuleAccess    = "access"    // in service, faces that way, opening large enough
	RulePath      = "path"      // legs join up, one way only, passages open
	RuleTurn      = "turn"      // no single turn too sharp, no branch past steering
	RuleBends     = "bends"     // turns summed
	RuleSize      = "size"      // hose and nozzle fit every pipe
	RuleReel      = "reel"      // lay + riser + path + reserve within the hose
	RuleReadings  = "readings"  // hose-counter readings
	RuleFittings  = "fittings"  // what the hose meets on the way
	RulePasses    = "passes"    // the kinds that the deposits ask for, in order
	RuleNozzle    = "nozzle"    // serves the purpose, the preferred one
	RuleOperating = "operating" // pump, hose and nozzle agree
	RulePull      = "pull"      // thrust beats drag
	RuleReach     = "reach"     // where the hose stalls
	RuleStrokes   = "strokes"   // counts of strokes and pulls
	RuleMinutes   = "minutes"   // time of passes and runs
	RuleWater     = "water"     // water of passes and runs, and what the tank holds
	RuleBlocks    = "blocks"    // spots and hoses in use, consecutive blocks differ
	RuleNumbers   = "numbers"   // run numbers, first openings
	RuleDay       = "day"       // events without gaps, of the right kind and length
	RuleTank      = "tank"      // levels chain and stay within start and stop
	RuleTowing    = "towing"    // full or empty
	RuleCost      = "cost"      // sum, bound and proof
	RuleShortfall = "shortfall" // the reason is real
	RuleCure      = "cure"      // the cure works
	RuleFlags     = "flags"     // warnings are where they must be
	RuleHand      = "by_hand"   // decisions made by hand are heeded, or told why not
	RuleWhy       = "why"       // what is told of runs not made in place of those that are
)

// report collects problems.
type report struct{ problems []Problem }

func (r *report) add(rule, place, format string, args ...any) {
	r.problems = append(r.problems, Problem{Rule: rule, Place: place, What: fmt.Sprintf(format, args...)})
}

// differ adds a problem with the two figures.
func (r *report) differ(rule, place, what string, got, want any) {
	r.problems = append(r.problems, Problem{
		Rule: rule, Place: place, What: what, Got: fmt.Sprint(got), Want: fmt.Sprint(want),
	})
}

// sameLength, sameVolume and the like compare a figure of the plan with the one that
// the rules give. A figure that is not a number agrees with none.

func (r *report) sameLength(rule, place, what string, got, want unit.Length) {
	if !near(float64(got), float64(want), hair) {
		r.differ(rule, place, what, metres(got), metres(want))
	}
}

func (r *report) sameAngle(rule, place, what string, got, want unit.Angle) {
	if !near(float64(got), float64(want), hair) {
		r.differ(rule, place, what, degrees(got), degrees(want))
	}
}

func (r *report) sameVolume(rule, place, what string, got, want unit.Volume) {
	if !near(float64(got), float64(want), drop) {
		r.differ(rule, place, what, litres(got), litres(want))
	}
}

func (r *report) sameForce(rule, place, what string, got, want unit.Force) {
	if !alike(float64(got), float64(want)) {
		r.differ(rule, place, what, fmt.Sprintf("%.6f N", got), fmt.Sprintf("%.6f N", want))
	}
}

func (r *report) samePressure(rule, place, what string, got, want unit.Pressure) {
	if !alike(float64(got), float64(want)) {
		r.differ(rule, place, what, fmt.Sprintf("%.1f Pa", got), fmt.Sprintf("%.1f Pa", want))
	}
}

// sameTime compares a time with the shortest and the longest that rounding allows.
func (r *report) sameTime(rule, place, what string, got time.Duration, want rounded) {
	if got < want.least || got > want.most {
		r.differ(rule, place, what, got, want)
	}
}

const (
	// hair is the slack of comparisons of lengths (m) and angles (rad): what
	// floating point loses on the way, and nothing that can be measured.
	hair = 2e-6
	// drop is the slack of volumes, in m3: a cubic centimetre.
	drop = 1e-6
	// grain is the relative slack of forces, pressures and flows, which come
	// out of an iteration.
	grain = 1e-7
)

func near(a, b, slack float64) bool { return math.Abs(a-b) <= slack }

func alike(a, b float64) bool {
	return math.Abs(a-b) <= grain*max(1, math.Abs(a), math.Abs(b))
}

func metres(l unit.Length) string { return fmt.Sprintf("%.6f m", l.Metres()) }
func degrees(a unit.Angle) string { return fmt.Sprintf("%.4f deg", a.Degrees()) }
func litres(v unit.Volume) string { return fmt.Sprintf("%.4f L", v.Litres()) }
