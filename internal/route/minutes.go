package route

import "time"

// KindMinutes is the time that one kind of event takes over the whole day.
type KindMinutes struct {
	Kind  EventKind     `json:"kind"`
	Takes time.Duration `json:"takes_minutes"`
}

// eventKinds lists the kinds of event in the order in which papers show them.
func eventKinds() []EventKind {
	return []EventKind{
		EventSetUp, EventOpen, EventStart, EventJet, EventNozzleChange, EventHoseChange,
		EventWait, EventFill, EventDrain, EventMove, EventPackUp,
	}
}

// MinutesBy sums the day by kind of event, in a fixed order, leaving out kinds
// that take no time. The sums add up to Cost.
func (p *Plan) MinutesBy() []KindMinutes {
	sums := map[EventKind]time.Duration{}
	for _, e := range p.Day {
		sums[e.Kind] += e.Takes
	}
	var out []KindMinutes
	for _, k := range eventKinds() {
		if sums[k] > 0 {
			out = append(out, KindMinutes{k, sums[k]})
		}
	}
	return out
}

// Runs lists all runs of the plan in order.
func (p *Plan) Runs() []*Run {
	var out []*Run
	for b := range p.Blocks {
		for r := range p.Blocks[b].Runs {
			out = append(out, &p.Blocks[b].Runs[r])
		}
	}
	return out
}

// Gap is how far Cost may be from the best possible, as a share of Cost.
func (p *Plan) Gap() float64 { return gap(p.Cost, p.Bound) }

// Gap is how far Cost may be from the best possible, as a share of Cost.
func (p Progress) Gap() float64 { return gap(p.Cost, p.Bound) }

func gap(cost, bound time.Duration) float64 {
	if cost <= 0 {
		return 0
	}
	return float64(cost-bound) / float64(cost)
}
