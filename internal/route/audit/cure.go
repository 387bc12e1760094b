package audit

import (
	"fmt"

	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/unit"
)

// cure tries a cure on a copy of the site.
func (c *checker) cure(s *route.Shortfall, pipe int, place string) {
	if s.Reason == route.NoHose { // without a hose nothing can be tried
		c.untried(s, place)
		return
	}
	switch s.Cure.Kind {
	case route.NotSought:
		if !c.plan.Stopped {
			c.add(RuleCure, place, "no cure was looked for, and the planning was not stopped")
		}
		c.untried(s, place)
		return
	case route.ClearByHand:
		c.untried(s, place) // a person with a tool needs no run
		return
	case route.OtherSpot:
		if s.Reason == route.NoSpot { // without a spot nothing can be tried
			c.untried(s, place)
			return
		}
	case route.LongerHose, route.NewCleanout, route.SmallerHose, route.OtherNozzle, route.StrongerRig, route.MoreWater:
	default:
		c.add(RuleCure, place, "there is no cure %q", s.Cure.Kind)
		return
	}
	c.dose(s, place)
	mended := c.mend(s)
	if mended == nil {
		c.add(RuleCure, place, "the cure %s cannot be tried: %+v", s.Cure.Kind, s.Cure)
		return
	}
	if c.turnsFlow(mended, s.Cure.Pipe) {
		return
	}
	w := c.forgets(s)
	rest, cut := mended.pipe[s.Cure.Pipe+trialID] // what a new cleanout leaves below it
	left := cut && mended.pipes[rest].target && !mended.reachable(rest, waiver{slack: lenient})
	if left || !mended.reachable(mended.pipe[s.Pipe], w) {
		c.add(RuleCure, place, "the cure %s does not make the pipe reachable: %s", s.Cure.Kind, metres(s.Cure.Length))
		return
	}
	switch s.Cure.Kind {
	case route.LongerHose, route.OtherSpot, route.NewCleanout:
		c.gains(s, mended, w, place)
	default:
		c.untried(s, place)
	}
}

// turnsFlow tells whether a trial changed the way that a pipe flows, other than
// the pipe it cut. A cut in a loop may, where the ways round it are as good as
// each other; then the trial says nothing about the cure.
func (c *checker) turnsFlow(mended *ground, cut network.PipeID) bool {
	for i := range c.pipes {
		j := mended.pipe[c.pipes[i].ID]
		if c.nodeID(c.graph.Up[i]) != mended.nodeID(mended.graph.Up[j]) {
			return true
		}
		if c.pipes[i].ID != cut && c.pipeID(c.graph.Next[i]) != mended.pipeID(mended.graph.Next[j]) {
			return true
		}
	}
	return false
}

func (g *ground) pipeID(i int) network.PipeID {
	if i < 0 {
		return ""
	}
	return g.pipes[i].ID
}

// untried checks that a cure that was not tried on the site promises nothing.
func (c *checker) untried(s *route.Shortfall, place string) {
	if s.Cure.Gains != 0 || s.Cure.Length != 0 {
		c.add(RuleCure, place, "the cure %s was not tried, and has %s and gains %s",
			s.Cure.Kind, metres(s.Cure.Length), metres(s.Cure.Gains))
	}
}

// dose checks that a cure of the reel is no larger than it must be.
func (c *checker) dose(s *route.Shortfall, place string) {
	access, okAccess := c.node[s.Access]
	spot := c.spot(s.Spot)
	switch {
	case s.Cure.Kind == route.LongerHose:
		c.sameLength(RuleCure, place, "hose to add", s.Cure.Length, s.ByLength)
	case s.Cure.Kind == route.OtherSpot && okAccess && spot != nil:
		lay := c.site.LayLength(spot, &c.net.Nodes[access])
		c.sameLength(RuleCure, place, "lay from another spot", s.Cure.Length, lay-s.ByLength)
	}
}

// forgets gives the access that a cure is for, and the rules that it does away
// with where it cannot be tried on the site: nobody says which other hose,
// nozzle or rig.
func (c *checker) forgets(s *route.Shortfall) waiver {
	w := waiver{slack: lenient}
	switch s.Cure.Kind {
	case route.OtherSpot:
		w.only = s.Access
	case route.NewCleanout:
		w.only = c.nodeID(c.graph.Down[c.pipe[s.Cure.Pipe]]) + trialID
	case route.SmallerHose:
		w.hose, w.reel, w.pull = true, true, true
	case route.OtherNozzle:
		w.pull = true
	case route.StrongerRig:
		w.pull, w.tank = true, true
	case route.MoreWater:
		w.tank = true
	}
	return w
}

// gains checks the length of given up pipe that a cure tried on the site makes
// reachable; whether or not lesser nozzles are taken to spare water. Of a longer
// hose a plan may tell what it gains through the shortfall's access alone.
func (c *checker) gains(s *route.Shortfall, mended *ground, w waiver, place string) {
	strictly := w
	strictly.slack.lesser = false
	afters := []waiver{w, strictly}
	if s.Cure.Kind == route.LongerHose {
		alone, strictlyAlone := w, strictly
		alone.only, strictlyAlone.only = s.Access, s.Access
		afters = []waiver{alone, strictlyAlone, w, strictly}
	}
	var sum unit.Length
	for _, before := range []waiver{beyondDoubt, {slack: lenient}} {
		for _, after := range afters {
			sum = c.gained(mended, before, after)
			if near(float64(s.Cure.Gains), float64(sum), hair) {
				return
			}
		}
	}
	c.sameLength(RuleCure, place, fmt.Sprintf("length gained by %s", s.Cure.Kind), s.Cure.Gains, sum)
}

// gained is the length of the shortfalls' pipe that could not be cleaned before
// a cure and can after.
func (c *checker) gained(mended *ground, before, after waiver) unit.Length {
	var sum unit.Length
	for _, s := range c.plan.Shortfalls {
		i, ok := c.pipe[s.Pipe]
		if ok && !c.reachable(i, before) && mended.reachable(mended.pipe[s.Pipe], after) {
			sum += c.pipes[i].length
		}
	}
	return sum
}

// A trial is a copy of the site with one thing mended, surveyed anew.
type trialKey struct {
	route.Cure
	hose   string
	access network.NodeID
}

// mend is the site with a cure tried on it, the site itself where the cure
// only does away with rules, nil where the cure makes no sense.
func (c *checker) mend(s *route.Shortfall) *ground {
	key := trialKey{s.Cure, s.Hose, s.Access}
	mended, known := c.trials[key]
	if known {
		return mended
	}
	switch s.Cure.Kind {
	case route.LongerHose:
		mended = c.withLongerHose(s.Hose, s.Cure.Length)
	case route.OtherSpot:
		mended = c.withSpotNear(s.Access, s.Cure.Length)
	case route.NewCleanout:
		mended = c.withCleanout(s.Cure.Pipe, s.Cure.At)
	default:
		mended = c.ground
	}
	c.trials[key] = mended
	return mended
}
