package audit

import (
	"fmt"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// breach is one rule that a track breaks at a hop, and by how much, in the
// unit of the rule's figure (metres, radians, quarter bends, newtons).
type breach struct {
	rule   string
	reason route.Reason
	hop    int
	by     float64
	what   string
	// opening says that it is the opening that is too small.
	opening bool
}

// leeway is how strictly limits are read. A plan is judged with the slack that
// rounding needs; a search for a run that the plan has overlooked takes only
// what is allowed beyond doubt.
type leeway struct {
	length, angle, share float64
	// lesser says that a pass may take a lesser nozzle where the tank does not
	// hold the water of the best.
	lesser bool
}

var (
	lenient = leeway{length: hair, angle: hair, share: 1e-9, lesser: true}
	strict  = leeway{length: 0, angle: 1e-9, share: -1e-9}
)

// breaches lists the rules of access, turns, bends and sizes that a track
// breaks with a hose.
func (g *ground) breaches(t *track, hose *rig.Hose, slack leeway) []breach {
	out := g.accessBreaches(t, hose)
	for i := range t.hops {
		out = append(out, g.turnBreaches(t, i, hose, slack)...)
		out = append(out, g.sizeBreaches(t, i, hose)...)
	}
	return out
}

func (g *ground) accessBreaches(t *track, hose *rig.Hose) []breach {
	node := &g.net.Nodes[t.access]
	name := g.nodeName(t.access)
	if node.Kind != network.KindAccess || node.Access == nil {
		return []breach{{rule: RuleAccess, reason: route.NoAccess, what: name + " is no access"}}
	}
	var out []breach
	if node.Access.OutOfService {
		out = append(out, breach{rule: RuleAccess, reason: route.NoAccess, what: name + " is out of service"})
	}
	if !leads(node.Access, t.down) {
		out = append(out, breach{rule: RuleAccess, reason: route.NoAccess, what: name + " faces the other way"})
	}
	if node.Access.Size < hose.MinPipe {
		out = append(out, breach{
			rule: RuleAccess, reason: route.HoseTooLarge, opening: true,
			what: fmt.Sprintf("%s opens %v, the hose needs %v", name, node.Access.Size, hose.MinPipe),
		})
	}
	return out
}

func (g *ground) turnBreaches(t *track, i int, hose *rig.Hose, slack leeway) []breach {
	h := &t.hops[i]
	at := g.nodeName(h.node)
	var out []breach
	if !h.open {
		out = append(out, breach{rule: RulePath, reason: route.Blocked, hop: i, what: at + " is no way through: " + h.why})
	}
	if over := float64(h.sharpestTurn() - hose.Sharpest); !(over <= slack.angle) {
		out = append(out, breach{
			rule: RuleTurn, reason: route.TurnTooSharp, hop: i, by: over,
			what: fmt.Sprintf("a turn of %s at %s or behind it", degrees(h.sharpestTurn()), at),
		})
	}
	if over := float64(h.crossing.sharpest - hose.BranchTurn); h.branch && !(over <= slack.angle) {
		out = append(out, breach{
			rule: RuleTurn, reason: route.BranchTurn, hop: i, by: over,
			what: fmt.Sprintf("a branch at %s turns off by %s", at, degrees(h.crossing.sharpest)),
		})
	}
	over := t.bends(i+1) - hose.Bends
	if !(unit.QuarterBends(over).Radians() <= slack.angle) {
		out = append(out, breach{
			rule: RuleBends, reason: route.OverBends, hop: i, by: over,
			what: fmt.Sprintf("bends up to the end of %s are over the allowance", g.pipeName(h.pipe)),
		})
	}
	return out
}

func (g *ground) sizeBreaches(t *track, i int, hose *rig.Hose) []breach {
	p := g.pipes[t.hops[i].pipe]
	name := g.pipeName(t.hops[i].pipe)
	switch {
	case p.Size < hose.MinPipe:
		return []breach{{rule: RuleSize, reason: route.HoseTooLarge, hop: i, what: name + " is too small for the hose"}}
	case p.Size > hose.MaxPipe:
		return []breach{{rule: RuleSize, reason: route.HoseTooSmall, hop: i, what: name + " is too large for the hose"}}
	}
	return nil
}

// overReel is how much hose a track lacks from a spot to the end of its first
// n hops; negative is to spare.
func (g *ground) overReel(t *track, n int, spot *site.Spot, hose *rig.Hose) unit.Length {
	need := g.site.LayLength(spot, &g.net.Nodes[t.access]) + g.riser(t.access) + hose.Reserve
	if n > 0 {
		need += t.hops[n-1].far
	}
	return need - hose.Length
}
