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
	if t.items[i].Optional || t.at[i] == Dropped || t.cost(i, t.at[i], Taboo/4) < Taboo/4 {
		return 0
	}
	home, tried := t.at[i], 0
	for k := range min(len(t.places[i]), tries) {
		if k == home || t.places[i][k].Cost >= Taboo/4 {
			continue
		}
		others := t.inTheWay(i, k)
		if len(others) == 0 || len(others) > crowd {
			continue
		}
		if tried++; tried > left {
			return left
		}
		before := t.sum(i, others)
		old := make([]int, len(others))
		for n, j := range others {
			old[n] = t.at[j]
			t.put(j, Dropped)
		}
		t.put(i, k)
		for _, j := range others {
			t.put(j, t.best(j))
		}
		if t.sum(i, others) < before-Taboo/8 {
			return tried
		}
		for _, j := range others { // lift all first: best looks at what stands
			t.put(j, Dropped)
		}
		t.put(i, home)
		for n, j := range others {
			t.put(j, old[n])
		}
	}
	return tried
}

// inTheWay lists the items that clash with item i at place k.
func (t *table) inTheWay(i, k int) []int {
	p := &t.places[i][k]
	var others []int
	t.taken.near(p.bounds, func(j int) bool {
		if j != i && clash(p, &t.places[j][t.at[j]]) >= Taboo/4 {
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
		case t.at[j] != Dropped:
			cost += t.cost(j, t.at[j], math.Inf(1))
		case t.items[j].Optional:
			cost += t.items[j].Drop
		default:
			cost += Taboo
		}
	}
	return cost
}
