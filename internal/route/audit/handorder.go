package audit

import (
	"slices"

	"linemap/internal/route"
	"linemap/internal/site"
)

// tooEarly notes that a run cleans a pipe before the one below it, which the
// rules forbid and only an order made by hand may do.
func (c *checker) tooEarly(r *run, pipe, below int) {
	if c.ordered() {
		c.early[r] = append(c.early[r], below)
		return
	}
	c.add(RuleOrder, r.name, "%s is cleaned before %s, which lies below it", c.pipeName(pipe), c.pipeName(below))
}

// handOrder checks that the plan is the runs of the order made by hand, in that
// order, each cleaning all of its way that is not clean yet.
func (c *checker) handOrder(order, bar []named) {
	clean := make([]bool, len(c.pipes))
	next := 0
	for i := range order {
		n := &order[i]
		if next < len(c.runs) {
			n.follow(c.runs[next].pipes)
		}
		barred := slices.ContainsFunc(bar, func(b named) bool { return b.key == n.key })
		if _, told := c.tells(n.key, route.OrderedBarred); told != barred {
			c.differ(RuleHand, n.name, "is told to be barred", told, barred)
		}
		t, cleaned := c.left(n, clean)
		skipped := barred || c.skipped(n, &t, cleaned, next < len(c.runs))
		if _, dry := c.tells(n.key, route.OutOfWater); dry || !skipped {
			for j, pipe := range t.pipes {
				clean[pipe] = clean[pipe] || cleaned[j] // or would be, if the water lasted
			}
		}
		if skipped {
			continue
		}
		if next == len(c.runs) {
			c.add(RuleHand, n.name, "the run of the order is not made, and not told not to be")
			continue
		}
		c.orderedRun(n, c.runs[next], &t, cleaned, next == len(c.runs)-1)
		next++
	}
	for _, r := range c.runs[next:] {
		c.add(RuleHand, r.name, "the run stands not in the order made by hand")
	}
}

// follow takes, of the ways that a key may mean, the one that begins with some
// pipes.
func (n *named) follow(pipes []int) {
	for _, t := range n.ways {
		if len(pipes) <= len(t.pipes) && slices.Equal(pipes, t.pipes[:len(pipes)]) {
			n.track = t
			return
		}
	}
}

// left is the way of a run as far as something of it is left to clean, and what
// that is.
func (c *checker) left(n *named, clean []bool) (track, []bool) {
	var cleaned []bool
	last := 0
	for i, h := range n.hops {
		cleaned = append(cleaned, c.pipes[h.pipe].target && !clean[h.pipe])
		if cleaned[i] {
			last = i + 1
		}
	}
	w := n.way
	w.pipes = w.pipes[:last]
	return track{way: w, hops: n.hops[:last]}, cleaned[:last]
}

// skipped tells whether the plan tells that it leaves a run of the order out,
// and checks that it must. more tells that there are runs that come after those
// looked at: with the last of them, which is made in part, water may run out.
func (c *checker) skipped(n *named, t *track, cleaned []bool, more bool) bool {
	if _, told := c.tells(n.key, route.NothingLeft); told {
		if len(cleaned) > 0 {
			c.add(RuleHand, n.name, "the run is told to find nothing to clean, and there is %s", c.pipeName(t.pipes[len(t.pipes)-1]))
		}
		return true
	}
	if _, told := c.tells(n.key, route.BreaksRule); told {
		whole := n.track
		if c.allowed(&whole, n.hose, beyondDoubt) && c.standsAt(&whole, n.spot, n.hose, beyondDoubt) &&
			len(cleaned) > 0 && c.servedFrom(t, cleaned, n, beyondDoubt) {
			c.add(RuleHand, n.name, "the run is told to break a rule, and does not")
		}
		return true
	}
	if _, told := c.tells(n.key, route.OutOfWater); told {
		if !c.dried() {
			c.add(RuleHand, n.name, "the run is told to lack water, and no pipe is left for that")
		}
		return !more
	}
	return c.toldNotMade(n.key)
}

// dried tells whether the water ran out before all runs were made.
func (c *checker) dried() bool {
	return slices.ContainsFunc(c.plan.Shortfalls, func(s route.Shortfall) bool { return s.Reason == route.NoWater })
}

func (r *run) key() site.RunKey {
	return site.RunKey{
		Spot: r.spot.ID, Hose: r.hose.ID, Access: r.Access,
		End: r.Path[len(r.Path)-1].Pipe, Downstream: r.down,
	}
}

// cutKey is the key of a run of the order, with the end of the run made.
func (c *checker) cutKey(n *named, r *run) site.RunKey {
	key := n.key
	key.End = r.key().End
	return key
}

// orderedRun checks one run of the plan against the order.
func (c *checker) orderedRun(n *named, r *run, t *track, cleaned []bool, last bool) {
	_, dry := c.tells(n.key, route.OutOfWater)
	whole := slices.Equal(r.pipes, t.pipes) && slices.Equal(r.cleaned, cleaned)
	inPart := dry && last && len(r.pipes) < len(t.pipes) && slices.Equal(r.pipes, t.pipes[:len(r.pipes)]) &&
		slices.Equal(r.cleaned, cleaned[:len(r.pipes)])
	if r.key() != c.cutKey(n, r) || !whole && !inPart {
		c.add(RuleHand, r.name, "it is not the %s, which comes next in the order", n.name)
	}
	cut, told := c.tells(n.key, route.CutShort)
	short := len(t.pipes) < len(n.pipes)
	if told != short || told && cut.Pipe != c.pipeID(t.pipes[len(t.pipes)-1]) {
		c.differ(RuleHand, r.name, "is told to be cut short", told, short)
	}
	early, told := c.tells(n.key, route.NotLowestFirst)
	named := func(pipe int) bool { return told && c.pipeID(pipe) == early.Pipe }
	if told != (len(c.early[r]) > 0) || told && !slices.ContainsFunc(c.early[r], named) {
		c.differ(RuleHand, r.name, "is told to come before a pipe below is clean", told, len(c.early[r]) > 0)
	}
}

// keptOutOfOrder checks that the plan tells which kept runs the order leaves out.
func (c *checker) keptOutOfOrder(keep []named) {
	for _, n := range keep {
		out := !slices.Contains(c.site.ByHand.Order, n.key)
		if _, told := c.tells(n.key, route.KeptLeftOut); told != out {
			c.differ(RuleHand, n.name, "is told to be kept and left out of the order", told, out)
		}
	}
}
