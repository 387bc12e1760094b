package chart

import (
	"cmp"
	"image"
	"math"
	"slices"

	"linemap/internal/export/drawing"
	"linemap/internal/export/label"
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
	// Pictures returns the picture of an underlay and the length on the ground
	// of one dot of it, nil where it cannot be had. It may be nil itself.
	Pictures func(*site.Underlay) (image.Image, unit.Length)
}

// Board is a site and its plan, made ready for drawing any part of it at any
// scale, for a screen. It is for one goroutine.
type Board struct {
	*draft
	opt   BoardOptions
	st    *storey
	tints map[[2]int]drawing.Colour
	// Boxes of the pipes on the ground, those of the level and the others, to
	// find quickly what is seen.
	boxes map[int]extent
	ghost []int
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
	b := &Board{draft: newDraft(s, g, p, rule, opt.Units), opt: opt, boxes: make(map[int]extent, len(s.Network.Pipes))}
	b.tints = b.ribbons()
	b.st = &storey{main: true, box: nowhere()}
	net := g.Net
	for n := range net.Nodes {
		if net.Nodes[n].Level == opt.Level {
			b.st.nodes = append(b.st.nodes, n)
		}
	}
	for p := range net.Pipes {
		if !joined(g, p) {
			continue
		}
		up, down := net.Nodes[g.Up[p]].Level == opt.Level, net.Nodes[g.Down[p]].Level == opt.Level
		e := nowhere()
		for _, q := range trace(g, p) {
			e.add(q)
		}
		b.boxes[p] = e
		switch {
		case up != down && plumb(g, p):
			n := g.Up[p]
			if down {
				n = g.Down[p]
			}
			higher := g.Elevation(g.Up[p]) >= g.Elevation(g.Down[p])
			b.st.rises = append(b.st.rises, rise{p, n, up != higher})
		case up || down:
			b.st.pipes = append(b.st.pipes, p)
			if up != down {
				n := g.Down[p]
				if down {
					n = g.Up[p]
				}
				b.st.exits = append(b.st.exits, exit{p, n})
			}
		default:
			b.ghost = append(b.ghost, p)
		}
	}
	// What is drawn in one pen is painted at one go.
	slices.SortStableFunc(b.st.pipes, func(x, y int) int {
		a, c := &net.Pipes[x], &net.Pipes[y]
		return cmp.Or(cmp.Compare(a.Size, c.Size), cmp.Compare(a.Material, c.Material))
	})
	return b, nil
}

// Scales in millimetres of paper per metre of ground: under bare only pipes and
// what the crew looks for are drawn, under mute nothing is labelled, and from
// full on lines have their full weight.
const (
	bare = 0.6
	mute = 0.8
	full = 5.0
)

// Panel returns what is seen in a frame of w by h millimetres.
func (b *Board) Panel(frame drawing.Frame, w, h float64) drawing.Panel {
	if !(frame.Scale > 0) || math.IsInf(frame.Scale, 0) || math.IsNaN(w+h+frame.Ground.X+frame.Ground.Y) {
		return drawing.Panel{Frame: frame}
	}
	sd := &storeyDraft{draft: b.draft, whole: b.st, frame: frame, here: map[int]bool{}, level: b.opt.Level}
	sd.draft.seen, sd.draft.shown = map[sample]bool{}, map[string]bool{}
	sd.box = drawing.Box{W: w, H: h}
	sd.st = b.seenIn(sd.ground(drawing.Box{X: -20, Y: -20, W: w + 40, H: h + 40}), frame.Scale)
	for _, p := range sd.st.pipes {
		sd.here[p] = true
	}
	if frame.Scale < bare {
		sd.index = []*tile{}
	}
	sd.underlays(b.opt)
	if b.opt.Ghost {
		sd.ghosts(b)
	}
	sd.runs(b.tints)
	if b.opt.ShowLays {
		sd.lays()
	}
	sd.pipes()
	sd.rises()
	sd.exits()
	sd.nodes()
	sd.spots()
	sd.remarks()
	sd.shortfalls()
	sd.slim(frame.Scale)
	if frame.Scale >= mute {
		sd.placeQuickly()
	}
	return drawing.Panel{Frame: frame, List: sd.list}
}

