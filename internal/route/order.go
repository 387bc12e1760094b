package route

// orderRuns puts a solution's runs in the order in which they are made: blocks
// in sequence, and in a block every run after the run that cleans the pipe
// below it. Among the runs that may come next it stays at the open access, and
// else takes the one nearest the outlet.
func (c *catalogue) orderRuns(s solution) [][]int {
	height := make([]int, len(c.pipes)) // place in c.targets: lower ones first
	for i, p := range c.targets {
		height[p] = i
	}
	cleanedBy := map[int]int{} // target to index in s.runs
	for i, r := range s.runs {
		for _, p := range c.chain(r.column) {
			cleanedBy[p] = i
		}
	}
	waits := func(i int, done []bool) bool {
		r := s.runs[i]
		below := c.parent[c.columns[r.column].low]
		if below < 0 {
			return false
		}
		before := cleanedBy[below]
		return s.runs[before].block == r.block && !done[before]
	}
	out := make([][]int, len(s.seq))
	done := make([]bool, len(s.runs))
	for j := range s.seq {
		open := -1
		for {
			best := -1
			for i, r := range s.runs {
				if r.block != j || done[i] || waits(i, done) {
					continue
				}
				if best < 0 || c.before(r.column, s.runs[best].column, open, height) {
					best = i
				}
			}
			if best < 0 {
				break
			}
			done[best] = true
			out[j] = append(out[j], s.runs[best].column)
			open = c.accessOf(s.runs[best].column)
		}
	}
	return out
}

func (c *catalogue) accessOf(column int) int { return c.places[c.columns[column].end].access }

// before tells whether column a is to be made before column b while an access
// is open.
func (c *catalogue) before(a, b, open int, height []int) bool {
	if here, there := c.accessOf(a) == open, c.accessOf(b) == open; here != there {
		return here
	}
	return height[c.columns[a].low] < height[c.columns[b].low]
}
