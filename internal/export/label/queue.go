package label

import (
	"cmp"
	"slices"

	"linemap/internal/export/drawing"
)

// queue is the places of an item, cheapest first. Most items find room in one of
// their first places, so that a place is priced only when it may be the next.
type queue struct {
	places []place
	// order lists the places: those already asked for or priced, by their
	// standing price; from priced on, the others, by their own.
	order  []int32
	priced int
	most   float64 // no place that costs as much is taken
}

// newQueue lists the places of an item that may be taken.
func newQueue(it *Item, bounds drawing.Box) queue {
	q := queue{most: it.most()}
	q.places = make([]place, 0, len(it.Candidates))
	for k := range it.Candidates {
		if it.Candidates[k].Cost >= q.most {
			continue
		}
		p := newPlace(&it.Candidates[k], k)
		if !encloses(bounds, p.box) {
			p.cost += Taboo
		}
		q.places = append(q.places, p)
	}
	q.order = make([]int32, len(q.places))
	for i := range q.order {
		q.order[i] = int32(i)
	}
	slices.SortStableFunc(q.order, func(a, b int32) int { return cmp.Compare(q.places[a].cost, q.places[b].cost) })
	return q
}

// nth returns the place at n in the order of standing prices, nil past the last.
// All before it have been asked for.
func (q *queue) nth(n int, g *ground) *place {
	for q.priced < len(q.order) {
		next := q.order[q.priced]
		p := &q.places[next]
		if n < q.priced && q.places[q.order[n]].cost <= p.cost {
			break // no other is cheaper
		}
		g.price(p, q.most)
		at, _ := slices.BinarySearchFunc(q.order[n:q.priced], p.cost, func(o int32, cost float64) int {
			if q.places[o].cost <= cost { // behind its equals
				return -1
			}
			return 1
		})
		at += n
		copy(q.order[at+1:q.priced+1], q.order[at:q.priced])
		q.order[at] = next
		q.priced++
	}
	if n >= len(q.order) {
		return nil
	}
	return &q.places[q.order[n]]
}
