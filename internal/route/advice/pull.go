package advice

import (
	"context"
	"maps"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// Doubt is a shortfall by the pull alone in the low case: with friction and hose
// as is likely, or as is best, some run would reach the pipe.
type Doubt struct {
	Pipe   network.PipeID `json:"pipe"`
	Name   string         `json:"name"`
	Length unit.Length    `json:"length"`
	// Likely says that it is reached in the likely case, else only in the best.
	Likely bool `json:"likely"`
}

// Say says in one plain sentence what that means.
func (d *Doubt) Say() string {
	if d.Likely {
		return "would likely be reached: the pull is short only in the low case"
	}
	return "would be reached at best: the pull is short in the likely case too"
}

// Doubts lists the shortfalls by pull that are reached in the likely or in the
// high case. What the plan cleans is reached even in the low case.
func Doubts(ctx context.Context, s *site.Site, t *site.Tables, p *route.Plan) ([]Doubt, error) {
	var out []Doubt
	reached := map[network.PipeID]rig.Case{}
	for _, c := range []rig.Case{rig.HighReach, rig.LikelyReach} {
		if !slipsAny(p) {
			return nil, nil
		}
		with, tables := inCase(s, t, c)
		o, err := route.Solve(ctx, with, tables, route.Options{})
		if err != nil {
			return nil, err
		}
		left := map[network.PipeID]bool{}
		for _, f := range o.Shortfalls {
			left[f.Pipe] = true
		}
		for _, f := range p.Shortfalls {
			if f.Reason == route.PullShort && !left[f.Pipe] {
				reached[f.Pipe] = c
			}
		}
	}
	for _, f := range p.Shortfalls {
		if c, ok := reached[f.Pipe]; ok {
			out = append(out, Doubt{Pipe: f.Pipe, Name: f.Name, Length: f.Length, Likely: c == rig.LikelyReach})
		}
	}
	return out, nil
}

func slipsAny(p *route.Plan) bool {
	for _, f := range p.Shortfalls {
		if f.Reason == route.PullShort {
			return true
		}
	}
	return false
}

// inCase is a site and its tables where the low case is another.
func inCase(s *site.Site, t *site.Tables, c rig.Case) (*site.Site, *site.Tables) {
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
