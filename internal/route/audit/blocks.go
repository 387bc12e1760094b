package audit

import "fmt"

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
