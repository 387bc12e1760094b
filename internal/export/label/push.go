package label

import (
	"math"
	"slices"
)

// pushes bounds how many places are freed on trial in all, tries for how many
// an item that stands badly, and crowd how many others it may move for one.
const (
	pushes = 4000
	tries  = 60
	crowd  = 4
)

// push frees a place for item i where it stands on something: for each of its
// places it moves those in the way to their next best, and keeps the first
// change that makes the whole cheaper by a clash. It returns how many places it
// tried, at most left.
func (t *table) push(i, left int) int {
	home := t.stands[i]
	if t.items[i].Optional || home == nil || t.cost(i, home, Taboo/4) < Taboo/4 {
		return 0
	}
	tried := 0
	for n := range tries {
		p := t.queues[i].nth(n, t.around)
		if p == nil || p.cost >= Taboo/4 {
			break
		}
		if p == home {
			continue
		}
		others := t.inTheWay(i, p)
		if len(others) == 0 || len(others) > crowd {
			continue
		}
		if tried++; tried > left {
			return left
		}
		if t.swap(i, p, others) {
			break
		}
	}
	return tried
}

// swap moves item i to a place and those in the way to their next best, and
// takes that back where it does not pay.
func (t *table) swap(i int, p *place, others []int) bool {
	before, home := t.sum(i, others), t.stands[i]
	old := make([]*place, len(others))
	for n, j := range others { // lift all first: best looks at what stands
		old[n] = t.stands[j]
		t.put(j, nil)
	}
	t.put(i, p)
	for _, j := range others {
		t.put(j, t.best(j))
	}
	if t.sum(i, others) < before-Taboo/8 {
		return true
	}
	for _, j := range others {
		t.put(j, nil)
	}
	t.put(i, home)
	for n, j := range others {
		t.put(j, old[n])
	}
	return false
}

// inTheWay lists the items that clash with item i at a place.
func (t *table) inTheWay(i int, p *place) []int {
	var others []int
	t.taken.near(p.bounds, func(j int) bool {
		if j != i && clash(p, t.stands[j]) >= Taboo/4 {
			others = append(others, j)
		}
		return true
	})
	slices.Sort(others)
	return others
}

// sum returns what item i and some others cost as they stand. A dropped item
// that should stand costs as much as one on top of another.
func (t *table) sum(i int, others []int) float64 {
	cost := 0.0
	for _, j := range append([]int{i}, others...) {
		switch {
		case t.stands[j] != nil:
			cost += t.cost(j, t.stands[j], math.Inf(1))
		case t.items[j].Optional:
			cost += t.items[j].Drop
		default:
			cost += Taboo
		}
	}
	return cost
}
