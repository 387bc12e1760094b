package route

import (
	"slices"

	"linemap/internal/unit"
)

// explain says of every target that is not cleaned why, and what would cure
// it. dry lists those that only the water kept from being cleaned.
func (c *catalogue) explain(dry []int, lacking unit.Volume) []Shortfall {
	var out []Shortfall
	missing := map[int]bool{}
	for p := range c.pipes {
		if c.pipes[p].target && (!c.reachable[p] || slices.Contains(dry, p)) {
			missing[p] = true
		}
	}
	cleanouts := map[int]trialResult{}
	for p := range c.pipes {
		if !missing[p] {
			continue
		}
		s := c.blank(p)
		if c.reachable[p] {
			s.Reason, s.ByWater, s.Cure = NoWater, lacking, Cure{Kind: MoreWater}
		} else {
			c.explainOne(p, &s, missing, cleanouts)
		}
		out = append(out, s)
	}
	return out
}

func (c *catalogue) blank(p int) Shortfall {
	pipe := &c.site.Network.Pipes[p]
	return Shortfall{Pipe: pipe.ID, Name: c.g.PipeName(p), Size: pipe.Size, Length: c.pipes[p].length}
}

func (c *catalogue) explainOne(p int, s *Shortfall, missing map[int]bool, cleanouts map[int]trialResult) {
	if len(c.spots) == 0 {
		s.Reason, s.Cure = NoSpot, Cure{Kind: OtherSpot}
		return
	}
	tries := c.attempts(p)
	if len(tries) == 0 {
		s.Reason = NoAccess
	}
	best := -1
	for i := range tries {
		if best < 0 || tries[i].better(&tries[best]) {
			best = i
		}
	}
	cure, by, found := c.cheapestCure(p, tries, missing, cleanouts)
	if by >= 0 {
		best = by
	}
	if best >= 0 {
		c.reasonOf(p, &tries[best], s)
	}
	if !found {
		cure = fallbackCure(s.Reason)
	}
	s.Cure = cure
}

// reasonOf writes down the first rule that an attempt broke.
func (c *catalogue) reasonOf(p int, t *attempt, s *Shortfall) {
	acc := c.access[t.way.access].node
	s.Access, s.AccessName = c.site.Network.Nodes[acc].ID, c.g.NodeName(acc)
	s.Hose, s.HoseName = c.site.Rig.Hoses[t.way.hose].ID, c.site.Rig.Hoses[t.way.hose].Name
	switch {
	case len(t.broken) > 0:
		b := t.broken[0]
		s.Reason, s.What = b.reason, b.what
		s.ByBends, s.ByForce, s.ByAngle = b.bends, b.force, b.angle
		c.placeOf(b, s)
	case !t.reelHolds():
		s.Reason, s.ByLength = OverReel, t.over
		s.Spot, s.SpotName = c.spots[t.spot].spot.ID, c.spots[t.spot].spot.Label
	default:
		s.Reason, s.ByWater = NoWater, c.overTank(p)
		s.Access, s.AccessName, s.Hose, s.HoseName = "", "", "", ""
	}
}

// placeOf names where a rule was broken: at the node for what stands in a node,
// else in the pipe.
func (c *catalogue) placeOf(b breach, s *Shortfall) {
	s.AtPipe, s.AtName = c.site.Network.Pipes[b.pipe].ID, c.g.PipeName(b.pipe)
	switch b.reason {
	case Blocked, BranchTurn, TurnTooSharp:
		if b.node >= 0 {
			s.AtNode, s.AtName = c.site.Network.Nodes[b.node].ID, c.g.NodeName(b.node)
		}
	}
}

// overTank is how much larger the tank would have to be to clean one pipe, at
// the least.
func (c *catalogue) overTank(p int) unit.Volume {
	tank := &c.site.Rig.Tank
	least := unit.Volume(-1)
	for i := range c.columns {
		col := &c.columns[i]
		if col.low != p || col.prev >= 0 {
			continue
		}
		passes, ok := c.passesOf(col)
		if !ok {
			continue
		}
		for s := range c.spots {
			var over unit.Volume
			for _, pass := range passes {
				need, _ := tank.Need(c.draw(pass), c.spots[s].inflow, pass.time.duration())
				over = max(over, need-tank.Volume)
			}
			if least < 0 || over < least {
				least = over
			}
		}
	}
	return max(0, least)
}
