package route

import "linemap/internal/unit"

// place is one pipe on one allowed path: the way there, and the place before.
// Upstream paths from one access share their lower places.
type place struct {
	way
	prev   int // index of the place before, -1 for the first
	travel ticks
	set    uint64 // of the access's near spots, those whose reel holds it
}

// column is one candidate run: a path and the targets on it that the run
// cleans. Costs are the run's own: its start, its passes and nozzle changes.
type column struct {
	end int // place at the far end
	// low is the lowest target it cleans. prev is the column with one target
	// less: the top one for an upstream run, the lowest for a downstream run;
	// last is the target that prev lacks. prev is -1 for a single target.
	low, prev, last int
	cost            ticks
	water           unit.Volume // that its passes draw
	spots           uint64      // of the access's near spots, those it can be made from; 0 for none
	passes          [passCount]passState
}

// passState gathers what one pass of a column is asked to do.
type passState struct {
	deposits uint64 // of the pipes that ask for it; 0 where none does
	end      int    // place where it turns
	extra    ticks  // over travelling out and back
}

// catalogue is every candidate run of a site.
type catalogue struct {
	*model
	// given are targets that something else cleans; nil for none.
	given []bool
	// dropped are targets given up because no plan cleans them beside others;
	// nil for none.
	dropped []bool
	// kept are the last pipes of the runs kept by hand; nil for none.
	kept []bool

	places  []place
	columns []column
	// parent[p] is the nearest reachable target below target p, -1 for none;
	// children its inverse; targets the reachable targets, lower ones first.
	reachable []bool
	parent    []int
	children  [][]int
	roots     []int
	targets   []int
	// byLow[p] are the usable and unusable columns whose lowest target is p,
	// each after its prev where that has the same low.
	byLow [][]int
	// gapBelow marks the pipes below which a pipe of the job is never cleaned;
	// see findGaps.
	gapBelow []bool
}

// newCatalogue walks every path of every hose from every access.
func newCatalogue(m *model) *catalogue {
	c := &catalogue{model: m}
	c.walk()
	c.sortColumns()
	c.linkTargets()
	return c
}

// sortColumns puts the columns with one lowest target side by side, the higher
// targets first, as all that solves over them goes through them: so much of a
// large site's memory is best read in a row.
func (c *catalogue) sortColumns() {
	place := make([]int, len(c.pipes)) // from the highest pipe down
	for i, p := range c.g.Order {
		place[p] = len(c.g.Order) - 1 - i
	}
	first := make([]int, len(c.pipes)+1)
	for i := range c.columns {
		first[place[c.columns[i].low]+1]++
	}
	for i := range c.pipes {
		first[i+1] += first[i]
	}
	number := make([]int, len(c.columns))
	for i := range c.columns {
		at := &first[place[c.columns[i].low]]
		number[i] = *at
		*at++
	}
	sorted := make([]column, len(c.columns))
	for i, col := range c.columns {
		if col.prev >= 0 {
			col.prev = number[col.prev]
		}
		sorted[number[i]] = col
	}
	c.columns = sorted
}

func (c *catalogue) walk() {
	for a := range c.access {
		c.walkFrom(a)
	}
}

// walkFrom walks every path of every hose from one access.
func (c *catalogue) walkFrom(access int) {
	node, trial := c.access[access].node, c.access[access].trial
	for h := range c.site.Rig.Hoses {
		for _, p := range c.g.Above[node] {
			if !c.ring(p) && (!trial || p == c.access[access].trialPipe) {
				c.upstream(access, h, p)
			}
		}
		for _, p := range c.g.Below[node] {
			if !c.ring(p) && !trial {
				c.downstream(access, h, p)
			}
		}
	}
}

// addPlace records an allowed place; ok is false where a rule is broken.
func (c *catalogue) addPlace(w way, broken []breach, prev int) (int, bool) {
	if len(broken) > 0 {
		return 0, false
	}
	set := c.spotsFor(w)
	if set == 0 {
		return 0, false
	}
	travel := c.pipes[w.pipe].travel
	if prev >= 0 {
		travel += c.places[prev].travel
	}
	c.places = append(c.places, place{way: w, prev: prev, travel: travel, set: set})
	return len(c.places) - 1, true
}

// upstream walks all paths against the flow that start in one pipe.
func (c *catalogue) upstream(access, hose, pipe int) {
	type todo struct {
		place int
		cols  []int // columns that end at the last target so far
	}
	w, broken := c.enter(access, hose, pipe)
	first, ok := c.addPlace(w, broken, -1)
	if !ok {
		return
	}
	stack := []todo{{place: first, cols: c.extendUp(first, nil)}}
	for len(stack) > 0 {
		t := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		for _, q := range c.above[c.places[t.place].pipe] {
			w, broken := c.step(c.places[t.place].way, q)
			if next, ok := c.addPlace(w, broken, t.place); ok {
				stack = append(stack, todo{place: next, cols: c.extendUp(next, t.cols)})
			}
		}
	}
}

// extendUp adds the columns that end at a place: each column of the target
// before it, one target longer, and a new one that starts here.
func (c *catalogue) extendUp(at int, cols []int) []int {
	p := c.places[at].pipe
	if !c.pipes[p].target {
		return cols
	}
	out := make([]int, 0, len(cols)+1)
	for _, prev := range cols {
		col := c.columns[prev]
		col.prev, col.last, col.end = prev, p, at
		c.ask(&col, at, false)
		out = append(out, c.finish(col))
	}
	col := column{end: at, low: p, prev: -1, last: p}
	c.ask(&col, at, false)
	return append(out, c.finish(col))
}

// downstream walks the one path with the flow that starts in a pipe.
func (c *catalogue) downstream(access, hose, pipe int) {
	w, broken := c.enter(access, hose, pipe)
	prevPlace, prevCol := -1, -1
	for seen := 0; seen <= len(c.pipes); seen++ {
		at, ok := c.addPlace(w, broken, prevPlace)
		if !ok {
			return
		}
		if p := c.places[at].pipe; c.pipes[p].target {
			col := column{end: at, low: p, prev: -1, last: p}
			if prevCol >= 0 {
				col.passes, col.prev = c.columns[prevCol].passes, prevCol
			}
			c.ask(&col, at, true)
			prevCol = c.finish(col)
		}
		prevPlace = at
		next := c.g.Next[c.places[at].pipe]
		if next < 0 || c.ring(next) {
			return
		}
		w, broken = c.step(c.places[at].way, next)
	}
}

// finish prices a column, finds the spots it can be made from and adds it.
func (c *catalogue) finish(col column) int {
	col.cost, col.spots = 0, 0
	passes, ok := c.passesOf(&col)
	if ok {
		end := &c.places[col.end]
		col.cost, col.water, col.spots = c.runCost(passes), c.waterOf(passes), end.set
		for i, n := range c.access[end.access].near {
			if col.spots&(1<<i) != 0 && !c.tankHolds(passes, n.spot) {
				col.spots &^= 1 << i
			}
		}
	}
	c.columns = append(c.columns, col)
	return len(c.columns) - 1
}
