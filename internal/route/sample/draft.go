package sample

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// xy is a place or a way on the plan, in feet east and north.
type xy struct{ x, y float64 }

func (a xy) add(way xy, feet float64) xy { return xy{a.x + way.x*feet, a.y + way.y*feet} }

// left is the way a quarter turn to the left of a.
func (a xy) left() xy { return xy{-a.y, a.x} }

// right is the way a quarter turn to the right of a.
func (a xy) right() xy { return xy{a.y, -a.x} }

// half is the way half a quarter turn from a toward b, which stands square to a.
func (a xy) half(b xy) xy { return xy{(a.x + b.x) / math.Sqrt2, (a.y + b.y) / math.Sqrt2} }

func (a xy) point() network.Point {
	return network.Point{X: unit.Feet(a.x), Y: unit.Feet(a.y)}
}

// draft is a drain that is drawn upward from its outlets, so that a node stands
// after those below it.
type draft struct {
	rand *rand.Rand
	net  network.Network
	// below[n] is the pipe with which node n was drawn, -1 for an outlet.
	below []int
	// count counts the names of each series.
	count map[string]int
}

func newDraft(seed, stream uint64) *draft {
	return &draft{rand: rand.New(rand.NewPCG(seed, stream)), count: map[string]int{}}
}

// name is the next name of a series: "CO-1", "CO-2".
func (d *draft) name(series string) string {
	d.count[series]++
	return fmt.Sprintf("%s-%d", series, d.count[series])
}

// outlet draws an outlet.
func (d *draft) outlet(series string, at xy, level string) int {
	return d.node(network.Node{Kind: network.KindOutlet, At: at.point(), Level: level}, series, -1)
}

// deep gives the invert of an outlet, from which those of all above it follow: a
// number of feet under ground.
func (d *draft) deep(outlet int, feet float64) {
	invert := unit.Feet(-feet)
	d.net.Nodes[outlet].Invert = &invert
}

// node draws a node like n at the upper end of pipe below.
func (d *draft) node(n network.Node, series string, below int) int {
	n.Label = d.name(series)
	n.ID = network.NodeID(strings.ToLower(n.Label))
	d.net.Nodes = append(d.net.Nodes, n)
	d.below = append(d.below, below)
	return len(d.net.Nodes) - 1
}

// up draws a pipe like p that flows into node down, and at its upper end a node
// like n. The way leads there from down, by the corners of the pipe. The node lies
// on the level of down where it names none, and as much higher as the pipe falls.
func (d *draft) up(down int, p network.Pipe, n network.Node, series string, way ...xy) int {
	lower := &d.net.Nodes[down]
	n.At = way[len(way)-1].point()
	if n.Level == "" {
		n.Level = lower.Level
	}
	line := []network.Point{lower.At}
	for _, at := range way {
		line = append(line, at.point())
	}
	if lower.Invert != nil {
		invert := *lower.Invert + network.WayLength(line)*unit.Length(fallOf(p.Size))
		n.Invert = &invert
		if n.Access != nil {
			n.Access.Riser = max(0, d.floor(n.Level)-invert)
		}
	}
	node := d.node(n, series, len(d.net.Pipes))
	if len(way) > 1 {
		slices.Reverse(line)
		p.Via = line[1 : len(line)-1]
	}
	d.connect(p, node, down)
	return node
}

// climb draws a stack that rises a number of feet from node down, and the node at
// its top.
func (d *draft) climb(down int, p network.Pipe, n network.Node, series string, feet float64, at xy) int {
	node := d.up(down, p, n, series, at)
	top := *d.net.Nodes[down].Invert + unit.Feet(feet)
	d.net.Nodes[node].Invert = &top
	if n.Access != nil { // it opens where the stack ends
		n.Access.Riser = 0
	}
	return node
}

// connect draws a pipe like p between two nodes that are there.
func (d *draft) connect(p network.Pipe, up, down int) {
	p.Label = d.name(pipeSeries[p.Class])
	p.ID = network.PipeID(strings.ToLower(p.Label))
	p.From, p.To = d.net.Nodes[up].ID, d.net.Nodes[down].ID
	d.net.Pipes = append(d.net.Pipes, p)
}

// floor is the height at which openings of a level stand: the ground, or the
// floor above.
func (d *draft) floor(level string) unit.Length {
	for _, l := range d.net.Levels {
		if l.Name == level {
			return max(0, l.Elevation)
		}
	}
	return 0
}

// fallOf is the fall of pipe as laid: some more than a quarter inch per foot up
// to 3 in, than an eighth up to 6 in, and than a sixteenth above that.
func fallOf(s unit.Size) unit.Slope {
	switch {
	case s <= 3:
		return unit.InchesPerFoot(0.26)
	case s <= 6:
		return unit.InchesPerFoot(0.15)
	}
	return unit.InchesPerFoot(0.08)
}

// pipeSeries begin the names of pipes.
var pipeSeries = map[network.PipeClass]string{
	network.BuildingSewer: "S", network.BuildingDrain: "D", network.Main: "M",
	network.Branch: "B", network.Lateral: "L", network.Stack: "K",
}

// junction is a fitting. [draft.join] says which pipe is its branch.
func junction(kind network.JunctionKind) network.Node {
	return network.Node{Kind: network.KindJunction, Junction: &network.Junction{Kind: kind}}
}

// join makes a pipe the branch of the fitting at a node.
func (d *draft) join(node, pipe int) {
	n := &d.net.Nodes[node]
	n.Junction = &network.Junction{Kind: n.Junction.Kind, Branches: []network.PipeID{d.net.Pipes[pipe].ID}}
}

// access is an opening, with the turn from its riser into the pipe.
func access(kind network.AccessKind, size unit.Size) network.Node {
	a := network.Access{Kind: kind, Size: size}
	switch kind {
	case network.TwoWayCleanout:
		a.Entry = unit.Degrees(45)
	case network.Manhole, network.OneWayCleanout:
		a.Entry = unit.Degrees(90)
	}
	return network.Node{Kind: network.KindAccess, Access: &a}
}

// cleanout is a one-way cleanout.
func cleanout(facing network.Facing, size unit.Size, indoor bool) network.Node {
	n := access(network.OneWayCleanout, size)
	n.Access.Facing, n.Access.Indoor = facing, indoor
	if facing == network.FacesUpstream {
		n.Access.Entry = unit.Degrees(45)
	}
	return n
}

// bend is a bend of some degrees.
func bend(degrees float64) network.Node {
	return network.Node{Kind: network.KindBend, Turn: unit.Degrees(degrees)}
}
