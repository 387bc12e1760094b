package advice

import (
	"maps"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// Doubt is pipe that fails by the pull alone: at the low reach, by which the
// plan is made, no run has pull enough for it, but with friction and hose as is
// likely, or as is best, one has.
type Doubt struct {
	Pipe   network.PipeID `json:"pipe"`
	Name   string         `json:"name"`
	Length unit.Length    `json:"length"`
	// Likely and High say whether it is reached at the likely and at the high
	// reach.
	Likely bool `json:"likely"`
	High   bool `json:"high"`
}

// doubts lists the shortfalls of a plan that are reached at the likely or at the
// high reach. What the plan cleans is reached even at the low one.
func doubts(s *site.Site, t *site.Tables, p *route.Plan) ([]Doubt, error) {
	if len(p.Shortfalls) == 0 {
		return nil, nil
	}
	var fails [rig.HighReach + 1]map[network.PipeID]bool
	for c := range fails {
		with, tables := inCase(s, t, rig.Case(c))
		missed, err := route.Missed(with, tables)
		if err != nil {
			return nil, err
		}
		fails[c] = map[network.PipeID]bool{}
		for _, id := range missed {
			fails[c][id] = true
		}
	}
	var out []Doubt
	for _, f := range p.Shortfalls {
		d := Doubt{
			Pipe: f.Pipe, Name: f.Name, Length: f.Length,
			Likely: !fails[rig.LikelyReach][f.Pipe], High: !fails[rig.HighReach][f.Pipe],
		}
		if fails[rig.LowReach][f.Pipe] && (d.Likely || d.High) {
			out = append(out, d)
		}
	}
	return out, nil
}

// MissingAt is the pipe missing at the likely and at the high reach.
func (o *Outcome) MissingAt() (likely, high unit.Length) {
	likely, high = o.Missing, o.Missing
	for _, d := range o.Doubts {
		if d.Likely {
			likely -= d.Length
		}
		if d.High {
			high -= d.Length
		}
	}
	return max(likely, 0), max(high, 0) // sums in another order
}

// inCase is a site and its tables where the low case is another.
func inCase(s *site.Site, t *site.Tables, c rig.Case) (*site.Site, *site.Tables) {
	if c == rig.LowReach {
		return s, t
	}
	with, tables := *s, *t
	with.ByHand, with.Rig = site.ByHand{}, s.Rig.Clone()
	for i := range with.Rig.Hoses {
		h := &with.Rig.Hoses[i]
		if h.MassSpread = 0; c == rig.HighReach {
			h.MassSpread = -s.Rig.Hoses[i].MassSpread // the light hose
		}
	}
	tables.Materials = maps.Clone(t.Materials)
	for name, m := range tables.Materials {
		m.Friction.High = m.Friction.Of(c)
		tables.Materials[name] = m
	}
	return &with, &tables
}
