package replay

import (
	"slices"
	"sort"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// lines lays out runs on a site.
type lines struct {
	site   *site.Site
	tables *site.Tables
	g      *network.Graph
	drawn  map[int][]network.Point // the lines of pipes, for many runs share them
}

func newLines(s *site.Site, t *site.Tables, g *network.Graph) *lines {
	return &lines{site: s, tables: t, g: g, drawn: map[int][]network.Point{}}
}

// way is the path of a run by readings of the hose counter.
type way struct {
	run     *route.Run
	hose    *rig.Hose
	lay     []network.Point
	points  []vertex
	turns   []spent
	strides []stride
	levels  [][2]string // of the legs' ends
}

// vertex is a corner of the way on the plan.
type vertex struct {
	at    unit.Length
	point network.Point
}

// spent is what the way has spent once it is past a turn, in quarter bends.
type spent struct {
	at    unit.Length
	bends float64
}

// stride is a step of the way, which begins at a reading.
type stride struct {
	at unit.Length
	rig.Step
}

// way lays out a run.
func (l *lines) way(run *route.Run, spot *site.Spot, hose *rig.Hose) *way {
	w := &way{run: run, hose: hose}
	if n, ok := l.g.NodeIndex(run.Access); ok {
		node := &l.g.Net.Nodes[n]
		w.points = append(w.points, vertex{run.Entry, node.At})
		if spot != nil {
			w.lay = l.site.LayPath(spot, node)
		}
	}
	for i := range run.Path {
		leg := &run.Path[i]
		w.levels = append(w.levels, [2]string{})
		if p, ok := l.g.PipeIndex(leg.Pipe); ok && l.g.Up[p] >= 0 {
			w.trace(leg, l.ahead(p, run))
			w.levels[i] = l.levels(p, run)
			w.step(leg, l.climb(p, run), l.tables.Materials[l.g.Net.Pipes[p].Material].Friction)
		}
	}
	bends := 0.0
	for i := range run.Fittings {
		f := &run.Fittings[i]
		bends += f.Turn.QuarterBends()
		w.turns = append(w.turns, spent{f.At, bends})
	}
	return w
}

// ahead is the line of a pipe as a run goes along it.
func (l *lines) ahead(p int, run *route.Run) []network.Point {
	line, ok := l.drawn[p]
	if !ok {
		line = l.g.Polyline(p)
		l.drawn[p] = line
	}
	if run.Direction == route.Upstream {
		line = slices.Clone(line)
		slices.Reverse(line)
	}
	return line
}

func (l *lines) levels(p int, run *route.Run) [2]string {
	near, far := l.g.Down[p], l.g.Up[p]
	if run.Direction == route.Downstream {
		near, far = far, near
	}
	return [2]string{l.g.Net.Nodes[near].Level, l.g.Net.Nodes[far].Level}
}

func (l *lines) climb(p int, run *route.Run) unit.Angle {
	if run.Direction == route.Downstream {
		return -l.g.Climb(p)
	}
	return l.g.Climb(p)
}

// trace adds a leg's line. Lengths along the drawing are stretched to those that
// were entered; a plumb stack stays at its place.
func (w *way) trace(leg *route.Leg, line []network.Point) {
	var whole unit.Length
	for i := 1; i < len(line); i++ {
		whole += line[i-1].Distance(line[i])
	}
	var done unit.Length
	for i := 1; i < len(line); i++ {
		done += line[i-1].Distance(line[i])
		at := leg.To
		if whole > 0 && i < len(line)-1 {
			at = leg.From + (leg.To-leg.From)*done/whole
		}
		w.points = append(w.points, vertex{at, line[i]})
	}
}

// step adds a leg's steps, cut at the turns that the plan found in it.
func (w *way) step(leg *route.Leg, climb unit.Angle, friction rig.Range) {
	s := stride{at: leg.From, Step: rig.Step{Climb: climb, Friction: friction}}
	for i := range w.run.Fittings {
		f := &w.run.Fittings[i]
		if f.Pipe != leg.Pipe || f.Turn == 0 {
			continue
		}
		if f.At > s.at {
			s.Length = f.At - s.at
			w.strides = append(w.strides, s)
			s.at, s.Turn = f.At, 0
		}
		s.Turn += f.Turn
	}
	s.Length = leg.To - s.at
	w.strides = append(w.strides, s)
}

// to lists the steps from the access to a reading.
func (w *way) to(reading unit.Length) []rig.Step {
	steps := make([]rig.Step, 0, len(w.strides))
	for _, s := range w.strides {
		if s.at >= reading {
			break
		}
		s.Length = min(s.Length, reading-s.at)
		steps = append(steps, s.Step)
	}
	return steps
}

// pull is the largest tension in the hose from a reading back to the access.
func (w *way) pull(reading unit.Length, thrust unit.Force, water rig.Water) unit.Force {
	if w.hose == nil {
		return 0
	}
	return rig.PeakPull(w.to(reading), w.hose, water, thrust, rig.LowReach)
}

// drag is what the nozzle pulls at a reading.
func (w *way) drag(reading unit.Length, water rig.Water) unit.Force {
	if w.hose == nil {
		return 0
	}
	return rig.Drag(w.to(reading), w.hose, water, rig.LowReach)
}

// bends is what the way spends up to a reading.
func (w *way) bends(reading unit.Length) float64 {
	i := sort.Search(len(w.turns), func(i int) bool { return w.turns[i].at > reading })
	if i == 0 {
		return 0
	}
	return w.turns[i-1].bends
}

// in finds the pipe at a reading, how far into it that is, and the level there:
// of a stack, that of the nearer end.
func (w *way) in(reading unit.Length) (network.PipeID, unit.Length, string) {
	path := w.run.Path
	i := sort.Search(len(path), func(i int) bool { return path[i].To >= reading })
	if i == len(path) {
		i--
	}
	if i < 0 {
		return "", 0, ""
	}
	leg := &path[i]
	along := max(0, min(reading, leg.To)-leg.From)
	return leg.Pipe, along, w.levels[i][min(1, int(2*float64(along)/max(1e-9, float64(leg.To-leg.From))))]
}

// line is the way on the plan from the access to a reading.
func (w *way) line(reading unit.Length) []network.Point {
	n := sort.Search(len(w.points), func(i int) bool { return w.points[i].at > reading })
	if n == 0 {
		return nil
	}
	line := make([]network.Point, 0, n+1)
	for _, v := range w.points[:n] {
		line = append(line, v.point)
	}
	if n < len(w.points) {
		a, b := w.points[n-1], w.points[n]
		share := (reading - a.at) / (b.at - a.at)
		line = append(line, network.Point{
			X: a.point.X + share*(b.point.X-a.point.X),
			Y: a.point.Y + share*(b.point.Y-a.point.Y),
		})
	}
	return line
}
