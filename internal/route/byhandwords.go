package route

import (
	"fmt"
	"slices"
	"time"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// Line says in one sentence what the decisions made by hand cost, and how many
// of them are not heeded.
func (h *HandReport) Line() string {
	own := "the planner's own plan"
	if !h.FreeProven {
		own = "the best plan that the planner found by itself"
	}
	var say string
	switch more := h.More.Round(time.Minute); {
	case more > 0:
		say = fmt.Sprintf("Made by hand: %s more than %s", unit.Minutes(more), own)
	case more < 0:
		say = fmt.Sprintf("Made by hand: %s less than %s", unit.Minutes(-more), own)
	default:
		say = "Made by hand: as long as " + own
	}
	if n := len(h.Left); n > 0 {
		say += fmt.Sprintf(", and %s fewer cleaned", unit.Count(n, "pipe"))
	}
	passed := h.PassedOver()
	if flagged := len(h.Unknown) + len(h.Broken) - passed; flagged > 0 {
		say += fmt.Sprintf("; %s not as the rules ask", unit.Count(flagged, "run"))
	}
	if passed > 0 {
		say += fmt.Sprintf("; %s not heeded", unit.Count(passed, "decision"))
	}
	return say + "."
}

// Say says in plain sentences, in the site's units, what came of the decisions
// made by hand: first what they cost, then each that is not heeded or breaks a
// rule.
func (h *HandReport) Say(s *site.Site) []string {
	out := []string{h.Line()}
	for _, key := range h.Unknown {
		out = append(out, fmt.Sprintf("The %s stands for none: something that it names is gone, or no way leads there.", RunName(s, key)))
	}
	for i := range h.Broken {
		out = append(out, h.Broken[i].Say(s))
	}
	return out
}

// Say says in one plain sentence, in the site's units, what is wrong.
func (b *Breach) Say(s *site.Site) string {
	run := "The " + RunName(s, b.Key)
	switch b.What {
	case BreaksRule:
		if b.Rule != nil {
			rule := *b.Rule
			rule.AccessName = "" // the run has been named
			return run + " cannot be made: " + rule.Why(s.Units) + "."
		}
	case SpotUnfit:
		return run + " cannot be made: the trailer cannot stand at " + spotName(s, b.Key.Spot) + "."
	case AccessShut:
		return run + " cannot be made: " + nodeName(s, b.Key.Access) + " is out of service."
	case FacesAway:
		return run + " cannot be made: " + nodeName(s, b.Key.Access) + " faces the other way."
	case NotInJob:
		return run + " is not made: " + pipeName(s, b.Key.End) + " is not in the job."
	case OverUncleaned:
		return run + " cannot be made: it leads through " + pipeName(s, b.Pipe) + ", which no run can clean."
	case KeptAndBarred:
		return run + " is both kept and barred, so it is not made."
	case InTheWay:
		if b.Other == (site.RunKey{}) {
			return run + " cannot be made beside what else was decided by hand."
		}
		return run + " cannot be made beside the " + RunName(s, b.Other) + "."
	case OutOfWater:
		return run + " is not made in full: water runs out before."
	case OrderedBarred:
		return run + " stands in the order made by hand, but is barred, so it is not made."
	case KeptLeftOut:
		return run + " is kept, but the order made by hand leaves it out, so it is not made."
	case NothingLeft:
		return run + " is left out: all of its pipe is clean by then."
	case CutShort:
		return run + " ends at " + pipeName(s, b.Pipe) + ": what lies beyond is clean by then."
	case NotLowestFirst:
		return run + " is made before " + pipeName(s, b.Pipe) + " below it is clean, against the rule of lowest first."
	}
	return run + ": " + string(b.What)
}

// RunName names a run for a reader: "run from CO1 to P3, 1/2 in hose from Spot
// A", by its ids where something of it is gone.
func RunName(s *site.Site, key site.RunKey) string {
	way := "run"
	if key.Downstream {
		way = "downstream run"
	}
	hose := key.Hose
	if i := slices.IndexFunc(s.Rig.Hoses, func(h rig.Hose) bool { return h.ID == key.Hose }); i >= 0 && s.Rig.Hoses[i].Name != "" {
		hose = s.Rig.Hoses[i].Name
	}
	return fmt.Sprintf("%s from %s to %s, %s from %s", way, nodeName(s, key.Access), pipeName(s, key.End), hose, spotName(s, key.Spot))
}

func nodeName(s *site.Site, id network.NodeID) string {
	for i := range s.Network.Nodes {
		if s.Network.Nodes[i].ID == id {
			return s.Network.Nodes[i].Name()
		}
	}
	return string(id)
}

func pipeName(s *site.Site, id network.PipeID) string {
	for i := range s.Network.Pipes {
		if s.Network.Pipes[i].ID == id {
			return s.Network.Pipes[i].Name()
		}
	}
	return "pipe " + string(id)
}

func spotName(s *site.Site, id site.SpotID) string {
	for i := range s.Spots {
		if s.Spots[i].ID == id && s.Spots[i].Label != "" {
			return s.Spots[i].Label
		}
	}
	return "spot " + string(id)
}
