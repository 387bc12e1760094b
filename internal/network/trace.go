package network

import (
	"cmp"
	"fmt"
	"slices"

	"linemap/internal/unit"
)

// Trace works out which way every pipe flows, and what is odd about the flow.
//
// Water takes the way to an outlet that contradicts the fewest measured
// inverts, then the shortest, then the one whose IDs sort first. A pipe on no
// such way flows from its higher to its lower invert, or, where one is not
// measured, toward the end that is nearer to an outlet. A part of the network
// without an outlet drains to its lowest end.
//
// The findings tell of IDs that stand twice, pipes whose ends name no node,
// missing outlets, parts that are joined to nothing, contradicted inverts and
// loops; they are sorted, worst first. Trace takes any network and needs
// O((n+m) log n) time.
func Trace(n *Network) (*Graph, []Finding) {
	t := tracer{g: newGraph(n)}
	t.attach()
	t.legs = newLegs(len(n.Nodes), t.g.ends)
	t.parts()
	t.chooseOutlets()
	t.flow()
	t.direct()
	t.loops()
	return t.g, t.sorted()
}

// tracer is a trace at work.
type tracer struct {
	g *Graph
	findings
	legs legs
	// part[n] numbers the connected part that node n belongs to, out of count.
	part  []int
	count int
	// against[n] and dist[n] measure node n's way to the outlet: inverts
	// contradicted, then length in micrometres. settled lists the nodes from
	// the outlets up.
	against []int
	dist    []int64
	settled []int
}

func newGraph(n *Network) *Graph {
	g := &Graph{
		Net:    n,
		Up:     make([]int, len(n.Pipes)),
		Down:   make([]int, len(n.Pipes)),
		Above:  make([][]int, len(n.Nodes)),
		Below:  make([][]int, len(n.Nodes)),
		Next:   make([]int, len(n.Pipes)),
		Order:  make([]int, 0, len(n.Pipes)),
		Looped: make([]bool, len(n.Pipes)),
		nodes:  make(map[NodeID]int, len(n.Nodes)),
		pipes:  make(map[PipeID]int, len(n.Pipes)),
		levels: make(map[string]unit.Length, len(n.Levels)),
		ends:   make([][2]int, len(n.Pipes)),
		length: make([]unit.Length, len(n.Pipes)),
		way:    make([]int, len(n.Nodes)),
	}
	for _, l := range n.Levels {
		g.levels[l.Name] = l.Elevation
	}
	return g
}

// attach indexes the IDs and joins the pipes to their nodes. Of two nodes with
// one ID the first is meant.
func (t *tracer) attach() {
	n := t.g.Net
	for i := range n.Nodes {
		id := n.Nodes[i].ID
		if _, ok := t.g.nodes[id]; ok {
			t.add(t.g.atNode(i, Error, "duplicate_id"), Finding{
				What: fmt.Sprintf("Two nodes have the ID %q; pipes join the first.", id),
				Cure: "Give one of them an ID of its own.",
			})
			continue
		}
		t.g.nodes[id] = i
	}
	for p := range n.Pipes {
		pipe := &n.Pipes[p]
		if _, ok := t.g.pipes[pipe.ID]; ok {
			t.add(t.g.atPipe(p, Error, "duplicate_id"), Finding{
				What: fmt.Sprintf("Two pipes have the ID %q.", pipe.ID),
				Cure: "Give one of them an ID of its own.",
			})
		} else {
			t.g.pipes[pipe.ID] = p
		}
		from, okFrom := t.g.nodes[pipe.From]
		to, okTo := t.g.nodes[pipe.To]
		t.g.ends[p] = [2]int{from, to}
		t.g.Up[p], t.g.Down[p] = from, to // as drawn until the flow is known
		if !okFrom || !okTo {
			t.g.ends[p] = [2]int{-1, -1}
			t.g.Up[p], t.g.Down[p] = -1, -1
			t.add(t.g.atPipe(p, Error, "dangling_pipe"), Finding{
				What: fmt.Sprintf("The pipe runs from node %q to node %q, and one of them is not in the network.", pipe.From, pipe.To),
				Cure: "Join the pipe to nodes that exist, or remove it.",
			})
		}
		t.g.length[p] = t.g.measure(p)
	}
}

// parts numbers the connected parts of the network.
func (t *tracer) parts() {
	t.part = make([]int, len(t.g.Net.Nodes))
	for i := range t.part {
		t.part[i] = -1
	}
	var queue []int
	for start := range t.part {
		if t.part[start] >= 0 {
			continue
		}
		t.part[start] = t.count
		queue = append(queue[:0], start)
		for len(queue) > 0 {
			node := queue[len(queue)-1]
			queue = queue[:len(queue)-1]
			for _, p := range t.legs.at(node) {
				if far := t.far(p, node); t.part[far] < 0 {
					t.part[far] = t.count
					queue = append(queue, far)
				}
			}
		}
		t.count++
	}
}

// far is the end of pipe p that is not node.
func (t *tracer) far(p, node int) int {
	return t.g.ends[p][0] + t.g.ends[p][1] - node
}

// byNodeID orders node indexes by ID, and by index where an ID stands twice.
func (t *tracer) byNodeID(a, b int) int {
	return cmp.Or(cmp.Compare(t.g.Net.Nodes[a].ID, t.g.Net.Nodes[b].ID), a-b)
}

// byPipeID orders pipe indexes by ID, and by index where an ID stands twice.
func (t *tracer) byPipeID(a, b int) int {
	return cmp.Or(cmp.Compare(t.g.Net.Pipes[a].ID, t.g.Net.Pipes[b].ID), a-b)
}

// legs lists the pipes at every node, in one flat array. A pipe whose two ends
// meet at one node is left out.
type legs struct{ start, pipe []int }

func newLegs(nodes int, ends [][2]int) legs {
	l := legs{start: make([]int, nodes+1)}
	joins := func(e [2]int) bool { return e[0] >= 0 && e[0] != e[1] }
	for _, e := range ends {
		if joins(e) {
			l.start[e[0]+1]++
			l.start[e[1]+1]++
		}
	}
	for i := range nodes {
		l.start[i+1] += l.start[i]
	}
	l.pipe = make([]int, l.start[nodes])
	fill := slices.Clone(l.start)
	for p, e := range ends {
		if !joins(e) {
			continue
		}
		for _, node := range e {
			l.pipe[fill[node]] = p
			fill[node]++
		}
	}
	return l
}

// at lists the pipes at a node.
func (l legs) at(node int) []int { return l.pipe[l.start[node]:l.start[node+1]] }
