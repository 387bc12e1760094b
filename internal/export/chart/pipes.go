package chart

import (
	"math"
	"slices"
	"strings"

	"linemap/internal/export/drawing"
	"linemap/internal/export/label"
	"linemap/internal/network"
)

// Flow arrows: the least length of pipe on paper that carries one, and their
// distance on a long pipe, in millimetres.
const (
	arrowRoom  = 5.0
	arrowEvery = 45.0
)

// pipes draws the pipes of the storey with their flow arrows, the outlines of
// those outside the job below the others.
func (sd *storeyDraft) pipes() {
	for _, outside := range []bool{true, false} {
		for _, p := range sd.st.pipes {
			if pipe := &sd.graph.Net.Pipes[p]; pipe.OutOfJob == outside {
				sd.pipe(p, pipe)
				if sd.board == nil && !sd.sketchy() {
					sd.arrows(p, pipe)
				}
			}
		}
	}
	if sd.board != nil && sd.weight() >= arrowWeight { // lines that follow each other are painted as one
		for _, p := range sd.st.pipes {
			sd.arrows(p, &sd.graph.Net.Pipes[p])
		}
	}
	if sd.overview() {
		return
	}
	for _, p := range sd.named() {
		sd.pipeLabel(p)
	}
}

func (sd *storeyDraft) pipe(p int, pipe *network.Pipe) {
	line := sd.trace(p)
	pen := pipePen(pipe)
	sd.list.Add(drawing.Drains, drawing.Path{Points: line, Pen: pen})
	sd.wallLine(line, pen.Width/2+0.2, overPipe, overPipeMM)
	sd.saw(sample{kind: sampleSize, size: pipe.Size})
	sd.saw(sample{kind: sampleMaterial, material: pipe.Material})
	if pipe.OutOfJob {
		sd.saw(sample{kind: sampleOutside})
	}
}

// arrows show the way of the water along a pipe.
func (sd *storeyDraft) arrows(p int, pipe *network.Pipe) {
	line := sd.trace(p)
	long := lengthOf(line) * sd.frame.Scale
	n := math.Ceil(long / arrowEvery)
	if long < arrowRoom {
		return
	}
	pen := pipePen(pipe)
	sd.saw(sample{kind: sampleFlow})
	const off = 0.72 // the middle, where a run has its number
	for _, i := range sd.stations(line, n, off) {
		at, dir := label.Along(line, (i+off)/n)
		sd.list.Add(drawing.Drains, drawing.Mark{
			At: at, Symbol: drawing.Pointer, Size: pen.Width + 1.5, Turn: math.Atan2(dir.Y, dir.X),
			Pen: drawing.Pen{Width: 0.3, Ink: drawing.White}, Fill: ink(pen.Ink),
		})
	}
}

// named picks the pipes that get a label: those with a name of their own, and
// the longest of each stretch of one size and material.
func (sd *storeyDraft) named() []int {
	if sd.board != nil {
		return slices.DeleteFunc(slices.Clone(sd.st.pipes), func(p int) bool {
			// The one with the stretch's label may be out of sight.
			return !sd.board.named[p] && lengthOf(sd.trace(p))*sd.frame.Scale < stretch/2
		})
	}
	g := sd.graph
	same := func(a, b int) bool {
		pa, pb := &g.Net.Pipes[a], &g.Net.Pipes[b]
		return pa.Size == pb.Size && pa.Material == pb.Material && pa.Label == "" && pb.Label == ""
	}
	stretch := map[int]int{} // the lowest pipe of each pipe's stretch
	longest := map[int]int{}
	var named []int
	for _, p := range g.Order { // a pipe comes after the one below it
		if !sd.here[p] {
			continue
		}
		low := p
		if next := g.Next[p]; next >= 0 && sd.here[next] && same(p, next) {
			low = stretch[next]
		}
		stretch[p] = low
		if best, ok := longest[low]; !ok || lengthOf(sd.trace(p)) > lengthOf(sd.trace(best)) {
			longest[low] = p
		}
	}
	for _, p := range sd.st.pipes {
		if low, ok := stretch[p]; ok && longest[low] == p {
			named = append(named, p)
		}
	}
	return named
}

// dropPipe is the price above which a pipe's label is left out: its weight and
// dash tell the same.
const dropPipe = 8

