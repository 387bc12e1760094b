package network

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"linemap/internal/unit"
)

// NodeName names a node for a reader: its label, or its kind and ID, such as
// "wye W1".
func (g *Graph) NodeName(node int) string {
	if node < 0 || node >= len(g.Net.Nodes) {
		return "no node"
	}
	return g.Net.Nodes[node].Name()
}

// PipeName names a pipe for a reader: its label, or "pipe" and its ID.
func (g *Graph) PipeName(p int) string {
	if p < 0 || p >= len(g.Net.Pipes) {
		return "no pipe"
	}
	return g.Net.Pipes[p].Name()
}

// Name names the node for a reader, as [Graph.NodeName] does.
func (n *Node) Name() string {
	if n.Label != "" {
		return n.Label
	}
	return n.Word() + " " + string(n.ID)
}

// Name names the pipe for a reader, as [Graph.PipeName] does.
func (p *Pipe) Name() string {
	if p.Label != "" {
		return p.Label
	}
	return "pipe " + string(p.ID)
}

// pipeNames names a few pipes and counts the rest.
func (g *Graph) pipeNames(pipes []int) string {
	const most = 5
	names := make([]string, 0, most)
	for _, p := range pipes[:min(most, len(pipes))] {
		names = append(names, g.PipeName(p))
	}
	s := strings.Join(names, ", ")
	if more := len(pipes) - most; more > 0 {
		s += fmt.Sprintf(" and %d more", more)
	}
	return s
}

var kindWords = map[NodeKind]string{
	KindAccess: "access", KindBend: "bend", KindJunction: "junction", KindFixture: "fixture",
	KindTrap: "trap", KindReducer: "reducer", KindBackwater: "backwater valve", KindOutlet: "outlet",
	KindCap: "cap",
}

var accessWords = map[AccessKind]string{
	OneWayCleanout: "cleanout", TwoWayCleanout: "cleanout", Manhole: "manhole",
	PulledFixture: "pulled fixture", RoofVent: "roof vent", CatchBasin: "catch basin",
}

var junctionWords = map[JunctionKind]string{
	Wye: "wye", SanitaryTee: "sanitary tee", Combination: "combination", DoubleWye: "double wye", Cross: "cross",
}

// Word is the trade's word for what the node is: "cleanout", "wye".
func (n *Node) Word() string {
	w := kindWords[n.Kind]
	switch {
	case n.Kind == KindAccess && n.Access != nil && accessWords[n.Access.Kind] != "":
		w = accessWords[n.Access.Kind]
	case n.Kind == KindJunction && n.Junction != nil && junctionWords[n.Junction.Kind] != "":
		w = junctionWords[n.Junction.Kind]
	}
	if w == "" {
		return "node"
	}
	return w
}

// called is the word with the label: "cleanout CO-3", or just the word.
func (n *Node) called() string {
	if n.Label == "" {
		return n.Word()
	}
	return n.Word() + " " + n.Label
}

// BendName names a turn by the trade's bend: a 1/8 bend turns an eighth of a
// circle, 45 degrees. What no bend turns is named by its degrees.
func BendName(turn unit.Angle) string {
	for _, b := range bends {
		if off := unit.Angle(math.Abs(float64(turn - b.turn))); off < unit.Degrees(1)-slack {
			return b.name
		}
	}
	return degrees(turn) + " degree turn"
}

// degrees writes an angle in whole degrees, half a degree as the next.
func degrees(a unit.Angle) string {
	return strconv.FormatFloat(math.Floor((a+slack).Degrees()+0.5), 'f', 0, 64)
}

// size writes a nominal size in both systems: "4 in (DN 100)".
func size(s unit.Size) string {
	if !s.Known() {
		return s.In(unit.US)
	}
	return s.In(unit.US) + " (" + s.In(unit.Metric) + ")"
}

// height writes a small or exact length in both systems of units, for a reader
// of either.
func height(l unit.Length) string { return unit.US.Footage(l) + " (" + unit.Metric.Footage(l) + ")" }
