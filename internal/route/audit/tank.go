package audit

import (
	"math"
	"time"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// The tank, on paper: its level is a straight line over each event.

// inflow is the refill at a spot.
func (g *ground) inflow(spot *site.Spot) unit.Flow {
	q, _ := g.site.Inflow(spot)
	return q
}

// needs is the level at which a pass may start: the engine's, or more where
// the pass draws the tank down to the stop level.
func (g *ground) needs(inflow, flow unit.Flow, d time.Duration) unit.Volume {
	tank := &g.site.Rig.Tank
	return max(tank.Start, tank.Stop+max(0, drawn(flow-inflow, d)))
}

// holds tells whether a full tank serves a pass.
func (g *ground) holds(inflow, flow unit.Flow, d time.Duration) bool {
	return float64(g.needs(inflow, flow, d)) <= float64(g.site.Rig.Tank.Volume)+drop
}

// after is the level after a net inflow.
func (g *ground) after(level unit.Volume, net unit.Flow, d time.Duration) unit.Volume {
	return max(0, min(g.site.Rig.Tank.Volume, level+drawn(net, d)))
}

// trip is the time of the quickest trip from a spot to a water point and back
// with a full tank, in seconds; ok is false where the site has no water.
func (g *ground) trip(spot *site.Spot, level unit.Volume) (seconds float64, ok bool) {
	best := math.Inf(1)
	for i := range g.site.Water {
		w := &g.site.Water[i]
		flow := w.Flow
		if most := g.site.Rig.Supply.MaxFlow; most > 0 {
			flow = min(flow, most)
		}
		if flow > 0 {
			best = min(best, 2*g.tow(spot.At, w.At)+float64(g.site.Rig.Tank.Volume-level)/float64(flow))
		}
	}
	return best, !math.IsInf(best, 1)
}

// straight is the straight distance between two places.
func straight(a, b network.Point) unit.Length {
	return unit.Length(math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y)))
}
