package chart

import (
	"cmp"
	"slices"

	"linemap/internal/export/paper"
	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// BoardOptions say what a board shows.
type BoardOptions struct {
	// Level is the level drawn, "" on a site without levels; Ghost shows the
	// pipes of the others faintly behind it.
	Level string
	Ghost bool
	// ShowPlan shows the runs and what they leave out, ShowLays the hose on the
	// ground.
	ShowPlan, ShowLays bool
	Units              unit.System
	// Pictures gives the floor plans. It may be nil.
	Pictures Pictures
}

// Board is a site and its plan, made ready for drawing any part of it at any
// scale, for a screen. It is for one goroutine.
type Board struct {
	*draft
	opt BoardOptions
	// st is the whole level; ghosts are the pipes of the others.
	st     *storey
	ghosts []int
	// boxes are the extents of the pipes, by pipe.
	boxes  []extent
	swaths []swath
	// named are the pipes with a label, by pipe.
	named []bool
	// near says, by node, how close on the ground the next labels are.
	near []float64

	last view
}

// NewBoard makes a board. The plan may be nil, or one of an older sketch: what
// it names and is gone is left out. It fails only where a place of the site is
// not on Earth.
func NewBoard(s *site.Site, g *network.Graph, p *route.Plan, opt BoardOptions) (*Board, error) {
	if err := check(s); err != nil {
		return nil, err
	}
	rule, err := paper.NewRuler()
	if err != nil {
		return nil, err
	}
	if p == nil || !opt.ShowPlan {
		p = &route.Plan{}
	}
	b := &Board{draft: newDraft(s, g, p, rule, opt.Units), opt: opt, boxes: make([]extent, len(g.Net.Pipes))}
	b.pictures = opt.Pictures
	b.shown = map[string]bool{}
	b.st = &storey{main: true, levels: []network.Level{{Name: opt.Level}}}
	for n := range g.Net.Nodes {
		if g.Net.Nodes[n].Level == opt.Level {
			b.st.nodes = append(b.st.nodes, n)
		}
	}
	for p := range g.Net.Pipes {
		if joined(g, p) {
			b.boxes[p] = extentOf(b.trace(p))
			b.sort(p)
		}
	}
	// What is drawn with one pen is painted at one go, the smallest first: a main
	// lies over its branches.
	slices.SortStableFunc(b.st.pipes, func(x, y int) int {
		a, c := &g.Net.Pipes[x], &g.Net.Pipes[y]
		return cmp.Or(cmp.Compare(a.Size, c.Size), cmp.Compare(a.Material, c.Material))
	})
	b.prepare()
	return b, nil
}

// sort puts a pipe where it belongs: on the level, through it, off it or among
// the ghosts.
func (b *Board) sort(p int) {
	g := b.graph
	up, down := b.st.has(g.Net.Nodes[g.Up[p]].Level), b.st.has(g.Net.Nodes[g.Down[p]].Level)
	here, there := g.Up[p], g.Down[p]
	if down {
		here, there = there, here
	}
	switch {
	case up && down:
		b.st.pipes = append(b.st.pipes, p)
	case !up && !down:
		b.ghosts = append(b.ghosts, p)
	case plumb(g, p):
		b.st.rises = append(b.st.rises, rise{p, here, g.Elevation(there) > g.Elevation(here)})
	default:
		b.st.pipes = append(b.st.pipes, p)
		b.st.exits = append(b.st.exits, exit{p, there})
	}
}

// prepare works out what does not depend on the scale.
func (b *Board) prepare() {
	sd := &storeyDraft{draft: b.draft, panel: panel{st: b.st}, whole: b.st}
	sd.draws(b.st.pipes)
	tints := b.ribbons()
	for i, block := range b.plan.Blocks {
		for k := range block.Runs {
			s := swath{run: &block.Runs[k], tint: tints[[2]int{i, k}], parts: sd.parts(&block.Runs[k]), box: nowhere()}
			for _, part := range s.parts {
				s.box.join(extentOf(part.line))
			}
			if len(s.parts) > 0 {
				b.swaths = append(b.swaths, s)
			}
		}
	}
	b.named = make([]bool, len(b.boxes))
	for _, p := range sd.named() {
		b.named[p] = true
	}
	b.near = b.nearest()
}
