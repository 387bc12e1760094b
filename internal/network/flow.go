package network

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"linemap/internal/unit"
)

// longest caps the length of one pipe, 1000 km, so that sums of micrometres
// stay exact.
const longest = unit.Length(1e6)

// microns is a length in whole micrometres, so that equal ways stay equal
// wherever the sketch lies on the plan.
func microns(l unit.Length) int64 {
	return int64(math.Round(min(l, longest).Millimetres() * 1000))
}

// flow finds every node's way to an outlet: Dijkstra's algorithm from all
// outlets at once, up the pipes.
func (t *tracer) flow() {
	n := len(t.g.Net.Nodes)
	t.against, t.dist = make([]int, n), make([]int64, n)
	const unseen, open, done = 0, 1, 2
	state := make([]byte, n)
	for i := range t.g.way {
		t.g.way[i] = -1
	}
	f := &front{t: t, place: make([]int, n)}
	for _, node := range t.g.Outlets {
		state[node] = open
		f.push(node)
	}
	for len(f.heap) > 0 {
		node := f.pop()
		state[node] = done
		t.settled = append(t.settled, node)
		for _, p := range t.legs.at(node) {
			far := t.far(p, node)
			if state[far] == done {
				continue
			}
			against := t.against[node]
			if high, ok := t.higher(p); ok && high == node {
				against++
			}
			dist := t.dist[node] + microns(t.g.length[p])
			if state[far] == open {
				c := cmp.Or(cmp.Compare(against, t.against[far]), cmp.Compare(dist, t.dist[far]))
				if c == 0 && t.g.way[far] >= 0 {
					c = t.byPipeID(p, t.g.way[far])
				}
				if c >= 0 {
					continue
				}
			}
			t.against[far], t.dist[far], t.g.way[far] = against, dist, p
			if state[far] == unseen {
				state[far] = open
				f.push(far)
			} else {
				f.raise(far)
			}
		}
	}
}

// higher returns the end of pipe p whose measured invert is the higher one;
// false where one is not measured or both are level.
func (t *tracer) higher(p int) (int, bool) {
	a, b := t.g.ends[p][0], t.g.ends[p][1]
	za, zb := t.g.Net.Nodes[a].Invert, t.g.Net.Nodes[b].Invert
	switch {
	case za == nil || zb == nil:
		return 0, false
	case *za > *zb:
		return a, true
	case *zb > *za:
		return b, true
	}
	return 0, false
}

// direct sets Up, Down, Above, Below, Next and Order.
func (t *tracer) direct() {
	g := t.g
	// Every node's pipes above and below find room in one array.
	room := make([]int, 2*len(t.legs.pipe))
	for n := range g.Above {
		from, to := t.legs.start[n], t.legs.start[n+1]
		g.Above[n] = room[2*from : 2*from : from+to]
		g.Below[n] = room[from+to : from+to : 2*to]
	}
	var rest []int
	for p, e := range t.g.ends {
		if e[0] < 0 {
			g.Next[p] = -1
			rest = append(rest, p)
			continue
		}
		up, down := e[0], e[1]
		switch high, ok := t.higher(p); {
		case g.way[down] == p, g.way[up] != p && ok && high == down,
			g.way[up] != p && !ok && t.nearer(up, down):
			up, down = down, up
		}
		if high, ok := t.higher(p); ok && high == down && up != down {
			t.contradicted(p, up, down)
		}
		g.Up[p], g.Down[p] = up, down
		g.Next[p] = g.way[down]
		g.Above[down] = append(g.Above[down], p)
		g.Below[up] = append(g.Below[up], p)
		if g.way[up] != p {
			rest = append(rest, p)
		}
	}
	for _, node := range t.settled {
		if g.way[node] >= 0 {
			g.Order = append(g.Order, g.way[node])
		}
		for _, pipes := range [2][]int{g.Above[node], g.Below[node]} {
			if len(pipes) > 1 {
				slices.SortFunc(pipes, t.byPipeID)
			}
		}
	}
	slices.SortFunc(rest, t.byPipeID)
	g.Order = append(g.Order, rest...)
}

// nearer reports whether node a is nearer to an outlet than node b.
func (t *tracer) nearer(a, b int) bool {
	if c := cmp.Or(t.against[a]-t.against[b], cmp.Compare(t.dist[a], t.dist[b])); c != 0 {
		return c < 0
	}
	return t.byNodeID(a, b) < 0
}

// contradicted tells of a pipe that has to flow against its inverts.
func (t *tracer) contradicted(p, up, down int) {
	g := t.g
	rise := *g.Net.Nodes[down].Invert - *g.Net.Nodes[up].Invert
	t.add(g.atPipe(p, Warning, "contradictory_inverts"), Finding{
		What: fmt.Sprintf("Contradictory inverts or adverse slope: the only way to the outlet runs from %s at %s to %s at %s.",
			g.NodeName(up), height(*g.Net.Nodes[up].Invert), g.NodeName(down), height(*g.Net.Nodes[down].Invert)),
		Value: "rises " + height(rise),
		Limit: "must fall toward the outlet",
		Cure:  "Measure both inverts again. If they hold, the pipe is back-pitched: expect standing water and debris.",
	})
}

// front is the heap of nodes that the flow has reached; it orders them as
// [tracer.nearer] does. It is written out because every edit of a large sketch
// waits for it: a heap behind an interface takes twice as long.
type front struct {
	t     *tracer
	heap  []int
	place []int // by node
}

func (f *front) push(node int) {
	f.heap = append(f.heap, node)
	f.place[node] = len(f.heap) - 1
	f.raise(node)
}

// raise moves a node that has come nearer to its place.
func (f *front) raise(node int) {
	i := f.place[node]
	for i > 0 {
		above := (i - 1) / 2
		if !f.t.nearer(node, f.heap[above]) {
			break
		}
		f.put(i, f.heap[above])
		i = above
	}
	f.put(i, node)
}

// pop takes out the nearest node.
func (f *front) pop() int {
	first, n := f.heap[0], len(f.heap)-1
	last := f.heap[n]
	f.heap = f.heap[:n]
	if n == 0 {
		return first
	}
	i := 0
	for {
		below := 2*i + 1
		if below >= n {
			break
		}
		if right := below + 1; right < n && f.t.nearer(f.heap[right], f.heap[below]) {
			below = right
		}
		if !f.t.nearer(f.heap[below], last) {
			break
		}
		f.put(i, f.heap[below])
		i = below
	}
	f.put(i, last)
	return first
}

func (f *front) put(i, node int) { f.heap[i], f.place[node] = node, i }
