package advice

import (
	"context"
	"time"

	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// Outcome is what a plan comes to.
type Outcome struct {
	Cleaned unit.Length `json:"cleaned"`
	Missing unit.Length `json:"missing"`
	Runs    int         `json:"runs"`
	Moves   int         `json:"moves"`
	// Likely is the day with deposits as noted, Low and High with all of them
	// milder and worse.
	Likely time.Duration `json:"likely_minutes"`
	Low    time.Duration `json:"low_minutes"`
	High   time.Duration `json:"high_minutes"`
	Water  unit.Volume   `json:"water"`
	// LeastPressure is the least that any pass has at the nozzle, 0 without a
	// pass.
	LeastPressure unit.Pressure `json:"least_pressure"`
	// Proven says that no plan is cheaper; Stopped that the search was broken off.
	Proven  bool `json:"proven"`
	Stopped bool `json:"stopped,omitzero"`
	// Doubts are told of the site as it stands and of other rigs.
	Doubts []Doubt `json:"doubts,omitzero"`

	Plan *route.Plan `json:"-"`
}

// Weigh plans a site and says what the plan comes to.
func Weigh(ctx context.Context, s *site.Site, t *site.Tables) (Outcome, error) {
	p, err := route.Solve(ctx, s, t, route.Options{})
	if err != nil {
		return Outcome{}, err
	}
	return outcomeOf(s, t, p)
}

func outcomeOf(s *site.Site, t *site.Tables, p *route.Plan) (Outcome, error) {
	o := Outcome{Likely: p.Cost, Proven: p.Proven, Stopped: p.Stopped, Plan: p}
	for i, b := range p.Blocks {
		if i > 0 && b.Spot != p.Blocks[i-1].Spot {
			o.Moves++
		}
	}
	for _, r := range p.Runs() {
		o.Runs++
		o.Water += r.Water
		for _, leg := range r.Path {
			if leg.Cleaned {
				o.Cleaned += leg.To - leg.From
			}
		}
		for _, pass := range r.Passes {
			if at := pass.Operating.Nozzle; o.LeastPressure == 0 || at < o.LeastPressure {
				o.LeastPressure = at
			}
		}
	}
	for _, f := range p.Shortfalls {
		o.Missing += f.Length
	}
	for _, by := range []struct {
		shift route.Shift
		to    *time.Duration
	}{{route.Milder, &o.Low}, {route.Worse, &o.High}} {
		q, err := p.Shifted(s, t, by.shift)
		if err != nil {
			return Outcome{}, err
		}
		*by.to = q.Cost
	}
	return o, nil
}

// hair is the length below which two lengths of pipe are the same.
const hair = unit.Length(1e-6)

// Better tells whether one outcome is better than another: more reached first,
// then fewer minutes.
func (o *Outcome) Better(than *Outcome) bool {
	if d := o.Missing - than.Missing; d < -hair || d > hair {
		return d < 0
	}
	return o.Likely < than.Likely
}
