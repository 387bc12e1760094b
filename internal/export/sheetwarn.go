package export

import (
	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/unit"
)

// warnings words what may go wrong on a run, where it may.
func (w *wording) warnings(r *route.Run) []string {
	var say []string
	if i, ok := w.graph.NodeIndex(r.Access); ok && w.site.Network.Nodes[i].Access != nil {
		switch w.site.Network.Nodes[i].Access.Kind {
		case network.Manhole:
			say = append(say, "Manhole: no entry. Set the hose from the top and guard the opening.")
		case network.RoofVent:
			say = append(say, "Roof: tie off against a fall, and keep the hose off the edge.")
		case network.PulledFixture:
			say = append(say, "Pulled fixture: cover the floor, and set the fixture on a new seal.")
		}
	}
	if w.markStaysOut(r) {
		say = append(say, "The "+mark(w.sys)+" mark stays out: go by the counter, pressure off before the nozzle comes out.")
	}
	fragile := false
	for _, f := range r.Flags {
		switch {
		case f.Kind == route.FlagLocator: // stands at the fitting itself
		case f.Kind != route.FlagFragile:
			say = append(say, w.flag(f))
		case !fragile:
			fragile = true
			say = append(say, w.fragile(r))
		}
	}
	if names := w.exposed(r); names != "" {
		say = append(say, "Blow-back risk: "+names+". Lids down, traps full, towels.")
	}
	return say
}

// flag words one warning of the plan.
func (w *wording) flag(f route.Flag) string {
	at, pipe := w.sys.Footage(f.At), w.thePipe(f.Pipe)
	switch f.Kind {
	case route.FlagDownstream:
		return "Downstream run: clean on the pull-back, lowest pipe first; the jet can push dirt ahead."
	case route.FlagSmallMargin:
		return "Small pull margin at " + at + ": it may stall. Do not force the hose; note the " + footage(w.sys) + "."
	case route.FlagWeakCarry:
		return "Weak carry in " + pipe + ": ask for flush water above, or a vacuum below."
	case route.FlagOverGap:
		return "Below " + pipe + " lies pipe that is not cleaned: dirt may stop there. Watch the lower end."
	case route.FlagEarly:
		return "By hand before its turn: dirt from " + pipe + " may settle in pipe below that is cleaned later."
	case route.FlagStack:
		return "Climbs a stack from " + at + ": the hose drops when pressure does. Lower it by the reel."
	}
	return sentence(capital(word(nil, f.Kind))) + " Counter " + at + "."
}

// fragile words the fragile pipes of a run and the least of their ceilings.
func (w *wording) fragile(r *route.Run) string {
	var names []string
	var ceiling unit.Pressure
	for _, f := range r.Flags {
		if f.Kind != route.FlagFragile {
			continue
		}
		names = append(names, w.pipe(f.Pipe)+" from "+w.sys.Footage(f.At))
		if p := w.pipeData(f.Pipe); p != nil && p.Ceiling != nil && (ceiling == 0 || *p.Ceiling < ceiling) {
			ceiling = *p.Ceiling
		}
	}
	say := "Fragile pipe: " + list(names...) + "."
	if ceiling > 0 {
		say += " At most " + w.sys.Pressure(ceiling) + " at the nozzle: set the unloader first."
	}
	return say
}
