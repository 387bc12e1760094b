package route

import (
	"slices"
	"time"

	"linemap/internal/site"
)

// entry is a run of the order made by hand: the candidate that makes it and
// the spot that it is made from.
type entry struct {
	*named
	column int
}

// ordered makes the runs in the order made by hand. Each cleans all of its way
// that is not clean yet, and goes no farther than the last of it.
func (h *hand) ordered() outcome {
	c := *h.own
	c.columns, c.reachable = slices.Clone(c.columns), make([]bool, len(c.pipes))
	h.c = &c
	var entries []entry
	barred := make(map[site.RunKey]bool, len(h.bar))
	for i := range h.bar {
		barred[h.bar[i].key] = true
	}
	for i := range h.order {
		n := &h.order[i]
		if barred[n.key] {
			h.broken(Breach{Key: n.key, What: OrderedBarred})
			continue
		}
		col, wrong := c.orderedRun(n)
		if wrong != nil {
			h.broken(*wrong)
		}
		if col >= 0 {
			entries = append(entries, entry{n, col})
			for _, p := range c.chain(col) {
				c.reachable[p] = true
			}
		}
	}
	got := c.carryOutEntries(entries)
	if len(got.left) > 0 {
		// What the water did not last for is a gap below the runs above it.
		for _, p := range got.left {
			c.reachable[p] = false
		}
		got = c.carryOutEntries(entries)
	} else {
		got.plan.Bound = dryMinutes(got.plan)
	}
	got.plan.judge()
	h.judgeOrder(entries, got.plan)
	return got
}

// carryOutEntries makes runs in their order.
func (c *catalogue) carryOutEntries(entries []entry) outcome {
	var seq []blockKey
	var runs [][]int
	for _, e := range entries {
		key := blockKey{e.spot, e.hose}
		if len(seq) == 0 || seq[len(seq)-1] != key {
			seq, runs = append(seq, key), append(runs, nil)
		}
		runs[len(runs)-1] = append(runs[len(runs)-1], e.column)
	}
	plan := &Plan{}
	return outcome{plan: plan, left: c.carryOut(seq, runs, plan)}
}

// orderedRun makes a candidate of a run for what of its way is not clean yet,
// which c.reachable tells; -1 where the run cannot be made. wrong is what is to
// be said of it, nil for nothing.
func (c *catalogue) orderedRun(n *named) (col int, wrong *Breach) {
	at := slices.IndexFunc(c.places, func(p place) bool {
		return n.spot >= 0 && n.access == p.access && p.set&c.bit(p.access, n.spot) != 0 && (runID{p.access, p.hose, p.pipe, p.down}) == n.runID
	})
	if at < 0 || !c.pipes[n.end].target {
		b := c.whyNot(n)
		return -1, &b
	}
	first := len(c.columns)
	for _, i := range c.pathOf(at) {
		if p := c.places[i].pipe; c.pipes[p].target && !c.reachable[p] {
			c.extendOrdered(i, first)
		}
	}
	col = len(c.columns) - 1
	switch made := &c.columns[col]; {
	case col < first:
		return -1, &Breach{Key: n.key, What: NothingLeft}
	case !c.madeFrom(col, n.spot):
		b := c.notServed(n, made)
		c.columns = c.columns[:first]
		return -1, &b
	case made.last != n.end:
		return col, &Breach{Key: n.key, What: CutShort, Pipe: c.site.Network.Pipes[made.last].ID}
	}
	return col, nil
}

// extendOrdered adds the candidate that ends at a place and cleans its pipe
// beside all that the candidates since first clean.
func (c *catalogue) extendOrdered(at, first int) {
	p, down := c.places[at].pipe, c.places[at].down
	col := column{low: p, prev: -1}
	if prev := len(c.columns) - 1; prev >= first {
		col = c.columns[prev]
		col.prev = prev
		if down {
			col.low = p
		}
	}
	col.last, col.end = p, at
	c.ask(&col, at, down)
	c.finish(col)
}

// notServed says why a run that breaks no rule of its path cannot be made for
// all that it has to clean.
func (c *catalogue) notServed(n *named, col *column) Breach {
	t := c.attempt(n.access, n.hose, n.path)
	s := c.shortfall(n.end)
	if over, ok := c.columnOver(col, c.spots[n.spot].inflow); ok {
		s.Reason, s.ByWater = NoWater, over
	} else {
		(&explainer{catalogue: c}).tell(&t, &s)
		s.Reason = NoNozzle
	}
	return Breach{Key: n.key, What: BreaksRule, Rule: &s}
}

// dryMinutes is what the day takes without waiting, filling and draining.
func dryMinutes(p *Plan) (sum time.Duration) {
	for _, e := range p.Day {
		switch e.Kind {
		case EventWait, EventFill, EventDrain:
		default:
			sum += e.Takes
		}
	}
	return sum
}

// judgeOrder reports the runs for which the water did not last, and those that
// are made before the pipe below them is clean.
func (h *hand) judgeOrder(entries []entry, p *Plan) {
	made := p.Runs()
	for i, e := range entries {
		whole := i < len(made) && made[i].Path[len(made[i].Path)-1].Pipe == h.site.Network.Pipes[h.c.columns[e.column].last].ID
		if !whole {
			h.broken(Breach{Key: e.key, What: OutOfWater})
		}
	}
	clean := make([]bool, len(h.pipes))
	for i, r := range made {
		for _, leg := range r.Path {
			p, _ := h.g.PipeIndex(leg.Pipe)
			clean[p] = clean[p] || leg.Cleaned
		}
		for _, leg := range r.Path {
			p, _ := h.g.PipeIndex(leg.Pipe)
			if low := h.uncleanBelow(p, clean); leg.Cleaned && low >= 0 {
				h.broken(Breach{Key: entries[i].key, What: NotLowestFirst, Pipe: h.site.Network.Pipes[low].ID})
				r.Flags = append(r.Flags, Flag{Kind: FlagEarly, At: leg.From, Pipe: leg.Pipe})
				break
			}
		}
	}
	place := make(map[site.RunKey]int, len(h.order))
	for i := range h.order {
		place[h.order[i].key] = i + 1 // before it, kept runs that are not in the order
	}
	slices.SortStableFunc(h.report.Broken, func(a, b Breach) int { return place[a.Key] - place[b.Key] })
}

// uncleanBelow is the nearest pipe below another that is to be cleaned, where it
// is not clean yet; else -1.
func (h *hand) uncleanBelow(p int, clean []bool) int {
	for q := h.g.Next[p]; q >= 0; q = h.g.Next[q] {
		if h.c.reachable[q] {
			if clean[q] {
				return -1
			}
			return q
		}
	}
	return -1
}
