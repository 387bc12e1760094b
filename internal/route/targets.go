package route

import (
	"slices"
)

// linkTargets finds which targets are reachable and how they depend.
func (c *catalogue) linkTargets() {
	n := len(c.pipes)
	c.targets, c.roots = nil, nil
	c.reachable = make([]bool, n)
	c.parent = make([]int, n)
	c.children = make([][]int, n)
	c.byLow = make([][]int, n)
	for i := range c.columns {
		c.byLow[c.columns[i].low] = append(c.byLow[c.columns[i].low], i)
	}
	for c.markReachable() {
	}
	for _, p := range c.g.Order {
		c.parent[p] = -1
		if next := c.g.Next[p]; next >= 0 {
			if c.reachable[next] {
				c.parent[p] = next
			} else {
				c.parent[p] = c.parent[next]
			}
		}
		if !c.reachable[p] {
			continue
		}
		c.targets = append(c.targets, p)
		if q := c.parent[p]; q >= 0 {
			c.children[q] = append(c.children[q], p)
		} else {
			c.roots = append(c.roots, p)
		}
	}
}

// markReachable marks the targets that a usable column cleans, and takes out
// of use the columns whose path crosses a target that none does: a run cleans
// all that it passes. It reports whether it took any out.
func (c *catalogue) markReachable() bool {
	clear(c.reachable)
	for i := range c.columns {
		if c.columns[i].spots == 0 {
			continue
		}
		for j := i; j >= 0; j = c.columns[j].prev {
			if p := c.columns[j].last; c.dropped == nil || !c.dropped[p] {
				c.reachable[p] = true
			}
		}
	}
	return c.cutAt(func(p int) bool {
		return c.pipes[p].target && !c.reachable[p] && (c.given == nil || !c.given[p])
	})
}

// cutAt takes out of use the columns whose path crosses a dirty pipe, and
// reports whether there was any.
func (c *catalogue) cutAt(dirty func(pipe int) bool) bool {
	cut := make([]bool, len(c.places)) // crosses such a pipe, up to here
	for i := range c.places {
		p := &c.places[i]
		cut[i] = dirty(p.pipe) || p.prev >= 0 && cut[p.prev]
	}
	again := false
	for i := range c.columns {
		if col := &c.columns[i]; col.spots != 0 && cut[col.end] {
			col.spots, again = 0, true
		}
	}
	return again
}

// chain lists the targets that a column cleans, lowest first.
func (c *catalogue) chain(i int) []int {
	var out []int
	for j := i; j >= 0; j = c.columns[j].prev {
		out = append(out, c.columns[j].last)
	}
	if !c.places[c.columns[i].end].down {
		slices.Reverse(out)
	}
	return out
}

// drop gives targets up. It takes an odd site: a longer run can be allowed
// where a shorter one is not (through fragile pipe it draws less water), so
// that two targets are each reachable, but not both.
func (c *catalogue) drop(targets []int) {
	if c.dropped == nil {
		c.dropped = make([]bool, len(c.pipes))
	}
	for _, p := range targets {
		c.dropped[p] = true
	}
	c.linkTargets()
}
