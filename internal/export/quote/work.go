package quote

import (
	"maps"
	"slices"
	"time"

	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// Work is what a plan does that prices are for.
type Work struct {
	// Hours is the time of the whole crew, Night the part of it in the hours
	// that the prices call night. NightUnknown says that the job has no start,
	// so that nobody can tell.
	Hours, Night time.Duration
	NightUnknown bool
	// Pipe is the pipe cleaned, by nominal size, the smallest first.
	Pipe []Stretch
	// RootRuns are the runs that cut roots, Roots the length of pipe with roots.
	RootRuns int
	Roots    unit.Length
	// Water is what the jets use.
	Water unit.Volume
	// Runs, Pipes, Openings and Spots count what the plan is made of.
	Runs, Pipes, Openings, Spots int
}

// Stretch is a length of pipe of one nominal size.
type Stretch struct {
	Size   unit.Size
	Length unit.Length
}

// Length is the length of all pipe cleaned.
func (w *Work) Length() (sum unit.Length) {
	for _, s := range w.Pipe {
		sum += s.Length
	}
	return sum
}

// Measure adds up the work of a plan of a site.
func Measure(s *site.Site, p *route.Plan) Work {
	w := Work{Hours: p.Cost}
	w.Night, w.NightUnknown = night(s, p.Cost)
	pipes := make(map[network.PipeID]*network.Pipe, len(s.Network.Pipes))
	for i := range s.Network.Pipes {
		pipes[s.Network.Pipes[i].ID] = &s.Network.Pipes[i]
	}
	bySize, openings, spots := map[unit.Size]unit.Length{}, map[network.NodeID]bool{}, map[site.SpotID]bool{}
	for b := range p.Blocks {
		spots[p.Blocks[b].Spot] = true
		for r := range p.Blocks[b].Runs {
			run := &p.Blocks[b].Runs[r]
			w.Runs++
			w.Water += run.Water
			openings[run.Access] = true
			if slices.ContainsFunc(run.Passes, func(q route.Pass) bool { return q.Kind == site.RootCutPass }) {
				w.RootRuns++
			}
			for _, leg := range run.Path {
				pipe := pipes[leg.Pipe]
				if !leg.Cleaned || pipe == nil {
					continue
				}
				w.Pipes++
				bySize[pipe.Size] += leg.To - leg.From
				if pipe.Deposit == network.Roots {
					w.Roots += leg.To - leg.From
				}
			}
		}
	}
	for _, size := range slices.Sorted(maps.Keys(bySize)) {
		w.Pipe = append(w.Pipe, Stretch{size, bySize[size]})
	}
	w.Openings, w.Spots = len(openings), len(spots)
	return w
}

// night is how much of so much work, begun at the job's start and parted into
// working days, falls into the hours that the prices call night; unknown says
// that there are such hours and the job has no start.
func night(s *site.Site, work time.Duration) (sum time.Duration, unknown bool) {
	prices := &s.Prices
	from, okFrom := timeOfDay(prices.NightFrom)
	to, okTo := timeOfDay(prices.NightTo)
	if prices.NightPercent.IsZero() || !okFrom || !okTo {
		return 0, false
	}
	start, ok := timeOfDay(s.Job.Start)
	if !ok {
		return 0, true
	}
	days, rest := s.Rig.Crew.Day(work)
	shift := time.Duration(0)
	if days > 0 {
		shift = time.Duration(s.Rig.Crew.Shift * float64(time.Minute))
	}
	return time.Duration(days)*between(start, start+shift, from, to) + between(start, start+rest, from, to), false
}

const wholeDay = 24 * time.Hour

// between is how much of a stretch of time from a midnight on lies between two
// times of day, over midnight where the second is the earlier. Two equal times
// are the whole day.
func between(start, end, from, to time.Duration) (sum time.Duration) {
	if to <= from {
		to += wholeDay
	}
	for at := -wholeDay; at < end; at += wholeDay {
		sum += max(0, min(end, at+to)-max(start, at+from))
	}
	return sum
}

// timeOfDay reads a time of day of the document, 07:30.
func timeOfDay(s string) (time.Duration, bool) {
	t, err := time.Parse("15:04", s)
	if err != nil {
		return 0, false
	}
	return time.Duration(t.Hour())*time.Hour + time.Duration(t.Minute())*time.Minute, true
}
