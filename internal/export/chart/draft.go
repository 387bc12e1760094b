package chart

import (
	"fmt"
	"math"

	"linemap/internal/export/drawing"
	"linemap/internal/export/label"
	"linemap/internal/export/paper"
	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// draft is one map in the making.
type draft struct {
	site  *site.Site
	graph *network.Graph
	plan  *route.Plan
	rule  *paper.Ruler
	sys   unit.System
	// pictures gives the floor plans, nil for none of them.
	pictures Pictures
	// done is set for a map of what was done.
	done *Done
	// seen holds what the map shows, for the legend.
	seen map[sample]bool
	// shown holds the numbers of the runs and the letters of the shortfalls on
	// the sheet in hand.
	shown map[string]bool
	// tags names each shortfall by a letter, in the plan's order.
	tags map[network.PipeID]string
	// used holds the openings that the plan runs a hose through.
	used map[network.NodeID]bool
	// visits numbers the stays of the trailer at each spot.
	visits map[site.SpotID][]int
	// tints are the inks of the ribbons, by block and place of the run.
	tints map[[2]int]drawing.Colour
	// traced holds the pipes on the ground that were asked for.
	traced [][]drawing.Point
}

// storeyDraft is one panel in the making.
type storeyDraft struct {
	*draft
	panel
	whole *storey // of which the panel may show a part
	frame drawing.Frame
	list  drawing.List
	notes []note
	walls []label.Wall
	here  []bool // by pipe: whether it is drawn
	// board, where set, is what the panel is a view of, for a screen.
	board *Board
	rank  int // of the labels that are added now
	// untitled panels have no title at their head; usedOnly leaves out spots that
	// the plan does not use.
	untitled, usedOnly bool
	// thinner is the share of their weight that lines and symbols lose.
	thinner float64
}

// newDraft reads the plan's numbers off.
func newDraft(s *site.Site, g *network.Graph, p *route.Plan, rule *paper.Ruler, sys unit.System) *draft {
	d := &draft{
		site: s, graph: g, plan: p, rule: rule, sys: sys,
		seen: map[sample]bool{}, tags: map[network.PipeID]string{},
		used: map[network.NodeID]bool{}, visits: map[site.SpotID][]int{},
	}
	for i, sf := range p.Shortfalls {
		d.tags[sf.Pipe] = tag(i)
	}
	stay := 0
	for i, b := range p.Blocks {
		if i == 0 || p.Blocks[i-1].Spot != b.Spot {
			stay++
			d.visits[b.Spot] = append(d.visits[b.Spot], stay)
		}
		for _, r := range b.Runs {
			d.used[r.Access] = true
		}
	}
	return d
}

// tag letters a shortfall: A to Z, then AA, AB and on.
func tag(i int) string {
	s := string(rune('A' + i%26))
	for i = i/26 - 1; i >= 0; i = i/26 - 1 {
		s = string(rune('A'+i%26)) + s
	}
	return s
}

// panel draws a storey, or its part, into its place; its labels wait for theirs.
func (d *draft) panel(pn panel, sheets []page) *storeyDraft {
	sd := &storeyDraft{draft: d, panel: pn, whole: pn.st}
	sd.frame = frame(pn.mid, pn.box, pn.den)
	if pn.tile != nil {
		sd.st = d.part(pn.st, pn.tile, sd.ground(pn.box))
	}
	if sd.overview() {
		sd.thinner = 1 - max(thinnest, min(1, clear/math.Exp(math.Sqrt(sd.st.strained(sd.den)))))
	}
	sd.draws(sd.st.pipes)
	sd.floorPlans()
	if sd.st.main {
		sd.areas()
	}
	sd.runs()
	if sd.st.main {
		sd.lays()
		sd.crossings()
	}
	sd.pipes()
	sd.rises()
	sd.exits()
	sd.nodes()
	if sd.st.main {
		sd.spots()
		sd.waters()
		sd.offNote()
	}
	sd.remarks()
	sd.shortfalls()
	sd.slim()
	sd.indexes()
	if pn.tile != nil {
		sd.neighbours(sheets)
	}
	return sd
}

// drawn is the panel with its labels in their places.
func (sd *storeyDraft) drawn() drawing.Panel {
	clip := sd.box
	if sd.tile != nil { // the neighbours stay clear of the title
		clip.Y, clip.H = clip.Y+titleHeight, clip.H-titleHeight
	}
	return drawing.Panel{Name: sd.name(), Frame: sd.frame, Clip: &clip, List: sd.list}
}

// draws notes which pipes the panel shows.
func (sd *storeyDraft) draws(pipes []int) {
	sd.here = make([]bool, len(sd.graph.Net.Pipes))
	for _, p := range pipes {
		sd.here[p] = true
	}
}

// saw notes what the map shows, for the legend. A board has none beside it.
func (sd *storeyDraft) saw(s sample) {
	if sd.board == nil {
		sd.seen[s] = true
	}
}

// window is the ground that the panel shows, nil for all of the storey.
func (sd *storeyDraft) window() *extent {
	switch {
	case sd.board != nil:
		return &sd.st.box
	case sd.tile != nil:
		e := sd.ground(sd.box)
		return &e
	}
	return nil
}

// sees reports whether any of a line may be shown.
func (sd *storeyDraft) sees(line []drawing.Point) bool {
	window := sd.window()
	return window == nil || window.meets(extentOf(line))
}

// name titles the panel.
func (pn *panel) name() string {
	switch {
	case pn.tile != nil:
		return fmt.Sprintf("%s, part %d", pn.st.name(), pn.tile.number)
	case pn.index != nil:
		return pn.st.name() + ", overview"
	}
	return pn.st.name()
}

// overview reports whether the panel leaves the details to other sheets.
func (pn *panel) overview() bool { return pn.index != nil }

// clear is by what factor things may stand too close on an overview before it is
// drawn thinner.
const clear = 4.5

// sketchy reports whether the panel is an overview on which things stand so
// close that it shows little more than the way to the other sheets.
func (sd *storeyDraft) sketchy() bool { return sd.board == nil && sd.overview() && sd.thinner > 0 }

// onPaper returns ground points as they come to lie on the page.
func (sd *storeyDraft) onPaper(line []drawing.Point) []drawing.Point {
	out := make([]drawing.Point, len(line))
	for i, p := range line {
		out[i] = sd.frame.To(p)
	}
	return out
}

// Prices of covering what is drawn; see [label.Wall].
const (
	overPipe, overPipeMM = 1.5, 1.2
	overLay, overLayMM   = 0.8, 0.5
	overMark             = label.Taboo
)

// wallLine keeps labels off a line on the ground.
func (sd *storeyDraft) wallLine(line []drawing.Point, half, touch, perMM float64) {
	pts := sd.onPaper(line)
	for i := 1; i < len(pts); i++ {
		sd.walls = append(sd.walls, label.Wall{A: pts[i-1], B: pts[i], Half: half, Touch: touch, PerMM: perMM})
	}
}

// wallMark keeps labels off a symbol.
func (sd *storeyDraft) wallMark(at drawing.Point, radius float64) {
	p := sd.frame.To(at)
	sd.walls = append(sd.walls, label.Wall{A: p, B: p, Half: radius, Touch: overMark})
}

// heading returns the direction of the way from a to b on the ground, and
// whether there is one.
func heading(a, b drawing.Point) (float64, bool) {
	if a == b {
		return 0, false
	}
	return math.Atan2(b.Y-a.Y, b.X-a.X), true
}

// flat keeps labels off a lying plate.
func flat(p drawing.Point, half float64) label.Wall {
	side := drawing.Point{X: half}
	return label.Wall{A: p.Sub(side), B: p.Add(side), Half: half, Touch: overMark}
}
