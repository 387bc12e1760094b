package audit

// path checks that a run can go where it says: it starts at its access, keeps
// to the way of the flow in one direction, and breaks no rule of the hose.
func (c *checker) path(r *run) {
	if start := c.begin(r.pipes[0], r.down); start != r.access {
		c.add(RulePath, r.name, "%s does not start at %s going %s",
			c.pipeName(r.pipes[0]), c.nodeName(r.access), r.Direction)
	}
	for i := 1; i < len(r.pipes); i++ {
		near, far := r.pipes[i-1], r.pipes[i]
		upper, lower := far, near
		if r.down {
			upper, lower = near, far
		}
		if c.graph.Next[upper] != lower || c.end(near, r.down) != c.begin(far, r.down) {
			c.add(RulePath, r.name, "%s does not follow %s going %s",
				c.pipeName(far), c.pipeName(near), r.Direction)
		}
	}
	for _, b := range c.breaches(&r.track, r.hose, lenient) {
		c.add(b.rule, r.name, "%s", b.what)
	}
	if over := c.overReel(&r.track, len(r.hops), r.spot, r.hose); !(float64(over) <= lenient.length) {
		c.add(RuleReel, r.name, "the hose is too short by %s", metres(over))
	}
	if spent := r.bends(len(r.hops)); !near(r.Bends, spent, hair) {
		c.differ(RuleBends, r.name, "bends spent, in quarter bends", r.Bends, spent)
	}
}
