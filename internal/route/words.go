package route

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"linemap/internal/unit"
)

// Why says in one plain sentence why the pipe is not cleaned.
func (s Shortfall) Why(sys unit.System) string {
	switch s.Reason {
	case OverReel:
		return s.attempt("over the reel length by " + sys.Length(max(s.ByLength, leastLength(sys))))
	case OverBends:
		return s.attempt(bends(s.ByBends) + " too many for the hose")
	case HoseTooLarge:
		if s.What == "opening" {
			return s.attempt("the opening is too small for the hose")
		}
		return s.attempt("the hose is too large for " + s.AtName)
	case HoseTooSmall:
		return s.attempt("the hose is too small for " + s.AtName)
	case NoAccess:
		return "no access in service leads a hose into it"
	case TurnTooSharp:
		return s.attempt(fmt.Sprintf("the turn at %s is %.0f degrees too sharp for the hose", s.AtName, s.ByAngle.Degrees()))
	case BranchTurn:
		return s.attempt(fmt.Sprintf("the hose cannot be steered into the branch at %s", s.AtName))
	case PullShort:
		return s.attempt("the pull is short by " + sys.Force(max(s.ByForce, leastForce(sys))) + " at " + s.AtName)
	case NoNozzle:
		if s.What == "" {
			return s.attempt("no nozzle serves all that the run must clean")
		}
		return s.attempt(fmt.Sprintf("no nozzle of the rig for the %s pass fits up to %s", strings.ReplaceAll(s.What, "_", " "), s.AtName))
	case Blocked:
		return s.attempt(fmt.Sprintf("the way is blocked at %s (%s)", s.AtName, s.What))
	case NoWater:
		return "water runs out: short by " + sys.Volume(max(s.ByWater, leastVolume(sys)))
	case NoSpot:
		return "no usable spot for the trailer"
	case NoHose:
		return "the rig has no hose"
	case BarredByHand:
		return "every run that could clean it is barred by hand"
	case KeptByHand:
		return "the runs kept by hand leave no run that could clean it"
	case LeftOut:
		return "left out of the order made by hand"
	}
	return string(s.Reason)
}

// attempt adds which access and hose a reason belongs to.
func (s Shortfall) attempt(why string) string {
	if s.AccessName == "" {
		return why
	}
	return fmt.Sprintf("%s (%s from %s)", why, s.HoseName, s.AccessName)
}

// Say names the cure in one plain sentence.
func (c Cure) Say(sys unit.System) string {
	gain := ""
	if c.Gains > 0 {
		gain = fmt.Sprintf(", which reaches %s more", sys.Length(c.Gains))
	}
	switch c.Kind {
	case LongerHose:
		return "bring a hose longer by " + sys.Length(max(c.Length, leastLength(sys))) + gain
	case OtherSpot:
		if c.Length == 0 {
			return "find level ground, out of traffic or coned, where the trailer can stand"
		}
		return fmt.Sprintf("park so that the lay to the access is at most %s%s", sys.Length(c.Length), gain)
	case NewCleanout:
		return fmt.Sprintf("have a licensed plumber put a cleanout on %s, %s from its upper end%s", c.Name, sys.Length(c.At), gain)
	case SmallerHose:
		return "bring a hose made for this length, size and bends"
	case OtherNozzle:
		return "bring a nozzle for this size and deposit"
	case MoreWater:
		return "bring a larger tank or a tanker, or find a stronger water point"
	case StrongerRig:
		return "bring a rig with more pressure and flow at the nozzle"
	case ClearByHand:
		return "have what is in the way opened or taken out by a licensed plumber"
	case NotSought:
		return "none was looked for, as planning was stopped"
	case FreeRun:
		if c.Name == "" {
			return "leave the runs decided by hand to the planner again"
		}
		return "leave the " + c.Name + " to the planner again"
	case OwnOrder:
		return "add a run for it to the order, or let the planner order the runs"
	}
	return string(c.Kind)
}

// What lacks never reads as nothing: the least that a reader is shown of each.

func leastLength(sys unit.System) unit.Length {
	if sys == unit.Metric {
		return unit.Metres(0.1)
	}
	return unit.Feet(1)
}

func leastForce(sys unit.System) unit.Force {
	if sys == unit.Metric {
		return 1
	}
	return unit.PoundsForce(1)
}

func leastVolume(sys unit.System) unit.Volume {
	if sys == unit.Metric {
		return unit.Litres(1)
	}
	return unit.Gallons(1)
}

func bends(n float64) string {
	n = math.Round(n*100) / 100
	word := " quarter bends"
	if n == 1 {
		word = " quarter bend"
	}
	return strconv.FormatFloat(n, 'f', -1, 64) + word
}
