package hand

import (
	"strings"

	"linemap/internal/network"
	"linemap/internal/site"
)

// Entry is one tool of the kit.
type Entry struct {
	// Key is the letter that takes it in hand, Name what it is called, Group
	// what it stands with.
	Key, Name, Group string
	New              func() Tool
}

// StackName is the name of the tool that places stacks. It has to be told to
// what level they lead: see [NewStack].
const StackName = "Stack"

// Kit lists the tools in their order. No two have the same key.
func Kit() []Entry {
	return []Entry{
		{"K", "Pick", "Hand", func() Tool { return NewPick() }},
		{"G", "Tape", "Hand", func() Tool { return NewTape() }},

		{"P", "Pipe", "Line", func() Tool { return NewDraw() }},
		{"Z", StackName, "Line", func() Tool { return NewStack("") }},

		{"C", "Cleanout", "Opening", access("Cleanout", network.TwoWayCleanout)},
		{"U", "One-way cleanout", "Opening", access("One-way cleanout", network.OneWayCleanout)},
		{"M", "Manhole", "Opening", access("Manhole", network.Manhole)},
		{"B", "Catch basin", "Opening", access("Catch basin", network.CatchBasin)},
		{"V", "Roof vent", "Opening", access("Roof vent", network.RoofVent)},
		{"D", "Pulled fixture", "Opening", access("Pulled fixture", network.PulledFixture)},

		{"F", "Fixture", "Fitting", node("Fixture", network.KindFixture)},
		{"T", "Trap", "Fitting", node("Trap", network.KindTrap)},
		{"W", "Backwater valve", "Fitting", node("Backwater valve", network.KindBackwater)},
		{"R", "Reducer", "Fitting", node("Reducer", network.KindReducer)},
		{"E", "Cap", "Fitting", node("Cap", network.KindCap)},
		{"O", "Outlet", "Fitting", node("Outlet", network.KindOutlet)},

		{"S", "Spot", "Ground", func() Tool { return NewSpot() }},
		{"H", "Hydrant", "Ground", water("Hydrant", site.Hydrant)},
		{"I", "Hose bib", "Ground", water("Hose bib", site.HoseBib)},
		{"A", "Tanker", "Ground", water("Tanker", site.Tanker)},
		{"L", "Hose lay", "Ground", func() Tool { return NewLay() }},
		{"J", "Area", "Ground", func() Tool { return NewArea() }},
		{"N", "Note", "Ground", func() Tool { return NewNote() }},
		{"Y", "Scale floor plan", "Ground", func() Tool { return NewScale("") }},
	}
}

// isKey reports whether a letter takes a tool in hand.
func isKey(r rune) bool {
	for _, e := range Kit() {
		if strings.EqualFold(e.Key, string(r)) {
			return true
		}
	}
	return false
}
