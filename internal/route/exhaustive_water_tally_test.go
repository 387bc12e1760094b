package route

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"linemap/internal/route/sample"
	"linemap/internal/site"

	"github.com/stretchr/testify/require"
)

// waterTally counts what came of plans beside the best ones; wet are those that
// take longer than the least in the dry.
type waterTally struct {
	plans, wet, waits, fetches, drains, towed   int
	best, wetBest, proven, wetProven, wetBounds int
	left, needless                              int // that leave pipe for want of water, and need not
	over, worst                                 ticks
	worstShare, gap                             float64
	changes                                     [len(waterChanges)]waterChange
}

// compare plans a site and holds the plan against the oracle's.
func (n *waterTally) compare(t *testing.T, seed int, s *site.Site) {
	tab := sample.Tables()
	plan, err := Solve(context.Background(), s, tab, Options{})
	require.NoError(t, err)
	m, err := newModel(s, tab)
	require.NoError(t, err)
	o := newWetOracle(newCatalogue(m))
	dry := o.left(o.begin())
	if len(o.targets) == 0 || dry >= unreachable { // not all of it in one plan
		return
	}
	if o.leaves(plan) {
		n.left++
		if _, ok := o.optimum(unreachable); ok {
			n.needless++
		}
		return
	}
	cost := toTicks(plan.Cost)
	best, ok := o.optimum(cost)
	require.True(t, ok, "seed %d: the oracle finds no plan of %v", seed, plan.Cost)
	require.LessOrEqual(t, toTicks(plan.Bound), best, "seed %d", seed)
	if plan.Proven {
		require.Equal(t, best, cost, "seed %d", seed)
	}
	n.add(plan, dry, best)
	if best < cost {
		n.explain(t, seed, o, plan, best)
	}
}

// leaves tells whether a plan leaves any target that is reachable.
func (o *wetOracle) leaves(p *Plan) bool {
	left := o.goal
	for _, r := range o.runsOf(p) {
		left &^= r.made
	}
	return left != 0
}

func (n *waterTally) add(plan *Plan, dry, best ticks) {
	count := func(n *int, is bool) {
		if is {
			*n++
		}
	}
	has := func(is func(Event) bool) bool { return slices.ContainsFunc(plan.Day, is) }
	cost, bound := toTicks(plan.Cost), toTicks(plan.Bound)
	wet := cost > dry
	n.plans++
	count(&n.wet, wet)
	count(&n.waits, has(func(e Event) bool { return e.Kind == EventWait }))
	count(&n.fetches, has(func(e Event) bool { return e.Kind == EventFill && e.Run >= 0 }))
	count(&n.drains, has(func(e Event) bool { return e.Kind == EventDrain }))
	count(&n.towed, wet && has(func(e Event) bool { return e.Kind == EventMove }))
	count(&n.best, cost == best)
	count(&n.wetBest, wet && cost == best)
	count(&n.proven, plan.Proven)
	count(&n.wetProven, wet && plan.Proven)
	count(&n.wetBounds, wet && bound == best)
	n.over += cost - best
	n.worst = max(n.worst, cost-best)
	n.worstShare = max(n.worstShare, float64(cost-best)/float64(best))
	n.gap += float64(best-bound) / float64(best)
}

// waterChanges are what it may take to make the planner's plan the best, least
// first.
var waterChanges = [...]struct {
	what  string
	ruled bool
	like  *likeness
}{
	{"how full the tank is left", false, &likeness{}},
	{"the order in a block", true, &likeness{shuffled: true}},
	{"both of these", false, &likeness{shuffled: true}},
	{"the order of blocks", false, &likeness{shuffled: true, mixed: true}},
	{"which runs share a block", false, &likeness{shuffled: true, mixed: true, anyhow: true}},
	{"the spots of runs", false, &likeness{shuffled: true, mixed: true, anyhow: true, anywhere: true}},
	{"the runs", false, nil},
}

// waterChange counts the plans that need no more than this to be the best.
type waterChange struct {
	plans int
	over  ticks
	seeds []int
}

// explain finds what it takes to make a plan the best.
func (n *waterTally) explain(t *testing.T, seed int, o *wetOracle, plan *Plan, best ticks) {
	cost, runs := toTicks(plan.Cost), o.runsOf(plan)
	same := func(ruled bool, like *likeness, known ticks) ticks {
		if o.ruled, o.like = ruled, like; like != nil {
			like.runs = runs
		}
		got, _ := o.optimum(known)
		return got
	}
	require.Equal(t, cost, same(true, &likeness{}, cost), "seed %d: the oracle cannot make the plan", seed)
	for i, c := range waterChanges {
		if same(c.ruled, c.like, best) == best {
			n.changes[i].plans++
			n.changes[i].over += cost - best
			n.changes[i].seeds = append(n.changes[i].seeds, seed)
			return
		}
	}
}

func (n *waterTally) log(t *testing.T) {
	t.Logf("%d plans, %d of them wet: %d wait, %d fetch, %d drain, %d tow", n.plans, n.wet, n.waits, n.fetches, n.drains, n.towed)
	t.Logf("%d are the best (%d wet ones), %d proven (%d), %d wet bounds are tight; on average %.2f%% below the best",
		n.best, n.wetBest, n.proven, n.wetProven, n.wetBounds, 100*n.gap/float64(n.plans))
	t.Logf("the others are %.2f min over on average, at worst %.2f min, at worst %.0f%%",
		n.over.duration().Minutes()/float64(max(1, n.plans-n.best)), n.worst.duration().Minutes(), 100*n.worstShare)
	t.Logf("%d leave pipe for want of water, %d of them need not", n.left, n.needless)
	table := rows{}
	for i, c := range n.changes {
		table.add(waterChanges[i].what, c.plans, fmt.Sprintf("%.1f", c.over.duration().Minutes()), c.seeds[:min(len(c.seeds), 5)])
	}
	t.Log(table.under("to be the best, change", "plans", "min over", "seeds"))
}
