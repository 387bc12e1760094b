package chart

import (
	"math"
	"slices"

	"linemap/internal/export/drawing"
	"linemap/internal/network"
)

// nodes draws the points of the storey's drain and labels those that people
// look for. Openings come first: they get the best places.
func (sd *storeyDraft) nodes() {
	sd.openings()
	sd.points()
}

func (sd *storeyDraft) openings() {
	for _, n := range sd.st.nodes {
		if node := &sd.graph.Net.Nodes[n]; opens(node) {
			sd.access(n, node)
		}
	}
}

// points draws the nodes that are no opening.
func (sd *storeyDraft) points() {
	for _, n := range sd.st.nodes {
		if node := &sd.graph.Net.Nodes[n]; !opens(node) {
			sd.node(n, node)
		}
	}
}

func opens(node *network.Node) bool { return node.Access != nil && node.Kind == network.KindAccess }

// access draws an opening: a ring, heavy where the plan uses it, with a wedge
// on the side to which it leads a hose.
func (sd *storeyDraft) access(n int, node *network.Node) {
	at := point(node.At)
	a := node.Access
	sym, size := accessLook(a.Kind)
	pen, bold := thinPen, false
	if sd.used[node.ID] {
		pen, bold = usedPen, true
		sd.saw(sample{kind: sampleUsed})
	}
	for _, turn := range sd.leads(n, a) {
		sin, cos := math.Sincos(turn)
		sd.list.Add(drawing.Drains, drawing.Mark{
			At: at, Off: drawing.Point{X: cos * size / 2, Y: -sin * size / 2},
			Symbol: drawing.Wedge, Size: wedgeSize, Turn: turn, Fill: ink(drawing.Black),
		})
		sd.saw(sample{kind: sampleFacing})
	}
	sd.list.Add(drawing.Drains, drawing.Mark{At: at, Symbol: sym, Size: size, Pen: pen, Fill: ink(drawing.White)})
	if a.OutOfService {
		sd.list.Add(drawing.Drains, drawing.Mark{At: at, Symbol: drawing.Saltire, Size: size + 1, Pen: thinPen})
		sd.saw(sample{kind: sampleClosed})
	}
	sd.wallMark(at, size/2)
	sd.saw(sample{kind: sampleAccess, access: a.Kind})
	style := drawing.Style{Pt: ptName, Bold: bold}
	if sd.overview() {
		if bold || a.Kind == network.Manhole {
			sd.around(drawing.Notes, at, size/2+0.3, line{sd.accessName(node), drawing.Style{Pt: ptSmall, Bold: bold}})
			sd.optional(dropStack)
		}
		return
	}
	if sd.crowded(n) {
		return
	}
	small := drawing.Style{Pt: ptSmall}
	state := ""
	if a.OutOfService {
		state = "not in service"
	}
	sd.around(drawing.Notes, at, size/2+0.3,
		line{sd.accessName(node), style}, line{a.Room, small}, line{state, small})
}

// accessName is an opening's label with the trade's letters.
func (d *draft) accessName(node *network.Node) string {
	code, name := node.Access.Kind.Letters(), d.label(node)
	if node.Access.Kind != network.PulledFixture && coded(name) {
		return name
	}
	return lettered(code, name)
}

// label is what a place is called on the map.
func (d *draft) label(node *network.Node) string {
	if node.Label != "" {
		return node.Label
	}
	return string(node.ID)
}

// leads returns the directions into which a cleanout leads a hose: one for a
// one-way cleanout, none where the pipe goes straight down, and none for an
// opening that leads every way.
func (sd *storeyDraft) leads(n int, a *network.Access) []float64 {
	if a.Kind != network.OneWayCleanout {
		return nil
	}
	pipes := sd.graph.Above[n]
	if a.Facing == network.FacesDownstream {
		pipes = sd.graph.Below[n]
	}
	var turns []float64
	for _, p := range pipes {
		line := slices.Clone(sd.trace(p))
		if a.Facing != network.FacesDownstream { // seen from its lower end
			slices.Reverse(line)
		}
		for i := 1; i < len(line); i++ {
			if turn, ok := heading(line[0], line[i]); ok {
				turns = append(turns, turn)
				break
			}
		}
	}
	return turns
}

// node draws a point that is no opening.
func (sd *storeyDraft) node(n int, node *network.Node) {
	at := point(node.At)
	if sd.overview() && node.Kind != network.KindOutlet && (sd.sketchy() || node.Kind != network.KindJunction) {
		return
	}
	switch node.Kind {
	case network.KindJunction:
		sd.list.Add(drawing.Drains, drawing.Mark{At: at, Symbol: drawing.Disc, Size: dotSize, Fill: ink(drawing.Black)})
	case network.KindFixture:
		sd.mark(node, sampleFixture, drawing.Mark{At: at, Symbol: drawing.Square, Size: fixtureSize, Pen: thinPen, Fill: ink(drawing.White)})
		sd.small(node, node.Label)
	case network.KindTrap:
		sd.mark(node, sampleTrap, drawing.Mark{At: at, Symbol: drawing.Cup, Size: 1.8, Turn: sd.flow(n), Pen: ringPen})
	case network.KindBackwater:
		sd.mark(node, sampleValve, drawing.Mark{At: at, Symbol: drawing.Flap, Size: 2.6, Turn: sd.flow(n), Pen: thinPen, Fill: ink(drawing.White)})
		sd.small(node, lettered("BWV", node.Label))
	case network.KindReducer:
		sd.mark(node, sampleReducer, drawing.Mark{At: at, Symbol: drawing.Diamond, Size: 1.6, Pen: thinPen, Fill: ink(drawing.White)})
	case network.KindCap:
		sd.mark(node, sampleCap, drawing.Mark{At: at, Symbol: drawing.Bar, Size: 2.4, Turn: sd.flow(n), Pen: ringPen})
		sd.small(node, node.Label)
	case network.KindOutlet:
		sd.mark(node, sampleOutlet, drawing.Mark{At: at, Symbol: drawing.Wedge, Size: outletSize, Turn: sd.flow(n), Fill: ink(drawing.Black)})
		sd.around(drawing.Notes, at, outletSize/2, line{sd.label(node), drawing.Style{Pt: ptName, Bold: true}})
	}
}

// mark draws a symbol, keeps labels off it and notes it for the legend.
func (sd *storeyDraft) mark(node *network.Node, kind sampleKind, m drawing.Mark) {
	sd.list.Add(drawing.Drains, m)
	sd.wallMark(point(node.At), m.Size/2)
	sd.saw(sample{kind: kind})
}

// small labels a point in small letters, if there is anything to say.
func (sd *storeyDraft) small(node *network.Node, text string) {
	if n, ok := sd.graph.NodeIndex(node.ID); text != "" && !(ok && sd.crowded(n)) {
		sd.around(drawing.Notes, point(node.At), 0.9, line{text, drawing.Style{Pt: ptSmall}})
	}
}

// flow is the direction in which the water goes at a node.
func (sd *storeyDraft) flow(n int) float64 {
	g := sd.graph
	for _, pipes := range [][]int{g.Above[n], g.Below[n]} {
		for _, p := range pipes {
			line := sd.trace(p)
			if turn, ok := heading(line[0], line[len(line)-1]); ok {
				if len(line) > 2 && g.Down[p] == n {
					turn, _ = heading(line[len(line)-2], line[len(line)-1])
				}
				return turn
			}
		}
	}
	return 0
}
