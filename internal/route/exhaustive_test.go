package route

import (
	"container/heap"
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"linemap/internal/route/sample"
	"linemap/internal/site"

	"github.com/stretchr/testify/require"
)

// The oracle knows nothing of columns, blocks in sequence or dynamic programs.
// It searches every state (what is clean, where the crew stands with which
// hose, which accesses are open) by uniform cost, so it is right and slow.

type oracleState struct {
	clean, open uint64
	key         int // spot*hoses + hose, -1 before the day
	kept        int // bit by bit, the runs kept by hand that are made
}

// oracleHand is what was decided by hand, as the oracle sees it.
type oracleHand struct{ keep, bar []site.RunKey }

func (h *oracleHand) all() int { return 1<<len(h.keep) - 1 }

// makes notes a run; ok is false where it is barred.
func (h *oracleHand) makes(key site.RunKey, kept int) (now int, ok bool) {
	if i := slices.Index(h.keep, key); i >= 0 {
		kept |= 1 << i
	}
	return kept, !slices.Contains(h.bar, key)
}

type oracleItem struct {
	state oracleState
	cost  ticks
}

type oracleQueue []oracleItem

func (q oracleQueue) Len() int           { return len(q) }
func (q oracleQueue) Less(i, j int) bool { return q[i].cost < q[j].cost }
func (q oracleQueue) Swap(i, j int)      { q[i], q[j] = q[j], q[i] }
func (q *oracleQueue) Push(x any)        { *q = append(*q, x.(oracleItem)) }
func (q *oracleQueue) Pop() any {
	old := *q
	it := old[len(old)-1]
	*q = old[:len(old)-1]
	return it
}

// oracle returns the least dry cost of cleaning everything reachable.
func oracle(c *catalogue) ticks {
	var goal uint64
	for p := range c.pipes {
		if c.reachable[p] {
			goal |= 1 << p
		}
	}
	return oracleByHand(c, goal, &oracleHand{})
}

// oracleByHand returns the least dry cost of cleaning a goal with every run
// that is kept and none that is barred.
func oracleByHand(c *catalogue, goal uint64, h *oracleHand) ticks {
	if goal == 0 && h.all() == 0 {
		return 0
	}
	hoses := len(c.site.Rig.Hoses)
	queue := &oracleQueue{{state: oracleState{key: -1}}}
	done := map[oracleState]bool{}
	for queue.Len() > 0 {
		it := heap.Pop(queue).(oracleItem)
		if done[it.state] {
			continue
		}
		done[it.state] = true
		if it.state.clean&goal == goal && it.state.kept == h.all() {
			return it.cost
		}
		push := func(s oracleState, cost ticks) {
			if !done[s] {
				heap.Push(queue, oracleItem{s, it.cost + cost})
			}
		}
		for key := range len(c.spots) * hoses {
			if key == it.state.key {
				continue
			}
			next := blockKey{key / hoses, key % hoses}
			cost := c.dayCost([]blockKey{next})
			if it.state.key >= 0 {
				from := blockKey{it.state.key / hoses, it.state.key % hoses}
				cost = c.dayCost([]blockKey{from, next}) - c.dayCost([]blockKey{from})
			}
			push(oracleState{clean: it.state.clean, key: key, kept: it.state.kept}, cost)
		}
		if it.state.key < 0 {
			continue
		}
		for i := range c.places {
			if clean, cost, ok := c.oracleRun(it.state, i, hoses); ok {
				pl := &c.places[i]
				kept, may := h.makes(site.RunKey{
					Spot: c.spots[it.state.key/hoses].spot.ID, Hose: c.site.Rig.Hoses[pl.hose].ID, Downstream: pl.down,
					Access: c.site.Network.Nodes[c.access[pl.access].node].ID, End: c.site.Network.Pipes[pl.pipe].ID,
				}, it.state.kept)
				if may {
					open := it.state.open | 1<<pl.access
					push(oracleState{clean: clean, open: open, key: it.state.key, kept: kept}, cost)
				}
			}
		}
	}
	return unreachable
}

// oracleRun makes the run to a place from a state.
func (c *catalogue) oracleRun(s oracleState, at, hoses int) (clean uint64, cost ticks, ok bool) {
	clean, passes, ok := c.oraclePasses(s, at, hoses)
	if !ok {
		return 0, 0, false
	}
	cost = c.runCost(passes)
	if pl := &c.places[at]; s.open&(1<<pl.access) == 0 {
		cost += c.openCost(pl.access, s.key/hoses)
	}
	return clean, cost, true
}

