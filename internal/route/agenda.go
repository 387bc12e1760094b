package route

import "container/heap"

// agenda are the nodes still to be parted. So many fit in memory; beyond that those
// with the highest bounds are left, as are those that cannot be parted, and lowest
// is the lowest bound of any that was left.
type agenda struct {
	search *search
	nodes  byBound
	ended  byBound // in the wet, those that are at their end but could be varied
	most   int
	lowest ticks
}

// agendaBytes is about how much memory an agenda may take.
const agendaBytes = 256 << 20

func (s *search) newAgenda() *agenda {
	return &agenda{search: s, most: agendaBytes / (4*len(s.all) + 4*s.shares + 1), lowest: unreachable}
}

// add adds a node.
func (a *agenda) add(n *node) {
	n.pack()
	heap.Push(&a.nodes, n)
	if len(a.nodes) <= max(1, a.most) {
		return
	}
	highest := 0
	for i := range a.nodes {
		if a.nodes[i].bound > a.nodes[highest].bound {
			highest = i
		}
	}
	a.leave(heap.Remove(&a.nodes, highest).(*node))
}

// leave leaves a node at its bound. In the wet it is kept to be varied.
func (a *agenda) leave(n *node) {
	a.lowest = min(a.lowest, n.bound)
	if a.search.wet && n.day != nil && n.pool != nil && len(a.ended) < a.most {
		n.ended = true
		n.pack()
		heap.Push(&a.ended, n)
	}
}

// next takes out the node with the lowest bound, of those at their end where there is
// no other; nil where none can be better than the best plan.
func (a *agenda) next() *node {
	for _, of := range []*byBound{&a.nodes, &a.ended} {
		if len(*of) > 0 && (*of)[0].bound < a.search.best.cost {
			n := heap.Pop(of).(*node)
			n.unpack(a.search.problem)
			return n
		}
	}
	return nil
}

// packed is what a node has of its pool and its shares while it waits.
type packed struct {
	choices []int32
	share   []float32
}

// pack lays the pool and the shares of a node away.
func (n *node) pack() {
	n.packed.choices = make([]int32, len(n.pool.choices))
	for i := range n.pool.choices {
		n.packed.choices[i] = n.pool.choices[i].number
	}
	n.packed.share = make([]float32, len(n.share))
	for i, v := range n.share {
		n.packed.share[i] = float32(v)
	}
	n.pool, n.share = nil, nil
}

// unpack brings them back. Shares have lost some figures, and sum to their price
// again as soon as the node is loaded.
func (n *node) unpack(p *problem) {
	choices := make([]choice, len(n.packed.choices))
	for i, at := range n.packed.choices {
		choices[i] = p.all[at]
	}
	n.pool = p.newPool(choices)
	n.share = make([]float64, len(n.packed.share))
	for i, v := range n.packed.share {
		n.share[i] = float64(v)
	}
	n.packed = packed{}
}

// byBound is a heap of nodes, the one with the lowest bound on top.
type byBound []*node

func (h byBound) Len() int           { return len(h) }
func (h byBound) Less(i, j int) bool { return h[i].bound < h[j].bound }
func (h byBound) Swap(i, j int)      { h[i], h[j] = h[j], h[i] }
func (h *byBound) Push(x any)        { *h = append(*h, x.(*node)) }
func (h *byBound) Pop() any {
	last := len(*h) - 1
	n := (*h)[last]
	*h = (*h)[:last]
	return n
}
