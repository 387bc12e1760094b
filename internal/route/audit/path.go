package audit

import (
	"fmt"

	"linemap/internal/route"
)

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

// blocks checks where the trailer stands, what it uses and how runs are
// numbered.
func (c *checker) blocks() {
	number := 0
	for b := range c.plan.Blocks {
		block := &c.plan.Blocks[b]
		if spot := c.spot(block.Spot); spot != nil && !usable(spot) {
			c.add(RuleBlocks, blockName(b), "spot %q cannot be used", block.Spot)
		}
		if len(block.Runs) == 0 {
			c.add(RuleBlocks, blockName(b), "the block has no run")
		}
		if b > 0 {
			before := &c.plan.Blocks[b-1]
			if before.Spot == block.Spot && before.Hose == block.Hose {
				c.add(RuleBlocks, blockName(b), "spot and hose are those of the block before")
			}
		}
		opened := map[string]bool{}
		for i := range block.Runs {
			r := &block.Runs[i]
			number++
			if r.Number != number {
				c.differ(RuleNumbers, blockName(b), "runs are numbered through from 1", r.Number, number)
			}
			if first := !opened[string(r.Access)]; r.Opens != first {
				c.differ(RuleNumbers, fmt.Sprintf("run %d", r.Number), "is the first of its block through its access", r.Opens, first)
			}
			opened[string(r.Access)] = true
		}
	}
}

// onlyIf checks that a run carries a flag if and only if it must.
func (c *checker) onlyIf(r *run, kind route.FlagKind, must bool) {
	has := false
	for _, f := range r.Flags {
		has = has || f.Kind == kind
	}
	if has != must {
		c.differ(RuleFlags, r.name, "flag "+string(kind), has, must)
	}
}
