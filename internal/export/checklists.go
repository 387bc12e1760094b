package export

import (
	"linemap/internal/rig"
	"linemap/internal/unit"
)

// CheckList is a list to tick at one moment of the day.
type CheckList struct {
	Head  string
	Items []string
}

// CheckLists are the lists to tick, in the order of the day, with the figures
// of the rig in them. They are common practice; the machine's manual comes
// first.
func CheckLists(r *rig.Rig, sys unit.System) []CheckList {
	return []CheckList{
		{"Before towing", []string{
			"Tank full or empty, never between",
			"Hitch locked, safety chains on, jack up",
			"Lights, brakes and wheels checked",
			"Reels locked, hose ends secured, lids latched",
			"Hoses and nozzles of this sheet on board",
			"Fuel for the day, in a safety can",
		}},
		{"Set up at a spot", []string{
			"Ground level, wheels chocked, parking brake on",
			"Cones out, light on, walkways guarded",
			"Exhaust clear of doors, windows and air intakes",
			"Supply hose on, backflow protection in",
			"Strainer clean, hose and fittings sound",
			"People told: no water in use, lids down",
			"Lower access watched: flow goes where expected",
		}},
		{"Start", []string{
			"Tank at " + sys.Volume(r.Tank.Start) + " or more",
			"Eye protection and gloves on, signals agreed",
			"Right nozzle for the pass, tight, every hole open",
			"Warning mark on the hose " + mark(sys) + " from the nozzle",
			"Hose counter at zero, nozzle at the reel",
			"Nozzle " + startDepth(sys) + " in, or past the first bend",
			"Unloader set for the pass, then pressure on",
		}},
		{"Between runs", []string{
			"Pressure off before the nozzle leaves the pipe",
			capital(footage(sys)) + " and findings written down, initials set",
			"Access closed, floor and ground clean",
			"Nozzle holes clear, hose end looked over",
			"Tank at " + sys.Volume(r.Tank.Start) + " or more; stop at " + sys.Volume(r.Tank.Stop),
		}},
		{"Shut down", []string{
			"Engine off, trapped pressure let out of the hose",
			"Accesses closed, traps filled, fixtures tried",
			"Hose washed, wound on, reel locked",
			"Tank full or empty, supply hose off",
			"Below freezing: pump, hoses, nozzles drained",
			"Cones in, site clean, hands washed",
			"Contact told what was found and what is left",
		}},
	}
}
