package export

import (
	"linemap/internal/network"
	"linemap/internal/route"
)

// warnings words what may go wrong on a run, where it may.
func (w *wording) warnings(r *route.Run) []string {
	var say []string
	if i, ok := w.graph.NodeIndex(r.Access); ok && w.site.Network.Nodes[i].Access != nil {
		switch w.site.Network.Nodes[i].Access.Kind {
		case network.Manhole:
			say = append(say, "Manhole: no entry. Set hose and nozzle from the top and guard the opening.")
		case network.RoofVent:
			say = append(say, "Roof: hold fast against a fall, and keep the hose off the edge.")
		case network.PulledFixture:
			say = append(say, "Pulled fixture: cover the floor, and set the fixture on a new seal.")
		}
	}
	for _, f := range r.Flags {
		say = append(say, w.flag(r, f))
	}
	return say
}

// flag words one warning of the plan.
func (w *wording) flag(r *route.Run, f route.Flag) string {
	at, pipe := w.sys.Footage(f.At), w.thePipe(f.Pipe)
	switch f.Kind {
	case route.FlagDownstream:
		return "Downstream run: the nozzle goes with the flow and can push dirt ahead. Clean on the pull-back, lowest pipe first."
	case route.FlagLocator:
		return "At " + at + " confirm with a locator that the hose went into the branch, " + pipe + "."
	case route.FlagFragile:
		return w.fragile(r, f)
	case route.FlagSmallMargin:
		return "Small pull margin at " + at + ": the nozzle may stall before the far end. Do not force the hose; write down the footage."
	case route.FlagWeakCarry:
		return "Weak carry in " + pipe + ": the jet's water alone may leave dirt lying. Run flush water from a fixture above, or use a vacuum at the lower access."
	case route.FlagOverGap:
		return capital(pipe) + " below is not cleaned: dirt may stop there. Watch the flow at the lower end."
	case route.FlagStack:
		return "Climbs a stack from " + at + ": the hose hangs by the nozzle and falls when pressure drops. Lower it by the reel."
	}
	return sentence(capital(word(nil, f.Kind))) + " Counter " + at + "."
}

// fragile words the ceiling of a fragile pipe.
func (w *wording) fragile(r *route.Run, f route.Flag) string {
	say := "Fragile: " + w.thePipe(f.Pipe) + " from " + w.sys.Footage(f.At)
	if p := w.pipeData(f.Pipe); p != nil && p.Ceiling != nil {
		say += ": no more than " + w.sys.Pressure(*p.Ceiling) + " at the nozzle"
	}
	if len(r.Passes) > 0 {
		say += ". Set the unloader as shown for each pass, before the nozzle goes in"
	}
	return say + "."
}
