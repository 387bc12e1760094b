package replay

import (
	"time"

	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// Tank is the water of a plan over the day.
type Tank struct {
	site    *site.Site
	plan    *route.Plan
	inflows []unit.Flow // by block
}

// NewTank prepares the tank of a plan.
func NewTank(s *site.Site, p *route.Plan) *Tank {
	t := &Tank{site: s, plan: p}
	for b := range p.Blocks {
		var in unit.Flow
		if spot := spotOf(s, &p.Blocks[b]); spot != nil {
			in, _ = s.Inflow(spot)
		}
		t.inflows = append(t.inflows, in)
	}
	return t
}

// Within is the tank's content so long after an event of the day began. It goes
// from Before to After at the event's flow, and stays there once it got there: at
// the brim while the inflow goes on, or at the bottom.
func (t *Tank) Within(event int, since time.Duration) unit.Volume {
	e := &t.plan.Day[event]
	if since >= e.Takes || e.Before == e.After {
		return e.After
	}
	moved := unit.Volume(float64(t.flow(e)) * since.Seconds())
	if e.After > e.Before {
		return min(e.Before+max(0, moved), e.After)
	}
	return max(e.Before+min(0, moved), e.After)
}

// flow is the flow into the tank during an event, negative out of it. Of a trip
// for water nothing is known but its ends; its flow is their difference, as if it
// came in all the way.
func (t *Tank) flow(e *route.Event) unit.Flow {
	mean := unit.Flow(float64(e.After-e.Before) / e.Takes.Seconds())
	if e.Block < 0 || e.Block >= len(t.inflows) {
		return mean
	}
	pass := passOf(t.plan, e)
	switch in := t.inflows[e.Block]; {
	case e.Kind == route.EventJet && pass != nil:
		return in - pass.Flow
	case e.After < e.Before: // drained, or drained while packing up
		if drain := t.site.Rig.Tank.Drain; drain > 0 {
			return -drain
		}
	case in > 0:
		return in
	}
	return mean
}
