package replay

import (
	"time"

	"linemap/internal/route"
	"linemap/internal/unit"
)

// tank is the tank's content so long after an event began. It goes from Before to
// After at the event's flow, and stays there once it got there: at the brim while
// the inflow goes on, or at the bottom.
func (r *Replay) tank(e *route.Event, sc *scene, since time.Duration) unit.Volume {
	if since >= e.Takes || e.Before == e.After {
		return e.After
	}
	moved := unit.Volume(float64(r.flow(e, sc)) * since.Seconds())
	if e.After > e.Before {
		return min(e.Before+max(0, moved), e.After)
	}
	return max(e.Before+min(0, moved), e.After)
}

// flow is the flow into the tank during an event, negative out of it. Of a trip
// for water nothing is known but its ends; its flow is their difference, as if it
// came in all the way.
func (r *Replay) flow(e *route.Event, sc *scene) unit.Flow {
	mean := unit.Flow(float64(e.After-e.Before) / e.Takes.Seconds())
	if e.Block < 0 || e.Block >= len(r.blocks) {
		return mean
	}
	inflow := r.blocks[e.Block].inflow
	switch {
	case e.Kind == route.EventJet && sc.pass != nil:
		return inflow - sc.pass.Flow
	case e.After < e.Before: // drained, or drained while packing up
		if drain := r.site.Rig.Tank.Drain; drain > 0 {
			return -drain
		}
	case inflow > 0:
		return inflow
	}
	return mean
}
