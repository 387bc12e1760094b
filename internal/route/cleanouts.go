package route

import (
	"slices"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// Cleanout is a place for a new cleanout: the lower end of a pipe that no run
// reaches, and the pipes that runs could clean from there.
type Cleanout struct {
	Pipe    network.PipeID   `json:"pipe"`
	Name    string           `json:"name"` // of the pipe, for a reader
	At      unit.Length      `json:"at"`   // from the pipe's upper end
	Reaches []network.PipeID `json:"reaches"`
	Gains   unit.Length      `json:"gains"`
}

// Cleanouts lists, in the order of the pipes, every place for one new cleanout
// that lets runs reach pipe of the job that they do not reach.
func Cleanouts(s *site.Site, t *site.Tables) ([]Cleanout, error) {
	m, err := newModel(s, t)
	if err != nil {
		return nil, err
	}
	e := newExplainer(newCatalogue(m))
	for p := range e.pipes {
		e.missing[p] = e.pipes[p].target && !e.reachable[p]
	}
	var out []Cleanout
	for p, yes := range e.missing {
		if !yes || e.ring(p) {
			continue
		}
		g := e.gainFrom(e.withCleanout(p))
		o := Cleanout{
			Pipe: s.Network.Pipes[p].ID, Name: e.g.PipeName(p), At: e.pipes[p].length, Gains: g.length,
		}
		for q := range g.reach {
			if e.missing[q] {
				o.Reaches = append(o.Reaches, s.Network.Pipes[q].ID)
			}
		}
		if slices.Sort(o.Reaches); len(o.Reaches) > 0 {
			out = append(out, o)
		}
	}
	return out, nil
}
