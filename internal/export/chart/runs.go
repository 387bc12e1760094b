package chart

import (
	"slices"
	"strconv"

	"linemap/internal/export/drawing"
	"linemap/internal/export/label"
	"linemap/internal/route"
)

// runs draws, under the pipes, a ribbon along what each run cleans, pointed at
// its far end, and numbers it.
func (sd *storeyDraft) runs() {
	for i, r := range sd.plan.Blocks {
		for k := range r.Runs {
			sd.run(&swath{run: &r.Runs[k], tint: sd.tints[[2]int{i, k}], parts: sd.parts(&r.Runs[k])})
		}
	}
}

// swath is what a run cleans on a storey.
type swath struct {
	run   *route.Run
	tint  drawing.Colour
	parts []part
	box   extent
}

// run draws one run as far as it goes through this storey.
func (sd *storeyDraft) run(s *swath) {
	r, tint := s.run, s.tint
	var longest []drawing.Point
	numbered := false
	for _, part := range s.parts {
		for _, seen := range sd.visible(part.line) {
			numbered = true
			if longest == nil || lengthOf(seen) > lengthOf(longest) {
				longest = seen
			}
		}
		wide := part.width + 2*ribbonReach
		sd.list.Add(drawing.Runs,
			drawing.Path{Points: part.line, Pen: drawing.Pen{Width: wide, Ink: drawing.Grey}},
			drawing.Path{Points: part.line, Pen: drawing.Pen{Width: wide - 2*ribbonEdge, Ink: tint}})
		n := len(part.line)
		if turn, ok := heading(part.line[n-2], part.line[n-1]); ok && part.last && !(sd.board != nil && sd.overview()) {
			sd.list.Add(drawing.Runs, drawing.Mark{
				At: part.line[n-1], Symbol: drawing.Wedge, Size: wide + 1.2, Turn: turn,
				Pen: drawing.Pen{Width: ribbonEdge, Ink: drawing.Grey}, Fill: ink(tint),
			})
		}
	}
	if !numbered {
		return
	}
	sd.shown[strconv.Itoa(r.Number)] = true
	sym, kind := drawing.Disc, sampleRun
	if r.Direction == route.Downstream {
		sym, kind = drawing.Square, sampleDownstream
	}
	if sd.overview() {
		sd.saw(sample{kind: sampleRibbon})
		return
	}
	sd.saw(sample{kind: kind})
	for _, part := range sd.numbered(longest) {
		sd.badge(drawing.Runs, strconv.Itoa(r.Number), sym, drawing.Black, drawing.White, func(w, h float64) []label.Candidate {
			switch {
			case lengthOf(part) == 0: // a stack, seen from above
				return sd.beside(sd.frame.To(part[0]), stackSize/2, w, h)
			case sd.board == nil:
				return label.On(sd.onPaper(part), w, h, reach)
			case lengthOf(part)*sd.frame.Scale < 1.6*w:
				return nil
			}
			return label.Atop(sd.onPaper(part), w, h)
		})
	}
}

// numbered returns the parts of a run's longest stretch that bear its number:
// one on paper.
func (sd *storeyDraft) numbered(longest []drawing.Point) [][]drawing.Point {
	if sd.board == nil {
		return [][]drawing.Point{longest}
	}
	return sd.parted(longest)
}

// part is a stretch that a run cleans without a gap on one storey.
type part struct {
	line  []drawing.Point // as the nozzle goes
	width float64         // of its widest pipe
	last  bool            // the run ends here
}

// parts collects what a run cleans on this storey. A stack is a point.
func (sd *storeyDraft) parts(r *route.Run) []part {
	var all []part
	open := false
	for i, leg := range r.Path {
		p, ok := sd.graph.PipeIndex(leg.Pipe)
		if !ok || !leg.Cleaned {
			open = false
			continue
		}
		line := slices.Clone(sd.outline(p))
		if line == nil {
			open = false
			continue
		}
		if r.Direction == route.Upstream {
			slices.Reverse(line)
		}
		line = sd.cleanPart(p, r.Direction, line)
		pen := weight(sd.graph.Net.Pipes[p].Size)
		if k := len(all) - 1; open && all[k].line[len(all[k].line)-1] == line[0] {
			all[k].line = append(all[k].line, line[1:]...)
			all[k].width = max(all[k].width, pen)
		} else {
			all = append(all, part{line: line, width: pen})
		}
		open = true
		all[len(all)-1].last = i == len(r.Path)-1
	}
	return all
}