// pipeLabel adds what a pipe is, along it: "L-7 2 in PVC".
func (sd *storeyDraft) pipeLabel(p int) {
	pipe := &sd.graph.Net.Pipes[p]
	text := strings.TrimSpace(pipe.Label + "  " + sd.spec(pipe))
	b := sd.block([]line{{text, drawing.Style{Pt: ptSmall, Ink: drawing.Grey}}})
	clear := weight(pipe.Size)/2 + ribbonReach + 0.3
	beside := func(lines ...[]drawing.Point) func() []label.Candidate {
		return func() (all []label.Candidate) {
			for _, line := range lines {
				all = append(all, label.Beside(sd.onPaper(line), b.w+0.6, b.h-0.4, clear)...)
			}
			return all
		}
	}
	parts := sd.parted(sd.trace(p))
	if sd.board != nil {
		for _, part := range parts {
			if lengthOf(part)*sd.frame.Scale > b.w+margin {
				sd.along(beside(part), b)
			}
		}
		return
	}
	sd.along(beside(parts...), b)
}

// margin is by how much a pipe on a board is longer than its label, in
// millimetres.
const margin = 5.0

// along adds a label of one line that runs along what it names.
func (sd *storeyDraft) along(places func() []label.Candidate, b block) {
	sd.notes = append(sd.notes, note{
		layer: drawing.Notes, rank: sd.rank, places: places, optional: true, drop: dropPipe,
		draw: func(c label.Candidate) []drawing.Shape {
			sin, cos := math.Sincos(c.Box.Turn)
			down := capital(ptSmall) / 2
			return []drawing.Shape{drawing.Text{
				At: sd.frame.From(c.Box.Centre), Off: drawing.Point{X: sin * down, Y: cos * down},
				S: b.lines[0].s, Wide: b.wide[0], Style: b.lines[0].style.Set(drawing.Centre), Turn: c.Box.Turn,
			}}
		},
	})
}

// spec says what a pipe is in the trade's letters: "4 in CI, fragile".
func (d *draft) spec(p *network.Pipe) string {
	s := strings.TrimSpace(p.Size.In(d.sys) + " " + materialLetters(p.Material))
	if p.Fragile {
		s += ", fragile"
	}
	return s
}

// rises draws where pipes leave the storey up or down, and names each stack by
// its pipe below.
func (sd *storeyDraft) rises() {
	below := map[int]int{}
	var order []int
	for _, r := range sd.st.rises {
		if _, ok := below[r.node]; !ok {
			order = append(order, r.node)
			below[r.node] = r.pipe
		}
		if !r.up {
			below[r.node] = r.pipe
		}
	}
	for _, n := range order {
		pipe := &sd.graph.Net.Pipes[below[n]]
		at := point(sd.graph.Net.Nodes[n].At)
		sd.list.Add(drawing.Drains,
			drawing.Mark{At: at, Symbol: drawing.Disc, Size: stackSize, Pen: ringPen, Fill: ink(drawing.White)},
			drawing.Mark{At: at, Symbol: drawing.Disc, Size: stackSize * 0.4, Fill: ink(drawing.Black)})
		sd.wallMark(at, stackSize/2)
		sd.saw(sample{kind: sampleStack})
		if sd.overview() || sd.crowded(n) {
			continue
		}
		name := strings.TrimSpace(pipe.Label + "  " + sd.spec(pipe))
		sd.around(drawing.Notes, at, stackSize/2, line{name, drawing.Style{Pt: ptSmall, Ink: drawing.Grey}})
		sd.optional(dropStack)
	}
}

// dropStack is the price above which a stack's name is left out.
const dropStack = 12

// exits says where pipes go that run off to another storey.
func (sd *storeyDraft) exits() {
	for _, x := range sd.st.exits {
		node := &sd.graph.Net.Nodes[x.node]
		at := point(node.At)
		sd.list.Add(drawing.Drains, drawing.Mark{At: at, Symbol: drawing.Bar, Size: 2.4, Turn: sd.flow(x.node), Pen: thinPen})
		sd.wallMark(at, 0.8)
		if node.Level != "" && !sd.overview() && !sd.crowded(x.node) {
			sd.around(drawing.Notes, at, 0.9, line{"to " + node.Level, drawing.Style{Pt: ptSmall, Ink: drawing.Grey}})
		}
	}
}
