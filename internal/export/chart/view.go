package chart

import (
	"math"

	"linemap/internal/export/drawing"
	"linemap/internal/network"
)

// Scales in millimetres of paper per metre of ground: under bare only pipes and
// what the crew looks for are drawn, under mute nothing is labelled, and from
// full on lines have their full weight.
const (
	bare = 0.6
	mute = 0.8
	full = 5.0
)

// thinnest is how much of their weight lines keep at the smallest scale.
const thinnest = 0.3

// view is a part of a board at a scale, with a border around what was asked
// for. It starts and ends at whole patches of the ground: what is drawn, and
// where its labels stand, then depends on the patch that one looks at and not on
// how one came there, and labels stay while one pans.
type view struct {
	scale  float64 // millimetres of paper per metre of ground
	window extent
	list   drawing.List
}

// Patches and the least border, in millimetres of paper.
const (
	patch  = 160.0
	border = 50.0
)

// farAway bounds how far from the origin a board is looked at, in metres, and
// the size and scale of a view.
const (
	farAway   = 1e8
	mostView  = 1e4 // millimetres
	mostScale = 1e6
)

// Panel returns what is seen in a frame of w by h millimetres, and some of what
// lies around it. Nobody may change its list.
func (b *Board) Panel(frame drawing.Frame, w, h float64) drawing.Panel {
	sd := &storeyDraft{frame: frame}
	seen := sd.ground(drawing.Box{W: w, H: h})
	far := max(math.Abs(seen.min.X), math.Abs(seen.min.Y), math.Abs(seen.max.X), math.Abs(seen.max.Y))
	if !(frame.Scale > 0 && frame.Scale < mostScale && far < farAway && w > 0 && h > 0 && w < mostView && h < mostView) {
		return drawing.Panel{Frame: frame}
	}
	v := view{scale: frame.Scale, window: patches(seen, frame.Scale)}
	if b.last.scale != v.scale || b.last.window != v.window {
		v.list = b.draw(v.window, v.scale)
		b.last = v
	}
	return drawing.Panel{Frame: frame, List: b.last.list}
}

// patches widens a part of the ground to whole patches.
func patches(e extent, scale float64) extent {
	size, edge := patch/scale, border/scale
	down := func(v float64) float64 { return math.Floor((v-edge)/size) * size }
	up := func(v float64) float64 { return math.Ceil((v+edge)/size) * size }
	return extent{drawing.Point{X: down(e.min.X), Y: down(e.min.Y)}, drawing.Point{X: up(e.max.X), Y: up(e.max.Y)}}
}

// draw draws a part of the ground at a scale.
func (b *Board) draw(window extent, scale float64) drawing.List {
	w, h := window.size()
	sd := &storeyDraft{draft: b.draft, board: b, whole: b.st}
	sd.box = drawing.Box{W: w * scale, H: h * scale}
	sd.frame = drawing.Frame{Ground: window.min, Paper: drawing.Point{Y: sd.box.H}, Scale: scale}
	sd.thinner = 1 - max(thinnest, min(1, math.Sqrt(scale/full)))
	sd.st = b.seenIn(window, scale)
	sd.draws(sd.st.pipes)
	if scale < bare {
		sd.index = []*tile{} // an overview
	}
	// Labels choose in the order of their ranks.
	for _, step := range []struct {
		rank int
		draw func()
	}{
		{3, sd.floorPlans},
		{4, sd.areas},
		{0, sd.others},
		{1, sd.swaths},
		{5, sd.hoses},
		{7, sd.pipes},
		{5, sd.rises},
		{6, sd.exits},
		{0, sd.openings},
		{4, sd.points},
		{3, sd.spots},
		{3, sd.waters},
		{3, sd.remarks},
		{2, sd.shortfalls},
	} {
		sd.rank = step.rank
		step.draw()
	}
	sd.slim()
	sd.placeQuickly()
	return sd.list
}

// seenIn returns the part of the level that lies in a window.
func (b *Board) seenIn(window extent, scale float64) *storey {
	st := &storey{main: true, levels: b.st.levels, box: window}
	net := b.graph.Net
	for _, n := range b.st.nodes {
		k := net.Nodes[n].Kind
		if (scale >= bare || k == network.KindAccess || k == network.KindOutlet) && window.holds(point(net.Nodes[n].At)) {
			st.nodes = append(st.nodes, n)
		}
	}
	for _, p := range b.st.pipes {
		if window.meets(b.boxes[p]) {
			st.pipes = append(st.pipes, p)
		}
	}
	for _, r := range b.st.rises {
		if window.holds(point(net.Nodes[r.node].At)) {
			st.rises = append(st.rises, r)
		}
	}
	for _, x := range b.st.exits {
		if window.holds(point(net.Nodes[x.node].At)) {
			st.exits = append(st.exits, x)
		}
	}
	return st
}

// others draws the pipes of other levels faintly.
func (sd *storeyDraft) others() {
	if !sd.board.opt.Ghost {
		return
	}
	for _, p := range sd.board.ghosts {
		if sd.st.box.meets(sd.board.boxes[p]) {
			sd.list.Add(drawing.Base, drawing.Path{Points: sd.trace(p), Pen: ghostPen})
		}
	}
}

// swaths draws the runs that go through the window.
func (sd *storeyDraft) swaths() {
	for i := range sd.board.swaths {
		if s := &sd.board.swaths[i]; sd.st.box.meets(s.box) {
			sd.run(s)
		}
	}
}

func (sd *storeyDraft) hoses() {
	if sd.board.opt.ShowLays {
		sd.lays()
		sd.crossings()
	}
}

// arrowWeight is the least weight of lines at which the board shows the way of
// the water: smaller arrows are specks.
const arrowWeight = 0.75

// weight is by how much lines and symbols are thinned: at a small scale they
// would run together.
func (sd *storeyDraft) weight() float64 { return 1 - sd.thinner }

// finestGap is the least gap of dashes that is drawn, in millimetres.
const finestGap = 0.5

// slim thins lines and symbols as the scale asks.
func (sd *storeyDraft) slim() {
	k := sd.weight()
	if k == 1 {
		return
	}
	thin := func(p *drawing.Pen) {
		p.Width *= k
		dash := make([]float64, len(p.Dash))
		for i, d := range p.Dash {
			if dash[i] = d * k; i%2 == 1 && dash[i] < finestGap && !p.Round {
				p.Dash = nil
				return
			}
		}
		p.Dash = dash
	}
	for i, it := range sd.list.Items {
		switch s := it.Shape.(type) {
		case drawing.Path:
			thin(&s.Pen)
			sd.list.Items[i].Shape = s
		case drawing.Mark:
			s.Size *= k
			thin(&s.Pen)
			s.Off = s.Off.Scale(k)
			sd.list.Items[i].Shape = s
		case drawing.Ticks:
			s.Reach *= k
			s.Every *= k
			thin(&s.Pen)
			sd.list.Items[i].Shape = s
		}
	}
}

// mute reports whether the scale is too small for any label.
func (sd *storeyDraft) mute() bool { return sd.board != nil && sd.frame.Scale < mute }
