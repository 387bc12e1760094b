package network_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"linemap/internal/network"
	"linemap/internal/network/sketch"
	"linemap/internal/unit"
)

// seen is all that a graph tells, by IDs, so that two graphs can be compared
// however their slices are ordered.
type seen struct {
	ends     [2]network.NodeID
	next     network.PipeID
	length   float64
	looped   bool
	passages map[network.PipeID]network.Passage
}

func look(g *network.Graph) map[network.PipeID]seen {
	all := map[network.PipeID]seen{}
	for p, pipe := range g.Net.Pipes {
		s := seen{
			ends:     [2]network.NodeID{g.Net.Nodes[g.Up[p]].ID, g.Net.Nodes[g.Down[p]].ID},
			length:   math.Round(g.Length(p).Metres()*1e6) / 1e6,
			looped:   g.Looped[p],
			passages: map[network.PipeID]network.Passage{},
		}
		if g.Next[p] >= 0 {
			s.next = g.Net.Pipes[g.Next[p]].ID
		}
		for q, to := range g.Net.Pipes {
			pass := g.Passage(p, q)
			if pass.Turn.Degrees() > 179.9 || onTop(g, p, q) {
				pass.Side = "" // straight back is neither left nor right
			}
			pass.Turn = unit.Angle(math.Round(float64(pass.Turn)*1e6) / 1e6)
			pass.Sharpest = unit.Angle(math.Round(float64(pass.Sharpest)*1e6) / 1e6)
			s.passages[to.ID] = pass
		}
		all[pipe.ID] = s
	}
	return all
}

// onTop reports whether two pipes leave a node that they share one on top of
// the other.
func onTop(g *network.Graph, p, q int) bool {
	leaves := func(p int, end string) (node int, way float64, ok bool) {
		line, node := slices.Compact(g.Polyline(p)), g.Up[p]
		if end == "down" {
			slices.Reverse(line)
			node = g.Down[p]
		}
		if len(line) < 2 {
			return node, 0, false
		}
		return node, math.Atan2(float64(line[1].Y-line[0].Y), float64(line[1].X-line[0].X)), true
	}
	steep := func(p int) bool { return math.Abs(g.Climb(p).Degrees()) > 44.9 }
	if steep(p) && steep(q) {
		return true // from one riser into another is up or down, or back
	}
	ends := []string{"up", "down"} // a pipe may end where it starts
	for _, from := range ends {
		for _, to := range ends {
			n, a, okA := leaves(p, from)
			m, b, okB := leaves(q, to)
			if n == m && okA && okB && math.Abs(math.Remainder(a-b, 2*math.Pi)) < 1e-6 {
				return true
			}
		}
	}
	return false
}

// sameAs checks that another form of a network tells the same.
func sameAs(t *rapid.T, n, other *network.Network) {
	g, flow := network.Trace(n)
	h, otherFlow := network.Trace(other)
	assert.Equal(t, look(g), look(h))
	assert.Equal(t, kinds(flow), kinds(otherFlow))
	assert.Equal(t, kinds(g.Findings(ipc, pvcOnly)), kinds(h.Findings(ipc, pvcOnly)))
}

func TestPlaceOnThePlanChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := anyNetwork(t)
		by := network.Point{X: unit.Length(rapid.IntRange(-900, 900).Draw(t, "east")), Y: unit.Length(rapid.IntRange(-900, 900).Draw(t, "north"))}
		angle := rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "angle")
		sameAs(t, n, moved(n, turned(angle, by)))
	})
}

func TestOrderOfTheSketchChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := anyNetwork(t)
		other := clone(n)
		other.Nodes = rapid.Permutation(n.Nodes).Draw(t, "nodes")
		other.Pipes = rapid.Permutation(other.Pipes).Draw(t, "pipes")
		for i := range other.Pipes {
			p := &other.Pipes[i]
			// A pipe that ends where it starts has no other way round.
			if p.From != p.To && rapid.Bool().Draw(t, "turned") {
				p.From, p.To = p.To, p.From
				slices.Reverse(p.Via)
			}
		}
		sameAs(t, n, other)
	})
}

func TestNamesChangeNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := anyNetwork(t)
		other := clone(n)
		for i := range other.Nodes {
			other.Nodes[i].ID = "N-" + other.Nodes[i].ID
			if j := other.Nodes[i].Junction; j != nil {
				for k := range j.Branches {
					j.Branches[k] = "P-" + j.Branches[k]
				}
			}
		}
		for i := range other.Pipes {
			p := &other.Pipes[i]
			p.ID, p.From, p.To = "P-"+p.ID, "N-"+p.From, "N-"+p.To
		}
		g, _ := network.Trace(n)
		h, _ := network.Trace(other)
		assert.Equal(t, g.Next, h.Next)
		assert.Equal(t, g.Order, h.Order)
		assert.Equal(t, g.Up, h.Up)
		assert.Equal(t, g.Outlets, h.Outlets)
		for p := range n.Pipes {
			for q := range n.Pipes {
				assert.Equal(t, g.Passage(p, q), h.Passage(p, q))
			}
		}
	})
}

func TestMirrorSwapsLeftAndRight(t *testing.T) {
	swap := strings.NewReplacer("left", "right", "right", "left")
	rapid.Check(t, func(t *rapid.T) {
		n := anyNetwork(t)
		g, _ := network.Trace(n)
		mirror, _ := network.Trace(moved(n, func(p network.Point) network.Point { return network.Point{X: p.X, Y: -p.Y} }))
		want := look(g)
		for _, s := range want {
			for q, pass := range s.passages {
				pass.Side = swap.Replace(pass.Side)
				s.passages[q] = pass
			}
		}
		assert.Equal(t, want, look(mirror))
	})
}

// A turn drawn exactly on a threshold stays on one side of it wherever the
// sketch lies: the last digit of a coordinate decides nothing.
func TestTurnsOnAThresholdStay(t *testing.T) {
	edges := []float64{5, 11.25, 15, 22.5, 30, 37.5, 44, 52.5, 61, 66, 67.5, 82.5, 97.5, 112.5}
	nodes := []string{"B1", "CO1", "MH1", "R1", "W1"}
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.SampledFrom(nodes).Draw(t, "node")
		text := "OUT -10ft/id=a- " + at + " -10ft/id=b- F1"
		switch at { // several inflows make a turn into a branch
		case "MH1":
			text += "; MH1 -10ft/id=c- F2"
		case "W1":
			text += "; W1 ~10ft/id=c- F2"
		}
		n := asDrawn(sketch.Must(text))
		turn := rapid.SampledFrom(edges).Draw(t, "turn") * math.Pi / 180
		if rapid.Bool().Draw(t, "right") {
			turn = -turn
		}
		along := func(from network.Point, angle float64) network.Point {
			sin, cos := math.Sincos(angle)
			return network.Point{X: from.X + unit.Length(cos), Y: from.Y + unit.Length(sin)}
		}
		last := len(n.Nodes) - 1
		n.Nodes[last].At = along(n.Nodes[1].At, turn)
		// The same turn once more, traced inside the last pipe.
		p := &n.Pipes[len(n.Pipes)-1]
		p.Via = []network.Point{n.Nodes[last].At}
		n.Nodes[last].At = along(p.Via[0], 2*turn)

		by := network.Point{
			X: unit.Length(rapid.Float64Range(-900, 900).Draw(t, "east")),
			Y: unit.Length(rapid.Float64Range(-900, 900).Draw(t, "north")),
		}
		other := moved(n, turned(rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "angle"), by))
		sameAs(t, n, other)
		assert.Equal(t, bends(n), bends(other))
	})
}

// bends lists the corners of all pipes by what they count for.
func bends(n *network.Network) []string {
	g, _ := network.Trace(n)
	var all []string
	for p := range n.Pipes {
		for _, c := range g.Corners(p) {
			all = append(all, fmt.Sprintf("%s %s %.6f", n.Pipes[p].ID, c.Side, c.Turn().Degrees()))
		}
	}
	return all
}