// oraclePasses are the passes of the run to a place from a state, and what is
// clean after it.
func (c *catalogue) oraclePasses(s oracleState, at, hoses int) (clean uint64, passes []plannedPass, ok bool) {
	pl := &c.places[at]
	spot := s.key / hoses
	if s.key%hoses != pl.hose || pl.set&c.bit(pl.access, spot) == 0 {
		return 0, nil, false
	}
	path := c.pathOf(at)
	var dirty []int
	dir := 0
	for _, i := range path {
		if p := c.places[i].pipe; c.pipes[p].target && s.clean&(1<<p) == 0 {
			dirty = append(dirty, i)
		}
	}
	if pl.down {
		dir = 1
		for _, i := range path {
			if p := c.places[i].pipe; s.clean&(1<<p) != 0 {
				return 0, nil, false
			}
		}
		if !c.pipes[pl.pipe].target {
			return 0, nil, false
		}
	}
	if len(dirty) == 0 || dirty[len(dirty)-1] != at {
		return 0, nil, false
	}
	clean = s.clean
	lowest := c.places[dirty[0]].pipe
	if pl.down {
		lowest = c.places[dirty[len(dirty)-1]].pipe
	}
	for q := c.g.Next[lowest]; q >= 0; q = c.g.Next[q] {
		if c.reachable[q] {
			if s.clean&(1<<q) == 0 {
				return 0, nil, false
			}
			break
		}
	}
	col := column{end: at}
	for k := range passCount {
		last := -1
		var extra ticks
		for n, i := range path {
			p := c.places[i].pipe
			for _, d := range dirty {
				if d == i && c.pipes[p].needs[k] {
					last = n
					extra += c.pipes[p].work[k][dir] - c.pipes[p].travel
					col.passes[k].deposits |= 1 << c.pipes[p].deposit
				}
			}
		}
		if last < 0 {
			continue
		}
		col.passes[k].end, col.passes[k].extra = path[last], extra
	}
	passes, ok = c.passesOf(&col)
	if !ok || !c.tankHolds(passes, spot) {
		return 0, nil, false
	}
	for _, i := range dirty {
		p := c.places[i].pipe
		if !c.reachable[p] {
			return 0, nil, false
		}
		clean |= 1 << p
	}
	return clean, passes, true
}

// The planner finds the optimum of its dry model on every small network, and
// proves it.
func TestExhaustive(t *testing.T) {
	tab := sample.Tables()
	rounds := 6000
	if testing.Short() {
		rounds = 300
	}
	solved, multi := 0, 0
	for seed := range rounds {
		r := rand.New(rand.NewPCG(uint64(seed), 7))
		s := sample.Random(r, 1+r.IntN(6))
		m, err := newModel(s, tab)
		require.NoError(t, err)
		c := newCatalogue(m)
		if len(c.targets) == 0 {
			continue
		}
		se := newSearch(context.Background(), c, nil)
		se.construct()
		proven := se.run()
		want := oracle(c)
		require.Equal(t, want, se.best.cost, "seed %d", seed)
		require.True(t, proven, "seed %d", seed)
		require.Equal(t, want, se.bound, "seed %d", seed)
		solved++
		if len(se.best.seq) > 1 {
			multi++
		}
	}
	t.Logf("%d networks, %d with more than one block", solved, multi)
	require.Greater(t, solved, rounds/3)
	require.Greater(t, multi, rounds/50)
}

// boundRounds is the number of steps of the subgradient method in tests of its
// bound.
const boundRounds = 120

// The bounds never pass the optimum.
func TestBoundHolds(t *testing.T) {
	tab := sample.Tables()
	for seed := range 500 {
		r := rand.New(rand.NewPCG(uint64(seed), 11))
		m, err := newModel(sample.Random(r, 1+r.IntN(6)), tab)
		require.NoError(t, err)
		c := newCatalogue(m)
		if len(c.targets) == 0 {
			continue
		}
		best := oracle(c)
		day := newRelaxation(c, true).bound(context.Background(), best, boundRounds)
		require.LessOrEqual(t, day, best, "seed %d", seed)
	}
}
