package replay

import (
	"fmt"
	"strings"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/route"
	"linemap/internal/site"
)

// Say says what an event of a plan is, with the names of the site: "jetting run
// 4, clean pass".
func Say(s *site.Site, p *route.Plan, event int) string {
	e := &p.Day[event]
	run, pass := runOf(p, e), passOf(p, e)
	switch e.Kind {
	case route.EventSetUp:
		return "setting up" + spotName(s, p, e, " at ")
	case route.EventPackUp:
		return "packing up" + spotName(s, p, e, " at ")
	case route.EventMove:
		return "towing the trailer" + spotName(s, p, e, " to ")
	case route.EventDrain:
		return "draining the tank before towing"
	case route.EventFill:
		if run != nil {
			return fmt.Sprintf("fetching water for run %d", e.Run)
		}
		return "filling the tank before towing"
	case route.EventHoseChange:
		return "changing the hose" + hoseName(s, p, e, " to ")
	case route.EventOpen:
		return "laying hose" + accessName(s, run, " to ") + " and opening it" + ofRun(e)
	case route.EventStart:
		return fmt.Sprintf("starting run %d", e.Run) + accessName(s, run, " at ")
	case route.EventJet:
		if pass != nil {
			return fmt.Sprintf("jetting run %d, %s pass", e.Run, strings.ReplaceAll(string(pass.Kind), "_", " "))
		}
		return "jetting" + ofRun(e)
	case route.EventNozzleChange:
		return "changing the nozzle" + nozzleName(s, pass, " to ") + ofRun(e)
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

// The names below follow a word; where there is no such thing, both are left out.

func spotName(s *site.Site, p *route.Plan, e *route.Event, word string) string {
	if e.Block < 0 || e.Block >= len(p.Blocks) {
		return ""
	}
	if spot := spotOf(s, &p.Blocks[e.Block]); spot != nil {
		return word + called(spot.Label, string(spot.ID))
	}
	return ""
}

func hoseName(s *site.Site, p *route.Plan, e *route.Event, word string) string {
	if e.Block < 0 || e.Block >= len(p.Blocks) {
		return ""
	}
	if hose := hoseOf(s, &p.Blocks[e.Block]); hose != nil {
		return word + called(hose.Name, hose.ID)
	}
	return ""
}

func nozzleName(s *site.Site, pass *route.Pass, word string) string {
	if pass == nil {
		return ""
	}
	if n := find(s.Rig.Nozzles, func(n *rig.Nozzle) bool { return n.ID == pass.Nozzle }); n != nil {
		return word + called(n.Name, n.ID)
	}
	return ""
}

func accessName(s *site.Site, run *route.Run, word string) string {
	if run == nil {
		return ""
	}
	if n := find(s.Network.Nodes, func(n *network.Node) bool { return n.ID == run.Access }); n != nil {
		return word + n.Name()
	}
	return ""
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
		return "going out again" + of
	case ComingIn:
		return "coming back over pipe that is not cleaned"
	}
	return string(p.motion)
}
