package export

import (
	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
)

// openWindows notes when each access is open: in each block from the first event
// of its first run to the last of its last.
func (w *wording) openWindows(p *route.Plan, of []*noticePlace) {
	whole, _ := runWindows(p)
	for b := range p.Blocks {
		open := map[network.NodeID]window{}
		var order []network.NodeID
		for i := range p.Blocks[b].Runs {
			run := &p.Blocks[b].Runs[i]
			at, ok := whole[run.Number]
			if !ok {
				continue
			}
			if was, ok := open[run.Access]; ok {
				at.from = was.from
			} else {
				order = append(order, run.Access)
			}
			open[run.Access] = at
		}
		for _, id := range order {
			if n, ok := w.graph.NodeIndex(id); ok && of[n] != nil {
				of[n].open = append(of[n].open, open[id])
			}
		}
	}
}

// dryWindows notes when no water may come from each place: while a pipe that it
// drains through is jetted or has the hose in it, from a run's first jet to its
// last.
func (w *wording) dryWindows(p *route.Plan, of []*noticePlace) {
	_, jets := runWindows(p)
	for _, run := range p.Runs() {
		at, ok := jets[run.Number]
		if !ok {
			continue
		}
		seen := map[*noticePlace]bool{}
		for _, n := range w.drainingInto(run) {
			if pl := of[n]; pl != nil && pl.drain && !seen[pl] {
				seen[pl] = true
				pl.dry = append(pl.dry, at)
			}
		}
	}
}

// drainingInto lists the nodes whose water comes through a pipe on a run's way.
func (w *wording) drainingInto(run *route.Run) []int {
	var nodes, todo []int
	seen := make([]bool, len(w.graph.Up))
	add := func(pipe int) {
		if !seen[pipe] {
			seen[pipe] = true
			todo = append(todo, pipe)
		}
	}
	for _, leg := range run.Path {
		if i, ok := w.graph.PipeIndex(leg.Pipe); ok {
			add(i)
		}
	}
	for len(todo) > 0 {
		up := w.graph.Up[todo[len(todo)-1]]
		todo = todo[:len(todo)-1]
		if up < 0 {
			continue
		}
		nodes = append(nodes, up)
		for _, q := range w.graph.Above[up] {
			add(q)
		}
	}
	return nodes
}

// spotWindows are the times in which the trailer stands at each spot, from the
// set-up to the end of the pack-up, in the order of the day.
func spotWindows(p *route.Plan) (order []site.SpotID, at map[site.SpotID][]window) {
	at = map[site.SpotID][]window{}
	for i := range p.Day {
		e := &p.Day[i]
		if e.Block < 0 || e.Block >= len(p.Blocks) || e.Kind == route.EventMove {
			continue
		}
		spot := p.Blocks[e.Block].Spot
		if len(at[spot]) == 0 {
			order = append(order, spot)
		}
		if n := len(at[spot]); n > 0 && at[spot][n-1].to == e.Start {
			at[spot][n-1].to = e.Start + e.Takes
			continue
		}
		at[spot] = append(at[spot], window{e.Start, e.Start + e.Takes})
	}
	return order, at
}
