package form

import (
	"maps"
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/ui/desk"
	"linemap/internal/unit"
)

// summary is the card of a site with nothing selected.
type summary struct {
	*sheet[site.Site]
}

func newSummary(c *Card) part {
	about := subject[site.Site]{
		things: func() []*site.Site { return []*site.Site{c.desk.Site()} },
		called: func([]*site.Site) string { return "site" },
	}
	return &summary{newSheet(c.desk, about, c.resized,
		factOf("Pipe", pipeSummary),
		factOf("By size", bySize),
		factOf("Openings", func(_ *desk.Desk, s *site.Site) string {
			return tally(s.Network.Nodes, func(n *network.Node) string {
				if n.Access == nil {
					return ""
				}
				return n.Word()
			})
		}),
		factOf("Spots", func(_ *desk.Desk, s *site.Site) string {
			usable := 0
			for i := range s.Spots {
				if s.Spots[i].Usable() {
					usable++
				}
			}
			switch {
			case len(s.Spots) == 0:
				return ""
			case usable < len(s.Spots):
				return unit.Count(len(s.Spots), "spot") + ", " + unit.Count(usable, "fit spot")
			}
			return unit.Count(usable, "spot")
		}),
		factOf("Water", func(_ *desk.Desk, s *site.Site) string {
			return tally(s.Water, func(w *site.WaterPoint) string { return strings.ReplaceAll(string(w.Kind), "_", " ") })
		}),
		factOf("Areas", func(_ *desk.Desk, s *site.Site) string {
			return tally(s.Areas, func(a *site.Area) string { return a.Kind.Word() })
		}),
		factOf("The day", theDay),
		factOf("Next", func(d *desk.Desk, _ *site.Site) string { return Next(d) }),
	)}
}

func (s *summary) object() fyne.CanvasObject { return s.box }

func (s *summary) heading() string {
	if t := s.desk.Site().Job.Title; t != "" {
		return t
	}
	return s.desk.Name()
}

func pipeSummary(d *desk.Desk, s *site.Site) string {
	if len(s.Network.Pipes) == 0 {
		return "none yet"
	}
	sum := unit.Length(0)
	for i := range s.Network.Pipes {
		sum += d.Graph().Length(i)
	}
	return unit.Count(len(s.Network.Pipes), "pipe") + ", " + d.Units().Length(sum)
}

// bySize is the length of pipe of each size, the largest first.
func bySize(d *desk.Desk, s *site.Site) string {
	length := map[unit.Size]unit.Length{}
	for i := range s.Network.Pipes {
		length[s.Network.Pipes[i].Size] += d.Graph().Length(i)
	}
	if len(length) < 2 {
		return ""
	}
	var lines []string
	for _, size := range slices.Backward(slices.Sorted(maps.Keys(length))) {
		lines = append(lines, size.In(d.Units())+": "+d.Units().Length(length[size]))
	}
	return strings.Join(lines, "\n")
}

// tally counts things by what they are: "3 cleanouts, 1 manhole".
func tally[T any](list []T, word func(*T) string) string {
	count := map[string]int{}
	for i := range list {
		if w := word(&list[i]); w != "" {
			count[w]++
		}
	}
	var all []string
	for _, w := range slices.Sorted(maps.Keys(count)) {
		all = append(all, unit.Count(count[w], w))
	}
	return strings.Join(all, ", ")
}

// theDay says what the plan comes to.
func theDay(d *desk.Desk, _ *site.Site) string {
	p := d.Planning()
	if p.Plan == nil || len(p.Plan.Blocks) == 0 {
		return ""
	}
	runs := 0
	for _, b := range p.Plan.Blocks {
		runs += len(b.Runs)
	}
	text := unit.Count(runs, "run") + ", " + unit.Minutes(p.Plan.Cost)
	if p.Stale {
		text += " (before the last change)"
	}
	return text
}

// Next says what is to be done next on the way to a plan, in one sentence.
func Next(d *desk.Desk) string {
	s := d.Site()
	has := func(what func(*network.Node) bool) bool {
		for i := range s.Network.Nodes {
			if what(&s.Network.Nodes[i]) {
				return true
			}
		}
		return false
	}
	usable := slices.ContainsFunc(s.Spots, func(v site.Spot) bool { return v.Usable() })
	findings, current := d.Findings()
	errors := 0
	for i := range findings {
		if findings[i].Gravity == network.Error {
			errors++
		}
	}
	plan := d.Planning()
	switch {
	case len(s.Network.Pipes) == 0:
		return "Draw the drain, from any end: click from corner to corner."
	case !has(func(n *network.Node) bool { return n.Kind == network.KindOutlet }):
		return "Place the outlet, where the drain leaves the job."
	case !has(func(n *network.Node) bool { return n.Access != nil }):
		return "Place the openings that a hose can enter: cleanouts, manholes, pulled fixtures."
	case !usable:
		return "Place a spot where the trailer can stand."
	case len(s.Water) == 0:
		return "Place a water point to fill the tank from."
	case current && errors > 0:
		return "Mend what stands first in the punch list."
	case plan.Running || plan.Stale:
		return "The plan is being worked out."
	case plan.Plan != nil && len(plan.Plan.Shortfalls) > 0:
		return "See in the punch list what is not cleaned, and what would help."
	case plan.Plan != nil:
		return "All of it is cleaned. Fill in the job and export the papers."
	}
	return "See in the punch list why there is no plan."
}
