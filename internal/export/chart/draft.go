package chart

import (
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
	// seen holds what the map shows, for the legend.
	seen map[sample]bool
	// tags names each shortfall by a letter, in the plan's order.
	tags map[network.PipeID]string
	// used holds the openings that the plan runs a hose through.
	used map[network.NodeID]bool
	// visits numbers the stays of the trailer at each spot.
	visits map[site.SpotID][]int
	// dropped counts the optional labels left out for want of room.
	dropped int
}

// storeyDraft is one panel in the making.
type storeyDraft struct {
	*draft
	st    *storey
	frame drawing.Frame
	box   drawing.Box
	list  drawing.List
	notes []note
	walls []label.Wall
}

// note is a label in the making.
type note struct {
	layer drawing.Layer
	item  label.Item
	draw  func(c label.Candidate) []drawing.Shape
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

// storey draws one storey into its panel.
func (d *draft) storey(st *storey, box drawing.Box, den float64) drawing.Panel {
	sd := &storeyDraft{draft: d, st: st, frame: frame(st, box, den), box: box}
	sd.runs()
	if st.main {
		sd.lays()
	}
	sd.pipes()
	sd.rises()
	sd.nodes()
	if st.main {
		sd.spots()
	}
	sd.shortfalls()
	sd.place()
	clip := box
	return drawing.Panel{Name: st.name(), Frame: sd.frame, Clip: &clip, List: sd.list}
}

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
