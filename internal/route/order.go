package route

import (
	"cmp"
	"container/heap"
)

// orderRuns puts a solution's runs in the order in which they are made: from the
// outlet up, and then as [catalogue.waitLess] has it where water is short.
func (c *catalogue) orderRuns(s solution) [][]int {
	out := c.fromOutlet(s)
	c.waitLess(s.seq, out)
	return out
}

// fromOutlet puts a solution's runs in an order: blocks in sequence, and in a block
// every run after the run that cleans the pipe below it. Among the runs that may
// come next it stays at the open access, and else takes the one nearest the outlet.
func (c *catalogue) fromOutlet(s solution) [][]int {
	height := make([]int, len(c.pipes)) // place in c.targets: lower ones first
	for i, p := range c.targets {
		height[p] = i
	}
	by := make([]int, len(c.pipes)) // by target, the run that cleans it
	for i, r := range s.runs {
		for _, p := range c.chain(r.column) {
			by[p] = i
		}
	}
	ready := make([]runQueue, len(s.seq))
	then := make([][]int, len(s.runs)) // the runs of the same block that wait for it
	for i, r := range s.runs {
		below := c.parent[c.columns[r.column].low]
		if below >= 0 && s.runs[by[below]].block == r.block {
			then[by[below]] = append(then[by[below]], i)
		} else {
			ready[r.block].add(c, s.runs, height, i)
		}
	}
	out := make([][]int, len(s.seq))
	for j := range s.seq {
		for open := -1; ; {
			i, ok := ready[j].next(open)
			if !ok {
				break
			}
			out[j] = append(out[j], s.runs[i].column)
			open = c.accessOf(s.runs[i].column)
			for _, k := range then[i] {
				ready[j].add(c, s.runs, height, k)
			}
		}
	}
	return out
}

func (c *catalogue) accessOf(column int) int { return c.places[c.columns[column].end].access }

// runQueue holds the runs of a block that may come next, lowest first, all
// together and by access.
type runQueue struct {
	all      waiting
	byAccess map[int]*waiting
	taken    map[int]bool
}

// waiting is a heap of runs by the height of their lowest target.
type waiting []readyRun

type readyRun struct{ run, height int }

func (w waiting) Len() int           { return len(w) }
func (w waiting) Less(i, j int) bool { return cmp.Less(w[i].height, w[j].height) }
func (w waiting) Swap(i, j int)      { w[i], w[j] = w[j], w[i] }
func (w *waiting) Push(x any)        { *w = append(*w, x.(readyRun)) }
func (w *waiting) Pop() any {
	last := len(*w) - 1
	x := (*w)[last]
	*w = (*w)[:last]
	return x
}

func (q *runQueue) add(c *catalogue, runs []chosen, height []int, i int) {
	if q.byAccess == nil {
		q.byAccess, q.taken = map[int]*waiting{}, map[int]bool{}
	}
	column := runs[i].column
	one := readyRun{i, height[c.columns[column].low]}
	here := q.byAccess[c.accessOf(column)]
	if here == nil {
		here = &waiting{}
		q.byAccess[c.accessOf(column)] = here
	}
	heap.Push(&q.all, one)
	heap.Push(here, one)
}

// next takes the run to make next while an access is open; ok is false where
// none may come.
func (q *runQueue) next(open int) (run int, ok bool) {
	for _, w := range []*waiting{q.byAccess[open], &q.all} {
		for w != nil && w.Len() > 0 {
			run = heap.Pop(w).(readyRun).run
			if !q.taken[run] {
				q.taken[run] = true
				return run, true
			}
		}
	}
	return 0, false
}
