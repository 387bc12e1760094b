package route

// heeding is the catalogue without the candidates that decisions made by hand
// rule out. A barred run loses its spot. A kept run is made if and only if its
// last pipe is cleaned by it, so every other candidate that cleans that pipe is
// ruled out; a plan that cleans everything then makes it, and bounds and proof
// hold as they are.
func (m *model) heeding(keep, bar []named) *catalogue {
	c := &catalogue{model: m}
	c.walk()
	barred := map[runID]uint64{}
	for i := range bar {
		barred[bar[i].runID] |= m.bit(bar[i].access, bar[i].spot)
	}
	for i := range c.columns {
		if not := barred[c.runAt(c.columns[i].end)]; not != 0 {
			c.columns[i].spots &^= not
		}
	}
	c.keepOnly(keep)
	c.linkTargets()
	return c
}

// keepOnly rules out what cleans the last pipe of a kept run and is another
// run.
func (c *catalogue) keepOnly(keep []named) {
	if len(keep) == 0 {
		return
	}
	c.kept = make([]bool, len(c.pipes))
	by := map[int]*named{}
	for i := range keep {
		c.kept[keep[i].end], by[keep[i].end] = true, &keep[i]
	}
	ends := make([]int, len(c.columns)) // how many such pipes a column cleans
	for i := range c.columns {
		col := &c.columns[i]
		if col.prev >= 0 {
			ends[i] = ends[col.prev]
		}
		if c.kept[col.last] {
			ends[i]++
		}
		if ends[i] == 0 {
			continue
		}
		if n := by[c.places[col.end].pipe]; ends[i] > 1 || n == nil || n.runID != c.runAt(col.end) {
			col.spots = 0
		} else {
			col.spots &= c.bit(n.access, n.spot)
		}
	}
}
