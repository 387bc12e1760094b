package route

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"linemap/internal/unit"
)

// Why says in at most two plain sentences, the first to know first, why a run of
// the plan is made as it is; none where there was nothing to choose.
func (p *Plan) Why(run int, sys unit.System) (say []string) {
	all := p.instead(run)
	for i := range all[:min(len(all), 2)] {
		s := all[i].Say(sys)
		say = append(say, strings.ToUpper(s[:1])+s[1:]+".")
	}
	return say
}

// instead is what might be expected in place of a run, by its number.
func (p *Plan) instead(run int) []Instead {
	at, ok := slices.BinarySearchFunc(p.Whys, run, func(w RunWhy, run int) int { return w.Run - run })
	if !ok {
		return nil
	}
	return p.Whys[at].Instead
}

// Say says in one plain sentence, without capital and stop, what was chosen,
// what not, and why.
func (i *Instead) Say(sys unit.System) string {
	switch i.Choice {
	case ByAccess:
		return fmt.Sprintf("entered at %s, not %s: %s", i.Own, i.Other, i.against(sys))
	case ByDirection:
		way, other := "upstream", "downstream"
		if !i.Run.Downstream {
			way, other = other, way
		}
		return fmt.Sprintf("%s from %s, not %s from %s: %s", way, i.Own, other, i.Other, i.against(sys))
	case BySpot:
		return fmt.Sprintf("parked at %s, not %s: %s", i.Own, i.Other, i.against(sys))
	}
	return fmt.Sprintf("%s, not %s: %s", i.Own, i.Other, i.against(sys))
}

// against says what speaks against the other.
func (i *Instead) against(sys unit.System) string {
	switch {
	case i.Not != nil:
		return i.barred(sys)
	case i.Force > 0:
		return fmt.Sprintf("its pull is short by %s", sys.Force(max(i.Force, leastForce(sys))))
	case i.Choice == ByNozzle:
		return "it does not fit all of the pipe"
	case i.Leaves > 0:
		return fmt.Sprintf("from there %s would be left to another run", sys.Length(i.Leaves))
	case i.Choice == ByHose && i.Pressures[0] > i.Pressures[1]:
		return fmt.Sprintf("more pressure left, %s against %s", sys.Pressure(i.Pressures[0]), sys.Pressure(i.Pressures[1]))
	case i.Dearer+i.Move > 0:
		return i.dearer()
	}
	return "either would do"
}

// dearer says what the other would cost.
func (i *Instead) dearer() string {
	switch {
	case i.Dearer <= 0 && i.Choice == ByHose:
		return fmt.Sprintf("a change of hose would take %s", tenths(i.Move))
	case i.Dearer <= 0:
		return fmt.Sprintf("a move there would take %s and save %s", tenths(i.Move), tenths(-i.Dearer))
	case i.Move > 0:
		return fmt.Sprintf("it would take %s more, and %s to change", tenths(i.Dearer), tenths(i.Move))
	}
	return fmt.Sprintf("it would take %s more", tenths(i.Dearer))
}

// tenths writes minutes to the tenth.
func tenths(d time.Duration) string { return fmt.Sprintf("%.1f min", d.Minutes()) }

// barred says what keeps the other from being made.
func (i *Instead) barred(sys unit.System) string {
	switch i.Not.What {
	case FacesAway:
		return "that faces the other way"
	case OverUncleaned:
		return "that leads through pipe that no run can clean"
	}
	if i.Not.Rule == nil {
		return string(i.Not.What)
	}
	rule := *i.Not.Rule
	rule.AccessName = "" // it has been named
	why := rule.Why(sys)
	switch {
	case i.At == 0:
		return why
	case i.Choice == ByHose:
		return fmt.Sprintf("%s, at %s", why, sys.Footage(i.At))
	}
	return fmt.Sprintf("at %s from there, %s", sys.Footage(i.At), why)
}
