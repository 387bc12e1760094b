package audit

// readings checks the hose counter along a run.
func (c *checker) readings(r *run) {
	lay := c.site.LayLength(r.spot, &c.net.Nodes[r.access])
	entry := lay + c.riser(r.access)
	c.sameLength(RuleReadings, r.name, "lay", r.Lay, lay)
	c.sameLength(RuleReadings, r.name, "entry", r.Entry, entry)
	for i, h := range r.hops {
		place := r.name + ", " + c.pipeName(h.pipe)
		c.sameLength(RuleReadings, place, "reading at its near end", r.Path[i].From, entry+h.near)
		c.sameLength(RuleReadings, place, "reading at its far end", r.Path[i].To, entry+h.far)
	}
	c.sameLength(RuleReadings, r.name, "end", r.End, entry+r.length())
}

// entry is the reading at which the nozzle stands in the first pipe, by the
// rules.
func (c *checker) entry(r *run) float64 {
	return float64(c.site.LayLength(r.spot, &c.net.Nodes[r.access]) + c.riser(r.access))
}
