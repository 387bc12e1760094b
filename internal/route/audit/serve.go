package audit

import (
	"slices"

	"linemap/internal/rig"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// allowed tells whether a hose may go all along a track, whatever the spot.
func (g *ground) allowed(t *track, hose *rig.Hose, w waiver) bool {
	for _, b := range g.breaches(t, hose, w.slack) {
		if w.hose && (b.rule == RuleTurn || b.rule == RuleBends || b.rule == RuleSize || b.opening) {
			continue
		}
		return false
	}
	if w.pull {
		return true
	}
	drags := g.drags(t, hose)
	for i := range t.hops {
		if !g.workable(t, i, hose, drags, w.slack) {
			return false
		}
	}
	return true
}

// workable tells whether each pass that one hop asks for has a nozzle, out to
// there.
func (g *ground) workable(t *track, hop int, hose *rig.Hose, drags []unit.Force, slack leeway) bool {
	if !g.pipes[t.hops[hop].pipe].target {
		return true
	}
	cleaned := make([]bool, len(t.hops))
	cleaned[hop] = true
	for _, d := range g.duties(t, cleaned) {
		if len(g.choices(t, &d, hose, drags, slack)) == 0 {
			return false
		}
	}
	return true
}

// served tells whether a run along an allowed track can be made from some spot:
// the hose is long enough there and the tank holds each pass.
func (g *ground) served(t *track, cleaned []bool, hose *rig.Hose, w waiver) bool {
	demands, ok := g.demands(t, cleaned, hose, w)
	if !ok {
		return false
	}
	for i := range g.site.Spots {
		spot := &g.site.Spots[i]
		if g.standsAt(t, spot, hose, w) && w.hand.allows(g, t, cleaned, spot, hose) && (w.tank || g.tankServes(spot, demands)) {
			return true
		}
	}
	return false
}

// standsAt tells whether the trailer can stand at a spot, near enough for a
// track.
func (g *ground) standsAt(t *track, spot *site.Spot, hose *rig.Hose, w waiver) bool {
	return usable(spot) && (w.reel || float64(g.overReel(t, len(t.hops), spot, hose)) <= w.slack.length)
}

// demand is what one pass asks of the tank: its time, and the flow of each
// nozzle that it may take.
type demand struct {
	flows []unit.Flow
	time  rounded
}

// demands gives the demand of each pass of a run; ok is false where one has no
// nozzle.
func (g *ground) demands(t *track, cleaned []bool, hose *rig.Hose, w waiver) (out []demand, ok bool) {
	if w.pull {
		return nil, true
	}
	drags := g.drags(t, hose)
	for _, d := range g.duties(t, cleaned) {
		nozzles := g.choices(t, &d, hose, drags, w.slack)
		if len(nozzles) == 0 {
			return nil, false
		}
		if !w.slack.lesser {
			nozzles = []*rig.Nozzle{g.best(t, &d, hose, nozzles)}
		}
		ask := demand{time: g.takes(t, &d)}
		for _, n := range nozzles {
			ask.flows = append(ask.flows, g.operate(hose, n, g.ceiling(t, d.far)).Flow)
		}
		out = append(out, ask)
	}
	return out, true
}

func (g *ground) tankServes(spot *site.Spot, demands []demand) bool {
	inflow := g.inflow(spot)
	for _, d := range demands {
		if !slices.ContainsFunc(d.flows, func(q unit.Flow) bool { return g.holds(inflow, q, d.time.least) }) {
			return false
		}
	}
	return true
}