// seenIn returns the part of the level that is seen.
func (b *Board) seenIn(window extent, scale float64) *storey {
	st := &storey{main: true, box: window, rises: b.st.rises, exits: b.st.exits}
	net := b.graph.Net
	for _, n := range b.st.nodes {
		k := net.Nodes[n].Kind
		if scale < bare && k != network.KindAccess && k != network.KindOutlet {
			continue
		}
		if window.holds(point(net.Nodes[n].At)) {
			st.nodes = append(st.nodes, n)
		}
	}
	for _, p := range b.st.pipes {
		if window.meets(b.boxes[p]) {
			st.pipes = append(st.pipes, p)
		}
	}
	st.rises = slices.DeleteFunc(slices.Clone(b.st.rises), func(r rise) bool { return !window.holds(point(net.Nodes[r.node].At)) })
	st.exits = slices.DeleteFunc(slices.Clone(b.st.exits), func(x exit) bool { return !window.holds(point(net.Nodes[x.node].At)) })
	return st
}

// meets reports whether two extents share a place.
func (e *extent) meets(o extent) bool {
	return o.min.X <= e.max.X && o.max.X >= e.min.X && o.min.Y <= e.max.Y && o.max.Y >= e.min.Y
}

// ghosts draws the pipes of other levels faintly.
func (sd *storeyDraft) ghosts(b *Board) {
	for _, p := range b.ghost {
		if sd.st.box.meets(b.boxes[p]) {
			sd.list.Add(drawing.Base, drawing.Path{Points: trace(sd.graph, p), Pen: drawing.Pen{Width: 0.45, Ink: drawing.Pale}})
		}
	}
}

// underlays draws the floor plans of the level.
func (sd *storeyDraft) underlays(opt BoardOptions) {
	for i := range sd.site.Underlays {
		u := &sd.site.Underlays[i]
		if u.Hidden || u.Level != opt.Level {
			continue
		}
		var img image.Image
		var dot unit.Length
		if opt.Pictures != nil {
			img, dot = opt.Pictures(u)
		}
		at := point(u.At)
		if img == nil {
			name := u.Label
			if name == "" {
				name = string(u.ID)
			}
			sd.list.Add(drawing.Base, drawing.Mark{At: at, Symbol: drawing.Plate, Size: 14, Pen: framePen})
			sd.around(drawing.Notes, at, 7, line{name + ": picture missing", drawing.Style{Pt: ptSmall}})
			continue
		}
		size := img.Bounds().Size()
		sd.list.Add(drawing.Base, drawing.Picture{
			Image: img, At: at, Turn: u.Turn.Radians(), Dim: u.Dim,
			W: float64(size.X) * dot.Metres(), H: float64(size.Y) * dot.Metres(),
		})
	}
}

// remarks draws the notes that stand on the plan.
func (sd *storeyDraft) remarks() {
	for i := range sd.site.Notes {
		n := &sd.site.Notes[i]
		at := point(n.At)
		if n.Level != sd.level || !sd.st.box.holds(at) {
			continue
		}
		sd.list.Add(drawing.Notes, drawing.Mark{At: at, Symbol: drawing.Square, Size: 1.4, Turn: math.Pi / 4, Pen: thinPen, Fill: ink(drawing.Yellow)})
		var lines []line
		for _, s := range sd.rule.Wrap(n.Text, false, ptSmall, 45) {
			lines = append(lines, line{s, drawing.Style{Pt: ptSmall}})
		}
		sd.around(drawing.Notes, at, 0.8, lines[:min(len(lines), 6)]...)
	}
}

// slim thins lines and symbols where the scale leaves them no room.
func (sd *storeyDraft) slim(scale float64) {
	k := math.Sqrt(scale / full)
	if k >= 1 {
		return
	}
	k = max(k, 0.3)
	for i, it := range sd.list.Items {
		switch s := it.Shape.(type) {
		case drawing.Path:
			s.Pen.Width *= k
			sd.list.Items[i].Shape = s
		case drawing.Mark:
			s.Size *= k
			s.Pen.Width *= k
			s.Off = s.Off.Scale(k)
			sd.list.Items[i].Shape = s
		case drawing.Ticks:
			s.Reach *= k
			s.Pen.Width *= k
			sd.list.Items[i].Shape = s
		}
	}
}

// placeQuickly gives the labels the first free places.
func (sd *storeyDraft) placeQuickly() {
	slices.SortStableFunc(sd.notes, func(a, b note) int { return cmp.Compare(rank(a), rank(b)) })
	items := make([]label.Item, len(sd.notes))
	for i, n := range sd.notes {
		items[i] = n.item
	}
	for i, k := range label.Quick(items, sd.walls, sd.box) {
		if k != label.Dropped {
			sd.list.Add(sd.notes[i].layer, sd.notes[i].draw(items[i].Candidates[k])...)
		}
	}
}