// outline is a pipe as this storey shows it: its line, the point where it
// comes up to the storey, or nil. A stack counts for the storey at its upper
// end, so that it is numbered once.
func (sd *storeyDraft) outline(p int) []drawing.Point {
	if sd.here[p] {
		return sd.trace(p)
	}
	for _, r := range sd.st.rises {
		if r.pipe == p && !r.up {
			at := point(sd.graph.Net.Nodes[r.node].At)
			return []drawing.Point{at, at}
		}
	}
	return nil
}

// visible returns the parts of a line that the panel shows.
func (sd *storeyDraft) visible(line []drawing.Point) [][]drawing.Point {
	if sd.tile == nil {
		return [][]drawing.Point{line}
	}
	return sd.tile.window.clip(line)
}

// ribbons picks each run's tint so that runs that meet differ where the inks
// last; runs are addressed by block and place.
func (d *draft) ribbons() map[[2]int]drawing.Colour {
	at := map[int][]int{} // the tints that meet at a node
	tints := map[[2]int]drawing.Colour{}
	for i, b := range d.plan.Blocks {
		for k, r := range b.Runs {
			var nodes []int
			for _, leg := range r.Path {
				if p, ok := d.graph.PipeIndex(leg.Pipe); ok && leg.Cleaned && joined(d.graph, p) {
					nodes = append(nodes, d.graph.Up[p], d.graph.Down[p])
				}
			}
			taken := make([]int, len(ribbonInks))
			for _, n := range nodes {
				for _, t := range at[n] {
					taken[t]++
				}
			}
			best := 0
			for t := range ribbonInks {
				if taken[t] < taken[best] {
					best = t
				}
			}
			for _, n := range nodes {
				at[n] = append(at[n], best)
			}
			tints[[2]int{i, k}] = ribbonInks[best].Tint(ribbonTint)
		}
	}
	return tints
}

// shortfalls crosses out what no run cleans and letters it.
func (sd *storeyDraft) shortfalls() {
	for i := range sd.plan.Shortfalls {
		sf := &sd.plan.Shortfalls[i]
		p, ok := sd.graph.PipeIndex(sf.Pipe)
		if !ok {
			continue
		}
		line := sd.outline(p)
		if line == nil || !sd.sees(line) {
			continue
		}
		line = sd.leftPart(p, line)
		sd.crosses(p, line)
		if sd.board != nil && lengthOf(line)*sd.frame.Scale < smallTag {
			continue // a letter larger than what it names
		}
		if sd.sketchy() {
			sd.saw(sample{kind: sampleShortfall})
			continue
		}
		for _, seen := range sd.parted(line) {
			sd.shown[sd.tags[sf.Pipe]] = true
			sd.saw(sample{kind: sampleShortfall})
			sd.badge(drawing.Notes, sd.tags[sf.Pipe], drawing.Square, drawing.White, drawing.Black, func(w, h float64) []label.Candidate {
				at := sd.onPaper(seen)
				if lengthOf(seen) == 0 {
					return sd.beside(at[0], stackSize/2, w, h)
				}
				return label.On(at, w, h, sd.farthest())
			})
			if sd.overview() { // its own sheet has the letter for sure
				sd.optional(dropStack)
			}
			if sd.board == nil {
				break
			}
		}
	}
}

// crosses lays crosses along what the panel shows of a line: a pipe may run on
// for miles beyond a tile.
func (sd *storeyDraft) crosses(p int, line []drawing.Point) {
	parts := [][]drawing.Point{line}
	if window := sd.window(); window != nil {
		parts = window.clip(line)
	}
	for _, part := range parts {
		sd.list.Add(drawing.Notes, drawing.Ticks{
			Points: part, Every: 3.2, Reach: 0.7 + weight(sd.graph.Net.Pipes[p].Size)/2, Cross: true, Pen: crossPen,
		})
	}
}
