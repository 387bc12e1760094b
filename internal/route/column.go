package route

import (
	"slices"

	"linemap/internal/site"
	"linemap/internal/unit"
)

func passName(k int) site.PassKind { return site.PassOrder()[k] }

// place is one pipe on one allowed path: the way there, and the place before.
// Upstream paths from one access share their lower places.
type place struct {
	way
	prev   int // index of the place before, -1 for the first
	travel ticks
	set    uint64 // spots whose reel holds it
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
	spots           uint64 // spots it can be made from; 0 for none
	passes          [passCount]passState
}

// passState gathers what one pass of a column is asked to do.
type passState struct {
	deposits uint64 // of the pipes that ask for it; 0 where none does
	end      int    // place where it turns
	extra    ticks  // over travelling out and back
}

// plannedPass is a pass with its nozzle and time.
type plannedPass struct {
	kind, nozzle, end int
	time              ticks
}

// catalogue is every candidate run of a site.
type catalogue struct {
	*model
	// given are targets that something else cleans; nil for none.
	given []bool
	// dropped are targets given up because no plan cleans them beside others;
	// nil for none.
	dropped []bool

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
}

// newCatalogue walks every path of every hose from every access.
func newCatalogue(m *model) *catalogue {
	c := &catalogue{model: m}
	for a := range m.access {
		c.walkFrom(a)
	}
	c.linkTargets()
	return c
}

// walkFrom walks every path of every hose from one access.
func (c *catalogue) walkFrom(access int) {
	if len(c.spots) == 0 {
		return
	}
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

// ask adds the passes that the pipe at a place asks for to a column.
func (c *catalogue) ask(col *column, at int, down bool) {
	p := &c.pipes[c.places[at].pipe]
	dir := 0
	if down {
		dir = 1
	}
	for k := range passCount {
		if p.needs[k] {
			s := &col.passes[k]
			s.deposits |= 1 << p.deposit
			s.end = at
			s.extra += p.work[k][dir] - p.travel
		}
	}
}

// finish prices a column, finds the spots it can be made from and adds it.
func (c *catalogue) finish(col column) int {
	col.cost, col.spots = 0, 0
	passes, ok := c.passesOf(&col)
	if ok {
		col.cost, col.spots = c.runCost(passes), c.places[col.end].set
		for i := range c.spots {
			if col.spots&(1<<i) != 0 && !c.tankHolds(passes, i) {
				col.spots &^= 1 << i
			}
		}
	}
	c.columns = append(c.columns, col)
	return len(c.columns) - 1
}

// passesOf lists the passes of a column in order; false where one of them has
// no nozzle for all that it is asked to do.
func (c *catalogue) passesOf(col *column) ([]plannedPass, bool) {
	out := make([]plannedPass, 0, passCount)
	for k := range passCount {
		s := &col.passes[k]
		if s.deposits == 0 {
			continue
		}
		end := &c.places[s.end]
		p := plannedPass{kind: k, end: s.end, time: end.travel + s.extra}
		inflow := c.bestInflow(c.places[col.end].set)
		p.nozzle = c.choose(k, s.deposits, end.way, func(n int) bool {
			p.nozzle = n
			_, fits := c.site.Rig.Tank.Need(c.draw(p), inflow, p.time.duration())
			return fits
		})
		if p.nozzle < 0 {
			return nil, false
		}
		out = append(out, p)
	}
	return out, true
}

// bestInflow is the most water that any of a set of spots has.
func (c *catalogue) bestInflow(spots uint64) (best unit.Flow) {
	for i := range c.spots {
		if spots&(1<<i) != 0 {
			best = max(best, c.spots[i].inflow)
		}
	}
	return best
}

func (c *catalogue) runCost(passes []plannedPass) ticks {
	crew := &c.site.Rig.Crew
	cost := toTicks(minutes(crew.RunStart))
	for i, p := range passes {
		cost += p.time
		if i > 0 && passes[i-1].nozzle != p.nozzle {
			cost += toTicks(minutes(crew.NozzleChange))
		}
	}
	return cost
}

// tankHolds tells whether each pass can be made from one tank at a spot.
func (c *catalogue) tankHolds(passes []plannedPass, spot int) bool {
	for _, p := range passes {
		if _, ok := c.site.Rig.Tank.Need(c.draw(p), c.spots[spot].inflow, p.time.duration()); !ok {
			return false
		}
	}
	return true
}

// draw is the flow of a pass.
func (c *catalogue) draw(p plannedPass) unit.Flow {
	w := &c.places[p.end]
	return c.ops.at(w.hose, p.nozzle, w.ceiling).Flow
}

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
	cut := make([]bool, len(c.places)) // crosses such a target, up to here
	for i := range c.places {
		p := &c.places[i]
		dirty := c.pipes[p.pipe].target && !c.reachable[p.pipe] && (c.given == nil || !c.given[p.pipe])
		cut[i] = dirty || p.prev >= 0 && cut[p.prev]
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
