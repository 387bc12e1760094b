package hand

import (
	"slices"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/ui/aim"
)

// bend is a corner of a pipe, a lay or an area that is being moved.
type bend struct {
	ref  edit.Ref
	i    int             // of the corner
	line []network.Point // the whole way, corner i at i+1
}

// newBend takes up the corner that was hit.
func newBend(w *World, h aim.Hit) (bend, bool) {
	b := bend{ref: h.Ref, i: h.Corner, line: lineOf(w, h.Ref)}
	if n := len(b.line); h.Ref.Kind == edit.Area && n > 2 { // its corners lie between each other
		b.line = append([]network.Point{b.line[n-2]}, b.line...)
	}
	return b, b.i+2 < len(b.line)
}

// lineOf is the way of a pipe or a lay from its first end, and that around an
// area from its first corner; nil where there is none.
func lineOf(w *World, r edit.Ref) []network.Point {
	switch r.Kind {
	case edit.Lay:
		return edit.Places(w.Site, edit.Select(r))
	case edit.Area:
		return closed(edit.Places(w.Site, edit.Select(r)))
	}
	p, ok := w.Graph.PipeIndex(network.PipeID(r.ID))
	if !ok || r.Kind != edit.Pipe {
		return nil
	}
	pipe := &w.Graph.Net.Pipes[p]
	from, okFrom := w.Graph.NodeIndex(pipe.From)
	to, okTo := w.Graph.NodeIndex(pipe.To)
	if !okFrom || !okTo {
		return nil
	}
	nodes := w.Graph.Net.Nodes
	return append(append([]network.Point{nodes[from].At}, pipe.Via...), nodes[to].At)
}

// target is where the corner would go.
func (b *bend) target(w *World, p *pointer) aim.Aim {
	s := p.sight(w)
	s.Bare = true
	if b.ref.Kind == edit.Pipe {
		from := b.line[b.i]
		s.From = &from
		if b.i > 0 {
			if h, ok := aim.Along(b.line[b.i-1], from); ok {
				s.Way = &aim.Way{Heading: h}
			}
		}
	}
	return w.Index.Snap(s)
}

func (b *bend) put(w *World, p *pointer) Reply {
	at := b.target(w, p).At()
	if at == b.line[b.i+1] {
		return Reply{}
	}
	switch b.ref.Kind {
	case edit.Pipe:
		return edited(edit.MoveCorner(w.Site, network.PipeID(b.ref.ID), b.i, at))
	case edit.Area:
		return edited(edit.MoveAreaCorner(w.Site, site.AreaID(b.ref.ID), b.i, at))
	}
	return edited(edit.Change(w.Site, "move corner", edit.Select(b.ref), edit.Changes{Lay: func(l *site.Lay) {
		if b.i < len(l.Via) {
			l.Via[b.i] = at
		}
	}}))
}

func (b *bend) ghost(w *World, p *pointer, g *Ghost) {
	a := b.target(w, p)
	line := slices.Clone(b.line)
	line[b.i+1] = a.At()
	if b.ref.Kind == edit.Area {
		g.Lines = append(g.Lines, Line{line[b.i : b.i+3], Moved})
	} else {
		g.Lines = append(g.Lines, Line{line, Moved})
	}
	g.show(w, a)
	words := w.Site.Units.Footage(line[b.i].Distance(a.At()))
	before, ok := aim.Along(line[b.i], a.At())
	if after, okAfter := aim.Along(a.At(), line[b.i+2]); ok && okAfter {
		words += ", " + aim.TurnWords(before.Turn(after)) + ", " + w.Site.Units.Footage(a.At().Distance(line[b.i+2]))
	}
	g.Texts = []Text{{a.At(), words}}
}
