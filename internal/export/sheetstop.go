package export

import (
	"slices"
	"strings"

	"linemap/internal/route"
	"linemap/internal/site"
)

// setUps numbers the set-ups of the trailer, for each block the one that it
// belongs to. Blocks that follow each other on one spot share a set-up; the map
// numbers them in the same way.
func setUps(p *route.Plan) []int {
	numbers, n := make([]int, len(p.Blocks)), 0
	for i := range p.Blocks {
		if i == 0 || p.Blocks[i-1].Spot != p.Blocks[i].Spot {
			n++
		}
		numbers[i] = n
	}
	return numbers
}

// stops lists the blocks of the day in order.
func (w *wording) stops(p *route.Plan) []stop {
	stops, setUps := make([]stop, len(p.Blocks)), setUps(p)
	for i := range p.Blocks {
		b := &p.Blocks[i]
		var nums []int
		for j := range b.Runs {
			nums = append(nums, b.Runs[j].Number)
		}
		stops[i] = stop{
			SetUp: setUps[i], Clock: w.blockClock(p, i), Spot: w.spotName(b.Spot), Hose: w.hoseName(b.Hose),
			Runs: numbers(nums), Water: w.inflow(b.Spot),
		}
		switch s := w.spot(b.Spot); {
		case i > 0 && p.Blocks[i-1].Spot == b.Spot:
			stops[i].Place = sentences("The same spot, another hose", w.hazards(b))
		case s != nil:
			stops[i].Place = sentences(stops[i].Water, traffic(s.Traffic), s.Note, w.hazards(b))
		}
	}
	return stops
}

// blockClock is the time of day at which a block begins.
func (w *wording) blockClock(p *route.Plan, block int) string {
	i := slices.IndexFunc(p.Day, func(e route.Event) bool { return e.Block == block })
	if i < 0 {
		return ""
	}
	return clock(w.sys, w.site.Job.Start, &w.site.Rig.Crew, p.Day[i].Start)
}

// inflow says where a spot's water comes from: "hydrant W-1, 20 gpm, 85 ft of
// supply hose".
func (w *wording) inflow(id site.SpotID) string {
	s := w.spot(id)
	if s == nil {
		return ""
	}
	flow, point := w.site.Inflow(s)
	if point == nil {
		return "none in reach: work from the tank"
	}
	return list(w.waterPoint(point), w.sys.Flow(flow),
		w.sys.Length(w.site.SupplyLength(s, point))+" of supply hose")
}

// waterPoint names a water point: "hose bib W-1", "hydrant at the gate".
func (w *wording) waterPoint(p *site.WaterPoint) string {
	kind := word(waterWords, p.Kind)
	if strings.Contains(strings.ToLower(p.Label), kind) {
		return small(p.Label)
	}
	return strings.TrimSpace(kind + " " + p.Label)
}

// traffic says what a spot's traffic asks for.
func traffic(t site.Traffic) string {
	switch t {
	case site.ConedTraffic:
		return "traffic: cones and light"
	case site.LiveTraffic:
		return "live traffic"
	}
	return ""
}
