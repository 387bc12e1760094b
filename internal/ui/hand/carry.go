package hand

import (
	"math"
	"slices"

	"linemap/internal/network"
	"linemap/internal/site/edit"
	"linemap/internal/ui/aim"
	"linemap/internal/unit"
)

// load is what is being moved.
type load struct {
	sel edit.Selection
	// from is where it was taken hold of, of the place that comes to lie where
	// the pointer is drawn to.
	from, of network.Point
	// end is a single open end of pipe, which can be joined to another.
	end   network.NodeID
	lines []carried
	marks []network.Point
}

// carried is a line of which some places are moved and others stay.
type carried struct {
	points []network.Point
	moves  []bool
}

// mostCarried is how many places are shown while they are moved; of more the
// frame is.
const mostCarried = 400

// lift takes up what is selected by the thing that was hit.
func lift(w *World, h aim.Hit, at network.Point) load {
	l := load{sel: w.Selection, from: at, of: h.At}
	if h.Ref.Kind == edit.Pipe || h.Ref.Kind == edit.Area {
		l.of = nearestOf(h.At, lineOf(w, h.Ref))
	}
	if h.Ref.Kind == edit.Node && l.sel.Len() == 1 && open(w.Graph, network.NodeID(h.Ref.ID)) {
		l.end = network.NodeID(h.Ref.ID)
	}
	l.outline(w)
	return l
}

func nearestOf(p network.Point, places []network.Point) network.Point {
	best := p
	off := unit.Length(math.Inf(1))
	for _, q := range places {
		if d := q.Distance(p); d < off {
			best, off = q, d
		}
	}
	return best
}

// open reports whether a node ends one pipe.
func open(g *network.Graph, id network.NodeID) bool {
	i, ok := g.NodeIndex(id)
	return ok && len(g.Above[i])+len(g.Below[i]) == 1
}

// outline finds what is shown while the load is moved: the pipes that go along,
// wholly or by one end, and the places of all else.
func (l *load) outline(w *World) {
	g := w.Graph
	moved := map[int]bool{}
	for p := range g.Net.Pipes {
		if l.sel.Has(edit.PipeRef(g.Net.Pipes[p].ID)) && g.Up[p] >= 0 {
			moved[g.Up[p]], moved[g.Down[p]] = true, true
		}
	}
	for n := range g.Net.Nodes {
		if l.sel.Has(edit.NodeRef(g.Net.Nodes[n].ID)) {
			moved[n] = true
		}
	}
	shown := 0
	for p := range g.Net.Pipes {
		if g.Up[p] < 0 || !moved[g.Up[p]] && !moved[g.Down[p]] {
			continue
		}
		c := carried{points: g.Polyline(p)}
		c.moves = make([]bool, len(c.points))
		both := moved[g.Up[p]] && moved[g.Down[p]]
		for i := range c.moves {
			c.moves[i] = both
		}
		c.moves[0], c.moves[len(c.moves)-1] = moved[g.Up[p]], moved[g.Down[p]]
		l.lines = append(l.lines, c)
		if shown += len(c.points); shown > mostCarried {
			l.frame(w)
			return
		}
	}
	for i := range w.Site.Areas {
		if r := edit.AreaRef(w.Site.Areas[i].ID); l.sel.Has(r) {
			c := carried{points: lineOf(w, r)}
			c.moves = slices.Repeat([]bool{true}, len(c.points))
			l.lines = append(l.lines, c)
			shown += len(c.points)
		}
	}
	points := func(r edit.Ref) bool { return r.Kind != edit.Pipe && r.Kind != edit.Area }
	l.marks = edit.Places(w.Site, l.sel.Keep(points))
	if shown+len(l.marks) > mostCarried {
		l.frame(w)
	}
}

// frame shows the frame of all that is moved.
func (l *load) frame(w *World) {
	low, high := network.Bounds(edit.Places(w.Site, l.sel))
	line := []network.Point{low, {X: high.X, Y: low.Y}, high, {X: low.X, Y: high.Y}, low}
	l.lines, l.marks = []carried{{line, []bool{true, true, true, true, true}}}, nil
}

// by is how far the load is moved, and the open end that its own is drawn to.
func (l *load) by(w *World, p *pointer) (network.Point, aim.Aim) {
	s := p.sight(w)
	d := network.Point{X: p.at.X - l.from.X, Y: p.at.Y - l.from.Y}
	if p.free { // straight along
		if math.Abs(d.X.Metres()) > math.Abs(d.Y.Metres()) {
			d.Y = 0
		} else {
			d.X = 0
		}
	}
	s.At = network.Point{X: l.of.X + d.X, Y: l.of.Y + d.Y}
	s.Bare = l.end == ""
	s.Skip = func(r edit.Ref) bool {
		return r.Kind != edit.Node || network.NodeID(r.ID) == l.end || !open(w.Graph, network.NodeID(r.ID))
	}
	a := w.Index.Snap(s)
	by := network.Point{X: a.At().X - l.of.X, Y: a.At().Y - l.of.Y}
	if p.free && a.Anchor.Node == "" { // the grid must not draw it aside
		if d.X == 0 {
			by.X = 0
		}
		if d.Y == 0 {
			by.Y = 0
		}
	}
	return by, a
}

// put moves the load; an open end on another is joined to it.
func (l *load) put(w *World, p *pointer) Reply {
	by, a := l.by(w, p)
	if a.Anchor.Node != "" {
		if e, err := edit.JoinEnds(w.Site, a.Anchor.Node, l.end); err == nil {
			return Reply{Edit: e}
		}
	}
	if by == (network.Point{}) {
		return Reply{}
	}
	return edited(edit.Move(w.Site, l.sel, by))
}

func (l *load) ghost(w *World, p *pointer, g *Ghost) {
	by, a := l.by(w, p)
	to := func(q network.Point) network.Point { return network.Point{X: q.X + by.X, Y: q.Y + by.Y} }
	for _, c := range l.lines {
		line := append([]network.Point{}, c.points...)
		for i, moves := range c.moves {
			if moves {
				line[i] = to(line[i])
			}
		}
		g.Lines = append(g.Lines, Line{line, Moved})
	}
	for _, m := range l.marks {
		g.Marks = append(g.Marks, Mark{to(m), Hover})
	}
	if len(a.Guide) > 0 {
		g.Lines = append(g.Lines, Line{a.Guide, Guideline})
	}
	g.Snapped = a.Snapped
	u := w.Site.Units
	words := u.Footage(network.Point{}.Distance(by))
	if h, ok := aim.Along(network.Point{}, by); ok {
		words += ", " + aim.BearingWords(h)
	}
	g.Texts = []Text{{to(l.of), words}}
}
