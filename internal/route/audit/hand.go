package audit

import (
	"fmt"
	"slices"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/route"
	"linemap/internal/site"
)

// hand is what was decided by hand about single runs and is in force.
type hand struct {
	bar map[site.RunKey]bool
	// keep holds each kept run by its last pipe.
	keep map[network.PipeID]site.RunKey
}

// allows tells whether a run may be made: it is not barred, and it does not
// clean the last pipe of a kept run, which can be cleaned but once, in place of
// that run.
func (h *hand) allows(g *ground, t *track, cleaned []bool, spot *site.Spot, hose *rig.Hose) bool {
	if h == nil {
		return true
	}
	key := site.RunKey{
		Spot: spot.ID, Hose: hose.ID, Access: g.nodeID(t.access),
		End: g.pipeID(t.hops[len(t.hops)-1].pipe), Downstream: t.down,
	}
	if h.bar[key] {
		return false
	}
	for i, hop := range t.hops {
		if kept, ok := h.keep[g.pipeID(hop.pipe)]; ok && cleaned[i] && kept != key {
			return false
		}
	}
	return true
}

// ordered tells whether the order of the runs was made by hand.
func (c *checker) ordered() bool { return len(c.site.ByHand.Order) > 0 }

// named is a run as decided on, found on the site.
type named struct {
	key  site.RunKey
	spot *site.Spot
	hose *rig.Hose
	track
	// ways are all ways that the key may mean: more than one where pipes run in
	// a loop. The track is the first.
	ways []track
	name string
}

// find finds a run by its key.
func (c *checker) find(key site.RunKey) (n named, ok bool) {
	n = named{key: key, spot: c.spot(key.Spot), hose: c.hose(key.Hose)}
	access, okAccess := c.node[key.Access]
	end, okEnd := c.pipe[key.End]
	if n.spot == nil || n.hose == nil || !okAccess || !okEnd {
		return n, false
	}
	n.name = fmt.Sprintf("run by hand from %s to %s", c.nodeName(access), c.pipeName(end))
	for _, w := range c.ways(end) {
		if w.access == access && w.down == key.Downstream {
			n.ways = append(n.ways, c.walk(w))
		}
	}
	if len(n.ways) == 0 {
		return n, false
	}
	n.track = n.ways[0]
	return n, true
}

// findAll finds the runs of a list, each once, and lists those that are none.
func (c *checker) findAll(keys []site.RunKey) (found []named, unknown []site.RunKey) {
	seen := map[site.RunKey]bool{}
	for _, key := range keys {
		if seen[key] {
			continue
		}
		seen[key] = true
		if n, ok := c.find(key); ok {
			found = append(found, n)
		} else {
			unknown = append(unknown, key)
		}
	}
	return found, unknown
}

// byHand checks that decisions made by hand are heeded, or that the plan says
// why they are not.
func (c *checker) byHand() {
	d, told := &c.site.ByHand, c.plan.ByHand
	if any := len(d.Keep)+len(d.Bar)+len(d.Order) > 0; !any || told == nil {
		if any != (told != nil) {
			c.differ(RuleHand, "plan", "it tells of decisions made by hand", told != nil, any)
		}
		return
	}
	c.handCost()
	keep, gone := c.findAll(d.Keep)
	bar, goneBar := c.findAll(d.Bar)
	order, goneOrder := c.findAll(d.Order)
	_, unknown := c.findAll(slices.Concat(gone, goneBar, goneOrder))
	if !slices.Equal(unknown, told.Unknown) {
		c.differ(RuleHand, "plan", "runs by hand that are none", told.Unknown, unknown)
	}
	for i := range told.Broken {
		c.handBreach(&told.Broken[i], told.Broken[:i])
	}
	if c.ordered() {
		c.handOrder(order, bar)
		c.keptOutOfOrder(keep)
		return
	}
	c.handKeep(keep)
	c.handBar(bar)
}

// handCost checks what the decisions cost and which pipes they leave.
func (c *checker) handCost() {
	told := c.plan.ByHand
	if told.More != c.plan.Cost-told.Free || told.Free < 0 {
		c.differ(RuleHand, "plan", "what the decisions cost", told.More, c.plan.Cost-told.Free)
	}
	var left []network.PipeID
	dry := false
	for _, s := range c.plan.Shortfalls {
		if c.isByHand(s.Reason) {
			left = append(left, s.Pipe)
		}
		dry = dry || s.Reason == route.NoWater
	}
	if !slices.Equal(left, told.Left) {
		c.differ(RuleHand, "plan", "pipes that only the decisions leave", told.Left, left)
	}
	if told.FreeProven && len(left) == 0 && !dry && !c.ordered() && c.plan.Cost < told.Free {
		c.differ(RuleHand, "plan", "no plan is cheaper than the planner's own, if that is proved to be the best", c.plan.Cost, told.Free)
	}
}

// handKeep checks that every kept run is made, or told not to be.
func (c *checker) handKeep(keep []named) {
	for _, n := range keep {
		if made, broken := c.made(n.key), c.toldNotMade(n.key); made == broken {
			c.differ(RuleHand, n.name, "a kept run is made, or told not to be",
				fmt.Sprintf("made %v, told not to be %v", made, broken), "one of them")
		}
	}
}

// handBar checks that no barred run is made, and that those are told that
// cannot be made anyway.
func (c *checker) handBar(bar []named) {
	for i := range bar {
		n := &bar[i]
		switch told := c.toldNotMade(n.key); {
		case c.made(n.key):
			c.add(RuleHand, n.name, "the run is barred, and is made")
		case !told && !c.makeable(n, lenient):
			c.add(RuleHand, n.name, "the barred run cannot be made anyway, and that is not told")
		}
	}
}

func (c *checker) made(key site.RunKey) bool { return slices.Contains(c.plan.Keys(), key) }

func (c *checker) toldNotMade(key site.RunKey) bool {
	return slices.ContainsFunc(c.plan.ByHand.Broken, func(b route.Breach) bool { return b.Key == key && !b.Made() })
}

// tells tells whether the plan tells a breach of a run.
func (c *checker) tells(key site.RunKey, what route.BreachKind) (*route.Breach, bool) {
	for i := range c.plan.ByHand.Broken {
		if b := &c.plan.ByHand.Broken[i]; b.Key == key && b.What == what {
			return b, true
		}
	}
	return nil, false
}

// heeded tells whether the plan would make a kept run, if the water lasted.
func (c *checker) heeded(key site.RunKey) bool {
	_, dry := c.tells(key, route.OutOfWater)
	return dry || !c.toldNotMade(key)
}

// inForce are the decisions about single runs that the plan heeds, but for the
// one about a run that is left out.
func (c *checker) inForce(but site.RunKey) *hand {
	h := &hand{bar: map[site.RunKey]bool{}, keep: map[network.PipeID]site.RunKey{}}
	if c.plan.ByHand == nil {
		return h
	}
	for _, key := range c.site.ByHand.Bar {
		h.bar[key] = key != but
	}
	for _, key := range c.site.ByHand.Keep {
		if _, ok := c.find(key); ok && key != but && c.heeded(key) {
			h.keep[key.End] = key
		}
	}
	return h
}
