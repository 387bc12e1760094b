package route

import (
	"context"
	"fmt"
	"math"
	"slices"
	"testing"
	"time"

	"linemap/internal/rig"
	"linemap/internal/unit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// candidate is a run as the models see it: what it costs by itself, what it
// cleans, and where it can be made from.
type candidate struct {
	cost         ticks
	access, hose int
	spots        []int
	cleans       []int
}

// candidates lists the runs of a catalogue. [TestExhaustive] shows that they are
// the right ones.
func (c *catalogue) candidates() []candidate {
	var out []candidate
	for i := range c.columns {
		end := &c.places[c.columns[i].end]
		got := candidate{cost: c.columns[i].cost, access: end.access, hose: end.hose, cleans: c.chain(i)}
		if slices.ContainsFunc(got.cleans, func(p int) bool { return !c.reachable[p] }) {
			continue
		}
		for _, n := range c.access[end.access].near {
			if c.madeFrom(i, n.spot) {
				got.spots = append(got.spots, n.spot)
			}
		}
		if len(got.spots) > 0 {
			out = append(out, got)
		}
	}
	return out
}

// in tells whether a run can be made in a block.
func (r *candidate) in(b blockKey) bool { return r.hose == b.hose && slices.Contains(r.spots, b.spot) }

// group gathers variables by target and access.
type group map[[2]int][]string

// each goes through the groups in order.
func (g group) each(do func(key [2]int, names []string)) {
	keys := make([][2]int, 0, len(g))
	for k := range g {
		keys = append(keys, k)
	}
	slices.SortFunc(keys, func(a, b [2]int) int { return slices.Compare(a[:], b[:]) })
	for _, k := range keys {
		do(k, g[k])
	}
}

// coverModel is the cheapest cover in a fixed sequence of blocks, the day's own
// cost left out. With x the runs by block, z the openings and y[p,j] whether
// target p becomes clean in block j:
//
//	every target is cleaned once;
//	what is cleaned through an access in a block opens it there, once for all;
//	no target becomes clean in a block before that of the target below it.
func coverModel(c *catalogue, seq []blockKey) *linear {
	l := &linear{}
	by := make([][][]string, len(c.pipes)) // runs by target and block
	for _, p := range c.targets {
		by[p] = make([][]string, len(seq))
	}
	opens := make([]group, len(seq))
	all := c.candidates()
	for j, b := range seq {
		opens[j] = group{}
		for i := range all {
			if r := &all[i]; r.in(b) {
				x := l.binary(r.cost, "x%d_%d", i, j)
				for _, p := range r.cleans {
					by[p][j] = append(by[p][j], x)
					opens[j][[2]int{r.access, p}] = append(opens[j][[2]int{r.access, p}], x)
				}
			}
		}
	}
	for j, b := range seq {
		last := -1
		z := ""
		opens[j].each(func(key [2]int, names []string) {
			if a := key[0]; a != last {
				z, last = l.binary(c.openCost(a, b.spot), "z%d_%d", a, j), a
			}
			l.row(append(once(names), term{-1, z}), "<=", 0)
		})
	}
	l.once(c, by)
	l.lowestFirst(c, by)
	return l
}

// once has every target cleaned once.
func (l *linear) once(c *catalogue, by [][][]string) {
	for _, p := range c.targets {
		l.row(once(slices.Concat(by[p]...)), "=", 1)
	}
}

// lowestFirst keeps the order of the blocks in which targets become clean.
func (l *linear) lowestFirst(c *catalogue, by [][][]string) {
	for _, p := range c.targets {
		for j, names := range by[p] {
			y := l.real(0, "y%d_%d", p, j)
			l.row(append(once(names), term{-1, y}), "=", 0)
		}
	}
	for _, p := range c.targets {
		q := c.parent[p]
		if q < 0 {
			continue
		}
		var sum []term
		for j := range len(by[p]) - 1 {
			sum = append(sum, term{1, fmt.Sprintf("y%d_%d", p, j)}, term{-1, fmt.Sprintf("y%d_%d", q, j)})
			l.row(sum, "<=", 0)
		}
	}
}

// leastCover is the planner's own least cost of a cover in a sequence in which one
// is known, the day's own cost left out.
func (c *catalogue) leastCover(tb testing.TB, known solution) ticks {
	tb.Helper()
	// The day itself is to cost nothing, nor a block that is of no use.
	crew := &c.site.Rig.Crew
	cost := known.cost - c.dayCost(known.seq)
	defer func(was rig.Crew) { *crew = was }(*crew)
	crew.SetUp, crew.PackUp, crew.Move, crew.HoseChange, crew.TowSpeed = 0, 0, 0, 0, unit.Speed(math.Inf(1))
	require.Zero(tb, c.dayCost(known.seq))
	se := newSearch(context.Background(), c, nil)
	se.best.cost = cost + 1
	n := &node{pool: se.pool, share: make([]float64, se.shares), day: se.inSequence(known.seq)}
	se.evaluate(n, rootRounds)
	se.branch(n)
	require.Equal(tb, se.best.cost, se.bound)
	require.NotNil(tb, se.best.runs)
	return se.best.cost
}

// inSequence is the outline of some blocks one by one, where moves cost nothing.
func (s *search) inSequence(seq []blockKey) *outline {
	o := &outline{stays: []int{seq[0].spot}}
	for i, key := range seq {
		o.stints = append(o.stints, stint{key: s.keyIndex(key)})
		o.before = append(o.before, ^uint64(0)<<(i+1))
	}
	return o
}

// longSequence is every block of a site once and then the best sequence: plenty of
// choice, and of order to keep.
func longSequence(se *search) []blockKey {
	return slices.Compact(slices.Concat(se.keys, se.best.seq))
}

// In a fixed sequence of blocks two public programs find the same least cost as the
// planner does: in the one that it settles on and, on all but the largest sites, in a
// much longer one.
func TestCoverAgainstPrograms(t *testing.T) {
	need(t, cbc, glpsol)
	var table rows
	for _, of := range samples {
		if testing.Short() && of.pipes > 30 {
			continue
		}
		c, se, _ := planned(t, of.site)
		sequences := [][]blockKey{se.best.seq}
		if of.pipes <= 50 {
			sequences = append(sequences, longSequence(se))
		}
		for _, seq := range sequences {
			start := time.Now()
			want := c.leastCover(t, newCover(newProblem(c)).quick(seq))
			took := time.Since(start)
			l := coverModel(c, seq)
			answers := make([]answer, 2)
			for i, program := range []solver{cbc, glpsol} {
				answers[i] = program.solve(t, l, time.Minute)
				assert.True(t, answers[i].optimal, "%s: %s", of.name, program.name)
				assert.InDelta(t, float64(want), answers[i].cost, 0.01, "%s: %s", of.name, program.name)
			}
			table.add(of.name, len(c.targets), len(c.columns), len(seq), want, took, answers[0], answers[1])
		}
	}
	t.Log(table.under("site", "targets", "runs", "blocks", "cost", "ours", "cbc", "glpsol"))
}

// BenchmarkCover times one cover in the planner's own sequence, by the planner and
// by the programs.
func BenchmarkCover(b *testing.B) {
	need(b, cbc, glpsol)
	for _, of := range largeSamples {
		c, se, _ := planned(b, of.site)
		l := coverModel(c, se.best.seq)
		b.Run(of.name+"/ours", func(b *testing.B) {
			for b.Loop() {
				c.leastCover(b, se.best)
			}
		})
		for _, program := range []solver{cbc, glpsol} {
			b.Run(of.name+"/"+program.name, func(b *testing.B) {
				for b.Loop() {
					program.solve(b, l, time.Minute)
				}
			})
		}
	}
}
