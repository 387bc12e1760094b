package route

import "slices"

// itinerary is the order of the visits of a day, to be changed where that makes
// the tows between them shorter while every run stays in its visit.
type itinerary struct {
	*catalogue
	keys  []blockKey // by visit
	order []int      // the visits as they come
	place []int      // by visit, where in order it comes
	// By visit, those that clean pipe just below what it cleans, and just above.
	before, after [][]int
	work          int // hops looked at so far
}

// reorderWork is how many hops between visits may be looked at.
const reorderWork = 20_000_000

// longestPart is how many visits in a row are moved together.
const longestPart = 3

// reorder changes the order of the visits in which some runs are made, as long as
// that makes the day cheaper: it moves a few in a row to another place, or turns a
// stretch around. A run stays behind the one that cleans the target below.
func (c *catalogue) reorder(keys []blockKey, runs []chosen) []int {
	t := &itinerary{catalogue: c, keys: keys, before: make([][]int, len(keys)), after: make([][]int, len(keys))}
	for v := range keys {
		t.order, t.place = append(t.order, v), append(t.place, v)
	}
	by := make([]int, len(c.pipes))
	for _, r := range runs {
		for _, p := range c.chain(r.column) {
			by[p] = r.block
		}
	}
	for _, r := range runs {
		if below := c.parent[c.columns[r.column].low]; below >= 0 && by[below] != r.block {
			u, v := by[below], r.block
			t.before[v], t.after[u] = append(t.before[v], u), append(t.after[u], v)
		}
	}
	for better := true; better; {
		better = false
		for from := range t.order {
			if t.work > reorderWork {
				return t.order
			}
			better = t.moveFrom(from) || better
			better = t.turnFrom(from) || better
		}
	}
	return t.order
}

// hop is what it costs to go on from one place of the day to another; nothing
// before its beginning and after its end, and where visits become one.
func (t *itinerary) hop(from, to int) ticks {
	t.work++
	if from < 0 || to >= len(t.order) || t.keys[t.order[from]] == t.keys[t.order[to]] {
		return 0
	}
	return t.moveCost(t.keys[t.order[from]], t.keys[t.order[to]])
}

// moveFrom moves up to a few visits from a place to where they cost least.
func (t *itinerary) moveFrom(from int) bool {
	for to := from + 1; to <= min(from+longestPart, len(t.order)); to++ {
		lo, hi := t.room(from, to)
		out := t.hop(from-1, to) - t.hop(from-1, from) - t.hop(to-1, to)
		best, at := ticks(0), -1
		for gap := lo; gap <= hi; gap++ { // they are put before what comes at gap
			if gap >= from && gap <= to {
				continue
			}
			in := t.hop(gap-1, from) + t.hop(to-1, gap) - t.hop(gap-1, gap)
			if cost := out + in; cost < best {
				best, at = cost, gap
			}
		}
		if at >= 0 {
			t.put(from, to, at)
			return true
		}
	}
	return false
}

// room is between which gaps of the order the visits of a part can be put.
func (t *itinerary) room(from, to int) (lo, hi int) {
	hi = len(t.order)
	for _, v := range t.order[from:to] {
		for _, u := range t.before[v] {
			if at := t.place[u]; at < from {
				lo = max(lo, at+1)
			}
		}
		for _, u := range t.after[v] {
			if at := t.place[u]; at >= to {
				hi = min(hi, at)
			}
		}
	}
	return lo, hi
}

// put moves the visits of a part before what comes at a gap.
func (t *itinerary) put(from, to, gap int) {
	part := slices.Clone(t.order[from:to])
	if gap > to {
		copy(t.order[from:], t.order[to:gap])
		copy(t.order[gap-len(part):], part)
	} else {
		copy(t.order[gap+len(part):], t.order[gap:from])
		copy(t.order[gap:], part)
	}
	t.number(min(from, gap), max(to, gap))
}

func (t *itinerary) number(from, to int) {
	for at := from; at < to; at++ {
		t.place[t.order[at]] = at
	}
}

// turnFrom turns around the stretch from a place on with which that helps most.
func (t *itinerary) turnFrom(from int) bool {
	best, end := ticks(0), -1
	for to := from + 2; to <= len(t.order); to++ {
		last := t.order[to-1]
		if slices.ContainsFunc(t.before[last], func(u int) bool { return t.place[u] >= from }) {
			break
		}
		cost := t.hop(from-1, to-1) + t.hop(from, to) - t.hop(from-1, from) - t.hop(to-1, to)
		if cost < best {
			best, end = cost, to
		}
	}
	if end < 0 {
		return false
	}
	slices.Reverse(t.order[from:end])
	t.number(from, end)
	return true
}
