package board

import (
	"slices"

	"linemap/internal/export/drawing"
	"linemap/internal/network"
	"linemap/internal/site/edit"
)

// marks are how the selection is marked, on the ground.
type marks struct {
	lines   [][]network.Point
	handles []network.Point
	discs   []network.Point
	frame   *[2]network.Point // instead of all else, where there is too much
}

// marks returns how the selection is marked. It is worked out when the selection
// or the site changed, not for every frame.
func (b *Board) marks() *marks {
	if b.marked == nil {
		b.marked = b.mark(b.desk.Selection())
	}
	return b.marked
}

func (b *Board) mark(sel edit.Selection) *marks {
	m := new(marks)
	s, g := b.desk.Site(), b.desk.Graph()
	if sel.Len() > mostLines {
		low, high := network.Bounds(edit.Places(s, sel))
		m.frame = &[2]network.Point{low, high}
		return m
	}
	var rest []edit.Ref // of which each is one place
	for _, r := range sel.Refs() {
		switch r.Kind {
		case edit.Pipe:
			if p, ok := g.PipeIndex(network.PipeID(r.ID)); ok && g.Up[p] >= 0 && g.Down[p] >= 0 {
				m.lines = append(m.lines, g.Polyline(p))
				m.handles = append(m.handles, g.Net.Pipes[p].Via...)
			}
		case edit.Node:
			if n, ok := g.NodeIndex(network.NodeID(r.ID)); ok {
				m.discs = append(m.discs, g.Net.Nodes[n].At)
			}
		case edit.Lay, edit.Area:
		default:
			rest = append(rest, r)
		}
	}
	for i := range s.Lays {
		if sel.Has(edit.LayRef(&s.Lays[i])) {
			m.lines = append(m.lines, edit.LayWay(s, &s.Lays[i]))
		}
	}
	for i := range s.Areas {
		if a := &s.Areas[i]; sel.Has(edit.AreaRef(a.ID)) && len(a.Outline) > 0 {
			m.lines = append(m.lines, append(slices.Clone(a.Outline), a.Outline[0]))
		}
	}
	if len(rest) > 0 {
		m.discs = append(m.discs, edit.Places(s, edit.Select(rest...))...)
	}
	return m
}

// selection marks what is selected.
func (br brush) selection(m *marks) {
	blue := br.look.Colour(drawing.Blue, 1)
	if m.frame != nil {
		br.box(br.view.Dot(m.frame[0]), br.view.Dot(m.frame[1]), blue, br.look.Colour(drawing.Blue, 0.08), 2)
		return
	}
	for _, l := range m.lines {
		br.line(l, br.look.Colour(drawing.Blue, 0.45), 11)
	}
	for _, h := range m.handles {
		br.handle(h)
	}
	for _, d := range m.discs {
		br.disc(d, 13, blue, br.look.Colour(drawing.Blue, 0.18), 2)
	}
}
