package replay

import (
	"fmt"
	"strings"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/route"
)

// words say what an event is, with the names of the site.
func (r *Replay) words(e *route.Event, sc scene) string {
	switch e.Kind {
	case route.EventSetUp:
		return "setting up" + r.there(e, " at ")
	case route.EventPackUp:
		return "packing up" + r.there(e, " at ")
	case route.EventMove:
		return "towing the trailer" + r.there(e, " to ")
	case route.EventDrain:
		return "draining the tank before towing"
	case route.EventFill:
		if sc.way != nil {
			return fmt.Sprintf("fetching water for run %d", e.Run)
		}
		return "filling the tank before towing"
	case route.EventHoseChange:
		return "changing the hose" + r.hose(e)
	case route.EventOpen:
		return "laying hose to " + r.access(sc) + " and opening it" + ofRun(e)
	case route.EventStart:
		return fmt.Sprintf("starting run %d at %s", e.Run, r.access(sc))
	case route.EventJet:
		if sc.pass != nil {
			return fmt.Sprintf("jetting run %d, %s pass", e.Run, strings.ReplaceAll(string(sc.pass.Kind), "_", " "))
		}
		return "jetting" + ofRun(e)
	case route.EventNozzleChange:
		return "changing the nozzle" + r.nozzle(sc) + ofRun(e)
	case route.EventWait:
		return "waiting for water" + ofRun(e)
	}
	return strings.ReplaceAll(string(e.Kind), "_", " ")
}

func ofRun(e *route.Event) string {
	if e.Run < 0 {
		return ""
	}
	return fmt.Sprintf(" for run %d", e.Run)
}

// there names the spot of an event.
func (r *Replay) there(e *route.Event, word string) string {
	if e.Block < 0 || e.Block >= len(r.blocks) || r.blocks[e.Block].spot == nil {
		return ""
	}
	return word + called(r.blocks[e.Block].spot.Label, string(r.blocks[e.Block].spot.ID))
}

func (r *Replay) hose(e *route.Event) string {
	if e.Block < 0 || e.Block >= len(r.blocks) || r.blocks[e.Block].hose == nil {
		return ""
	}
	return " to " + called(r.blocks[e.Block].hose.Name, r.blocks[e.Block].hose.ID)
}

func (r *Replay) nozzle(sc scene) string {
	if sc.pass == nil {
		return ""
	}
	n := find(r.site.Rig.Nozzles, func(n *rig.Nozzle) bool { return n.ID == sc.pass.Nozzle })
	if n == nil {
		return ""
	}
	return " to " + called(n.Name, n.ID)
}

func (r *Replay) access(sc scene) string {
	if sc.way == nil {
		return "the access"
	}
	id := sc.way.run.Access
	n := find(r.site.Network.Nodes, func(n *network.Node) bool { return n.ID == id })
	if n == nil {
		return string(id)
	}
	return n.Name()
}

// called is a name, or the ID of what has none.
func called(name, id string) string {
	if name == "" {
		return id
	}
	return name
}

// words say what the nozzle does.
func (p *phase) words() string {
	of := ""
	if p.pulls > 1 {
		of = fmt.Sprintf(", %d of %d", p.pull, p.pulls)
	}
	switch p.motion {
	case Stroking:
		return "working out in strokes"
	case GoingOut:
		return "going out"
	case Pulling:
		return "pulling back" + of
	case Returning:
		return "going out again for the next pull" + of
	case ComingIn:
		return "coming back over pipe that is not cleaned"
	}
	return string(p.motion)
}
