package route

import (
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// joint is the whole dry model with at most a number of blocks: which blocks, in
// which order, with which runs. What it costs leaves out the day's two ends,
// which every plan pays.
type joint struct {
	*linear
	c    *catalogue
	keys []blockKey
	// block[t][b] is whether block t is key b.
	block [][]string
}

// jointModel writes the model down. Beside the variables of [coverModel], by block
// and key, w tells which key a block is, r which key follows which, and e that
// the day ends with a block.
func jointModel(c *catalogue, keys []blockKey, most int) *linear {
	m := &joint{linear: &linear{}, c: c, keys: keys, block: make([][]string, most)}
	for t := range most {
		m.block[t] = make([]string, len(keys))
		for b := range keys {
			m.block[t][b] = m.binary(0, "w%d_%d", t, b)
		}
	}
	m.row(once(m.block[0]), "=", 1)
	for t := range most - 1 {
		m.follow(t)
	}
	by := make([][][]string, len(c.pipes))
	for _, p := range c.targets {
		by[p] = make([][]string, most)
	}
	all := c.candidates()
	for t := range most {
		for b := range keys {
			m.runs(all, t, b, by)
		}
	}
	m.once(c, by)
	m.lowestFirst(c, by)
	return m.linear
}

// follow says what may come after block t, and what the change costs.
func (m *joint) follow(t int) {
	into := make([][]string, len(m.keys))
	for b, from := range m.keys {
		leave := []string{m.real(0, "e%d_%d", t, b)}
		for d, to := range m.keys {
			if d != b {
				r := m.real(m.c.change(from, to), "r%d_%d_%d", t, b, d)
				leave, into[d] = append(leave, r), append(into[d], r)
			}
		}
		m.row(append(once(leave), term{-1, m.block[t][b]}), "=", 0)
	}
	for d := range m.keys {
		m.row(append(once(into[d]), term{-1, m.block[t+1][d]}), "=", 0)
	}
}

// runs adds the runs and openings of block t, where it is key b.
func (m *joint) runs(all []candidate, t, b int, by [][][]string) {
	key := m.keys[b]
	cleaning, opens := map[int][]string{}, group{}
	for i := range all {
		if r := &all[i]; r.in(key) {
			x := m.binary(r.cost, "x%d_%d_%d", i, t, b)
			for _, p := range r.cleans {
				by[p][t] = append(by[p][t], x)
				cleaning[p] = append(cleaning[p], x)
				opens[[2]int{r.access, p}] = append(opens[[2]int{r.access, p}], x)
			}
		}
	}
	for _, p := range m.c.targets {
		if len(cleaning[p]) > 0 {
			m.row(append(once(cleaning[p]), term{-1, m.block[t][b]}), "<=", 0)
		}
	}
	last, z := -1, ""
	opens.each(func(at [2]int, names []string) {
		if a := at[0]; a != last {
			z, last = m.binary(m.c.openCost(a, key.spot), "z%d_%d_%d", a, t, b), a
		}
		m.row(append(once(names), term{-1, z}), "<=", 0)
	})
}

// change is what it costs to go from one block to another.
func (c *catalogue) change(from, to blockKey) ticks {
	return c.dayCost([]blockKey{from, to}) - c.dayCost([]blockKey{from})
}

// leastChange is the cheapest change between two blocks.
func (c *catalogue) leastChange(keys []blockKey) ticks {
	least := unreachable
	for _, from := range keys {
		for _, to := range keys {
			if from != to {
				least = min(least, c.change(from, to))
			}
		}
	}
	return least
}

// looseModel is the cheapest cover in no order, each run from where it likes and
// each access opened once, at the least that it costs to open: no plan pays less
// for its runs and openings, however many blocks it has.
func looseModel(c *catalogue) *linear {
	l := &linear{}
	by, opens := make([][]string, len(c.pipes)), group{}
	all := c.candidates()
	for i := range all {
		r := &all[i]
		x := l.binary(r.cost, "x%d", i)
		for _, p := range r.cleans {
			by[p] = append(by[p], x)
			opens[[2]int{r.access, p}] = append(opens[[2]int{r.access, p}], x)
		}
	}
	for _, p := range c.targets {
		l.row(once(by[p]), "=", 1)
	}
	last, z := -1, ""
	opens.each(func(at [2]int, names []string) {
		if a := at[0]; a != last {
			least := unreachable
			for _, n := range c.access[a].near {
				least = min(least, n.open)
			}
			z, last = l.binary(least, "z%d", a), a
		}
		l.row(append(once(names), term{-1, z}), "<=", 0)
	})
	return l
}

// mostBlocks is how many blocks a plan can have that costs no more than the best
// found: beyond it the changes alone, on top of what [looseModel] says of the
// runs, cost more.
func mostBlocks(c *catalogue, se *search, loose float64) int {
	room := float64(se.best.cost-c.dayCost(se.keys[:1])) - max(0, loose)
	least := c.leastChange(se.keys)
	if least >= unreachable { // there is but one key
		return 1
	}
	return 1 + int(math.Floor(room/float64(least)))
}

// against solves the whole model of a site with cbc, and asserts that planner and
// program do not contradict each other.
//
// The model takes a number of blocks. Where that is all that [mostBlocks] allows,
// what is proved holds for every plan; else for the plans of no more blocks.
func against(tb testing.TB, of compared, limit time.Duration, table *rows) {
	tb.Helper()
	c, se, took := planned(tb, of.site)
	loose := cbc.solve(tb, looseModel(c), limit)
	all := mostBlocks(c, se, loose.bound)
	blocks := min(all, len(se.best.seq)+1)
	if of.pipes <= 20 {
		blocks = min(all, 8)
	}
	got := cbc.solve(tb, jointModel(c, se.keys, blocks), limit)

	ends := c.dayCost(se.keys[:1])
	ours, bound := float64(se.best.cost-ends), float64(se.bound-ends)
	table.add(of.name, len(c.targets), len(se.keys), len(se.best.seq), fmt.Sprintf("%d of %d", blocks, all), ours, bound, took, got)
	assert.LessOrEqual(tb, got.bound, ours+hair, "%s: the program proves that our plan is not possible", of.name)
	assert.GreaterOrEqual(tb, got.cost, bound-hair, "%s: the program has a plan below our bound", of.name)
	if bound >= ours {
		assert.GreaterOrEqual(tb, got.cost, ours-hair, "%s: the program has a better plan than the one we prove", of.name)
		if got.optimal {
			assert.InDelta(tb, ours, got.cost, hair, "%s: the optimum", of.name)
		}
	}
}

// hair is what programs round their costs by.
const hair = 0.01

// The whole model agrees with the planner: where a program solves it and the planner
// proves its plan, at the same cost; else with nothing proved or found that
// contradicts the planner.
func TestJointAgainstPrograms(t *testing.T) {
	need(t, cbc)
	var table rows
	for _, of := range samples {
		if of.pipes > 50 || testing.Short() && of.pipes > 20 {
			continue
		}
		against(t, of, 20*time.Second, &table)
	}
	t.Log(table.under(jointHeads...))
}

var jointHeads = []string{"site", "targets", "keys", "blocks", "allowed", "ours", "bound", "time", "cbc"}

// BenchmarkJoint does the same on sites that take a program minutes. Run it with
// -benchtime 1x; -v prints the table.
func BenchmarkJoint(b *testing.B) {
	need(b, cbc)
	for _, of := range largeSamples {
		if of.pipes > 100 {
			continue
		}
		b.Run(of.name, func(b *testing.B) {
			for b.Loop() {
				var table rows
				against(b, of, time.Minute, &table)
				b.Log(table.under(jointHeads...))
			}
		})
	}
}
