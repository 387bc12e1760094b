package network

import (
	"fmt"
	"slices"

	"github.com/dominikbraun/graph"
)

// loops marks the pipes on a loop and tells of each loop.
func (t *tracer) loops() {
	g := t.g
	for p, e := range t.g.ends {
		g.Looped[p] = e[0] >= 0
	}
	for _, p := range t.bridges() {
		g.Looped[p] = false
	}
	seen := make([]bool, len(g.Looped))
	for p := range g.Looped {
		if !g.Looped[p] || seen[p] {
			continue
		}
		loop := t.loopWith(p, seen)
		slices.SortFunc(loop, t.byPipeID)
		t.add(g.atPipe(loop[0], Warning, "loop"), Finding{
			What: fmt.Sprintf("%s: %s. Where the flow divides, the way with the fewest contradicted inverts and then the shorter one is taken.",
				loopName(len(loop)), g.pipeNames(loop)),
			Cure: "Check the sketch: a drain seldom has a loop. If it has, say which way the water goes with inverts.",
		})
		if round := t.circulating(loop); len(round) > 0 {
			t.add(g.atPipe(round[0], Error, "circulation"), Finding{
				What: "By the inverts the water would run in a circle: " + g.pipeNames(round) + ".",
				Cure: "Measure the inverts round the loop again.",
			})
		}
	}
}

func loopName(pipes int) string {
	if pipes == 1 {
		return "A pipe that ends where it starts"
	}
	return fmt.Sprintf("%d pipes close a loop", pipes)
}

// loopWith collects the pipes that share loops with pipe p, in one chain of
// loops or more. A pipe that ends where it starts is a loop by itself.
func (t *tracer) loopWith(p int, seen []bool) []int {
	loop := []int{p}
	seen[p] = true
	if ends := t.g.ends[p]; ends[0] == ends[1] {
		return loop
	}
	for i := 0; i < len(loop); i++ {
		for _, node := range t.g.ends[loop[i]] {
			for _, q := range t.legs.at(node) {
				if t.g.Looped[q] && !seen[q] {
					seen[q] = true
					loop = append(loop, q)
				}
			}
		}
	}
	return loop
}

// circulating returns the pipes of a loop on which water would flow round and
// round, sorted by ID.
func (t *tracer) circulating(loop []int) []int {
	// The library takes a zero hash for "none yet", so nodes count from 1.
	flow := graph.New(graph.IntHash, graph.Directed())
	for _, p := range loop {
		up, down := t.g.Up[p]+1, t.g.Down[p]+1
		// A node or an edge that is there already is no error here.
		_ = flow.AddVertex(up)
		_ = flow.AddVertex(down)
		_ = flow.AddEdge(up, down)
	}
	rounds, err := graph.StronglyConnectedComponents(flow)
	if err != nil {
		return nil // only for undirected graphs
	}
	round := map[int]int{}
	for i, nodes := range rounds {
		for _, node := range nodes {
			round[node-1] = i
		}
	}
	var pipes []int
	for _, p := range loop {
		up, down := t.g.Up[p], t.g.Down[p]
		if up != down && round[up] == round[down] {
			pipes = append(pipes, p)
		}
	}
	return pipes
}

// bridges returns the pipes whose removal would part the network: Tarjan's
// algorithm without recursion, for a drain can be a very long chain.
func (t *tracer) bridges() []int {
	n := len(t.g.Net.Nodes)
	type visit struct{ node, by, next int }
	var (
		found   = make([]int, n) // order of discovery from 1, 0 for not yet
		low     = make([]int, n)
		bridges []int
		stack   []visit
		clock   int
	)
	enter := func(node, by int) {
		clock++
		found[node], low[node] = clock, clock
		stack = append(stack, visit{node: node, by: by})
	}
	for root := range n {
		if found[root] > 0 {
			continue
		}
		enter(root, -1)
		for len(stack) > 0 {
			v := &stack[len(stack)-1]
			if at := t.legs.at(v.node); v.next < len(at) {
				p := at[v.next]
				v.next++
				if far := t.far(p, v.node); p == v.by {
					continue
				} else if found[far] == 0 {
					enter(far, p)
				} else {
					low[v.node] = min(low[v.node], found[far])
				}
				continue
			}
			node, by := v.node, v.by
			stack = stack[:len(stack)-1]
			if by < 0 {
				continue
			}
			parent := t.far(by, node)
			low[parent] = min(low[parent], low[node])
			if low[node] > found[parent] {
				bridges = append(bridges, by)
			}
		}
	}
	return bridges
}
