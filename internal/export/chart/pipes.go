package chart

import (
	"math"
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
			}
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
	line := trace(sd.graph, p)
	pen := pipePen(pipe)
	sd.list.Add(drawing.Drains, drawing.Path{Points: line, Pen: pen})
	sd.wallLine(line, pen.Width/2+0.2, overPipe, overPipeMM)
	sd.seen[sample{kind: sampleSize, size: pipe.Size}] = true
	sd.seen[sample{kind: sampleMaterial, material: pipe.Material}] = true
	if pipe.OutOfJob {
		sd.seen[sample{kind: sampleOutside}] = true
	}
	long := lengthOf(line) * sd.frame.Scale
	n := math.Ceil(long / arrowEvery)
	if long < arrowRoom {
		return
	}
	sd.seen[sample{kind: sampleFlow}] = true
	ground := sd.ground(sd.box)
	for i := range int(n) { // off the middle, where a run has its number
		at, dir := label.Along(line, (float64(i)+0.72)/n)
		if sd.tile != nil && !ground.holds(at) {
			continue // a pipe may run on for miles beyond a tile
		}
		sd.list.Add(drawing.Drains, drawing.Mark{
			At: at, Symbol: drawing.Pointer, Size: pen.Width + 1.5, Turn: math.Atan2(dir.Y, dir.X),
			Pen: drawing.Pen{Width: 0.3, Ink: drawing.White}, Fill: ink(pen.Ink),
		})
	}
}

// named picks the pipes that get a label: those with a name of their own, and
// the longest of each stretch of one size and material.
func (sd *storeyDraft) named() []int {
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
		if best, ok := longest[low]; !ok || lengthOf(trace(g, p)) > lengthOf(trace(g, best)) {
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
	var places []label.Candidate
	for _, seen := range sd.visible(trace(sd.graph, p)) {
		places = append(places, label.Beside(sd.onPaper(seen), b.w+0.6, b.h-0.4, clear)...)
	}
	sd.notes = append(sd.notes, note{
		layer: drawing.Notes,
		item: label.Item{
			Candidates: places, Optional: true, Drop: dropPipe,
		},
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
		sd.seen[sample{kind: sampleStack}] = true
		if sd.overview() {
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
		if node.Level != "" && !sd.overview() {
			sd.around(drawing.Notes, at, 0.9, line{"to " + node.Level, drawing.Style{Pt: ptSmall, Ink: drawing.Grey}})
		}
	}
}
