package replay

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/route/sample"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// played plans a site and prepares the plan.
func played(t require.TestingT, s *site.Site) *Replay {
	tab := sample.Tables()
	p, err := route.Solve(context.Background(), s, tab, route.Options{})
	require.NoError(t, err)
	g, _ := network.Trace(&s.Network)
	return New(s, tab, g, p)
}

// demo opens a demo site.
func demo(t require.TestingT, name string) *site.Site {
	s, err := site.Open("../../../assets/demo/" + name + ".linemap")
	require.NoError(t, err)
	return s
}

// fastest is the fastest that a nozzle of a site ever goes. The planner's
// rounding lets a pass run a little faster than its pace: half a tick for a pipe.
func fastest(s *site.Site, tab *site.Tables) float64 {
	c := &s.Rig.Crew
	v := max(c.Forward, c.Back, c.Travel)
	for _, d := range tab.Deposits {
		for _, p := range d.Passes {
			v = max(v, p.Pull)
		}
	}
	return float64(v) * 1.05
}

const hair = 1e-6

// checkDay holds a played day to what the plan says of it.
func checkDay(t require.TestingT, r *Replay) {
	tab := sample.Tables()
	v := fastest(r.site, tab)
	var last Moment
	var lastAt time.Duration
	for i := range r.plan.Day {
		e := &r.plan.Day[i]
		const looks = 9
		for n := range looks {
			at := e.Start + time.Duration(n)*e.Takes/looks
			m := r.At(at)
			if e.Takes > 0 {
				require.Equal(t, i, m.Event)
				require.Equal(t, []any{e.Kind, e.Block, e.Run, e.Pass}, []any{m.Kind, m.Block, m.Run, m.Pass})
			}
			require.NotEmpty(t, m.Words)
			checkMoment(t, r, m)
			if last.Run == m.Run && len(last.Hose) > 0 && len(m.Hose) > 0 {
				moved := max(m.Reading-last.Reading, last.Reading-m.Reading)
				require.LessOrEqual(t, float64(moved), v*(at-lastAt).Seconds()+hair, "event %d of %d", n, i)
			}
			last, lastAt = m, at
		}
	}
}

// checkMoment holds one moment to its run and its tank.
func checkMoment(t require.TestingT, r *Replay, m Moment) {
	e := &r.plan.Day[m.Event]
	require.GreaterOrEqual(t, float64(m.Tank), float64(min(e.Before, e.After)))
	require.LessOrEqual(t, float64(m.Tank), float64(max(e.Before, e.After)))
	if m.Hose == nil {
		require.Zero(t, m.Reading)
		return
	}
	run := r.runs[m.Run].run
	require.GreaterOrEqual(t, float64(m.Reading), float64(run.Entry)-hair)
	require.LessOrEqual(t, float64(m.Reading), float64(run.End)+hair)
	require.LessOrEqual(t, m.Bends, run.Bends+hair)
	require.Equal(t, m.Hose[len(m.Hose)-1], m.At)
	leg := run.Path[slices.IndexFunc(run.Path, func(l route.Leg) bool { return l.Pipe == m.Pipe })]
	require.InDelta(t, float64(m.Reading-leg.From), float64(m.Along), hair)
	if m.Kind == route.EventJet {
		require.NotEmpty(t, m.Motion)
		require.Equal(t, run.Passes[m.Pass].Operating.Nozzle, m.Pressure)
		require.LessOrEqual(t, float64(m.Pull), float64(run.Passes[m.Pass].Peak)*1.0001)
		require.LessOrEqual(t, float64(m.Drag), float64(run.Passes[m.Pass].Thrust)*1.0001)
		return
	}
	require.Equal(t, run.Entry, m.Reading)
	require.Zero(t, m.Pressure)
}

// checkEnds holds the two ends of every event to the plan, and every pass to its
// far end.
func checkEnds(t require.TestingT, r *Replay) {
	for i := range r.plan.Day {
		e := &r.plan.Day[i]
		if e.Takes <= 0 {
			continue
		}
		begins, ends := r.At(e.Start), r.At(e.Start+e.Takes-time.Nanosecond)
		require.Equal(t, i, begins.Event)
		require.Equal(t, i, ends.Event)
		require.Equal(t, e.Before, begins.Tank)
		require.InDelta(t, float64(e.After), float64(ends.Tank), hair, "event %d", i)
		if e.Kind == route.EventJet {
			run := r.runs[e.Run].run
			require.Equal(t, run.Entry, begins.Reading)
			require.InDelta(t, float64(run.Entry), float64(ends.Reading), hair)
			checkPass(t, r, i)
		}
	}
	if n := len(r.plan.Day); n > 0 {
		require.Equal(t, r.plan.Cost, r.Ends())
		require.Equal(t, r.plan.Day[n-1].After, r.At(r.Ends()).Tank)
	}
}

// checkPass looks at a pass where it turns.
func checkPass(t require.TestingT, r *Replay, event int) {
	e, sc := &r.plan.Day[event], &r.events[event]
	run, pass := sc.way.run, sc.pass
	turns := slices.IndexFunc(sc.phase, func(p phase) bool { return p.to < p.from })
	require.Greater(t, turns, 0)
	// A nanosecond is more than the seconds of a float lose, and nothing to see.
	m := r.At(e.Start + time.Duration(sc.phase[turns].begins*1e9) + time.Nanosecond)
	require.InDelta(t, float64(pass.End), float64(m.Reading), hair)
	require.InEpsilon(t, float64(pass.Peak), float64(m.Pull), 0.001)
	if pass.End == run.End {
		require.InDelta(t, run.Bends, m.Bends, 1e-9)
	}
	drag := float64(sc.way.drag(pass.End, r.water))
	require.InDelta(t, float64(pass.Drag), drag, 1e-6*(1+drag))
	strokes := 0
	for _, p := range sc.phase {
		strokes += p.strokes
	}
	require.Equal(t, pass.Strokes, strokes)
}

// checkPace compares the phases of every pass, at the crew's own pace, with the
// time that the planner gives it: they differ by the rounding of a pipe alone.
func checkPace(t require.TestingT, r *Replay) {
	g, _ := network.Trace(&r.site.Network)
	l := newLines(r.site, sample.Tables(), g)
	for _, w := range r.runs {
		for i := range w.run.Passes {
			p := &w.run.Passes[i]
			b := l.write(w.run, p)
			most := float64(len(w.run.Path)) * (route.Tick.Seconds()/2 + hair)
			require.InDelta(t, p.Minutes.Seconds(), b.now, most, "run %d, %s", w.run.Number, p.Kind)
		}
	}
}

func checkAll(t require.TestingT, r *Replay) {
	checkDay(t, r)
	checkEnds(t, r)
	checkPace(t, r)
}

func TestRandomDays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rnd := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 11))
		s := sample.Random(rnd, rapid.IntRange(1, 9).Draw(t, "pipes"))
		for i := range s.Network.Pipes {
			p := &s.Network.Pipes[i]
			p.Severity = rapid.SampledFrom([]network.Severity{"", network.Light, network.Heavy}).Draw(t, "severity")
			p.Slope = rapid.SampledFrom([]*unit.Slope{nil, new(unit.Slope(0.02)), new(unit.Slope(0.4))}).Draw(t, "slope")
		}
		checkAll(t, played(t, s))
	})
}

func TestDemoDays(t *testing.T) {
	for _, name := range []string{"restaurant", "flats"} {
		t.Run(name, func(t *testing.T) { checkAll(t, played(t, demo(t, name))) })
	}
}

// A day of several spots.
func TestDayOnTheMove(t *testing.T) {
	r := played(t, sample.Large(1, 60, 3))
	require.Greater(t, len(r.plan.Blocks), 2)
	checkAll(t, r)
}

// A hose that lies in several levels is on that of the nearer end of a stack.
func TestLevels(t *testing.T) {
	r := played(t, demo(t, "flats"))
	seen := map[string]bool{}
	for at := time.Duration(0); at < r.Ends(); at += 20 * time.Second {
		m := r.At(at)
		if m.Hose == nil {
			continue
		}
		p := find(r.site.Network.Pipes, func(p *network.Pipe) bool { return p.ID == m.Pipe })
		ends := []string{}
		for _, id := range []network.NodeID{p.From, p.To} {
			ends = append(ends, find(r.site.Network.Nodes, func(n *network.Node) bool { return n.ID == id }).Level)
		}
		require.Contains(t, ends, m.Level)
		seen[m.Level] = true
	}
	require.Greater(t, len(seen), 1)
}

// What is not there is left out; nothing panics.
func TestForeignPlan(t *testing.T) {
	s := demo(t, "restaurant")
	r := played(t, s)
	empty := sample.Site(&network.Network{}, [2]float64{0, 0})
	g, _ := network.Trace(&empty.Network)
	other := New(empty, sample.Tables(), g, r.plan)
	for at := time.Duration(-time.Minute); at < other.Ends()+time.Minute; at += 17 * time.Second {
		m := other.At(at)
		require.Nil(t, m.Hose)
	}
	none := New(s, sample.Tables(), g, &route.Plan{})
	require.Zero(t, none.Ends())
	require.Equal(t, -1, none.At(time.Hour).Event)
}

func BenchmarkAt(b *testing.B) {
	for _, pipes := range []int{60, 200} {
		r := played(b, sample.Large(1, pipes, 3))
		b.Run(fmt.Sprintf("%d_events", len(r.plan.Day)), func(b *testing.B) {
			b.ReportAllocs()
			step := r.Ends() / 997
			for i := range b.N {
				r.At(step * time.Duration(i%997))
			}
		})
	}
}

func BenchmarkNew(b *testing.B) {
	s := sample.Large(1, 200, 3)
	r := played(b, s)
	g, _ := network.Trace(&s.Network)
	tab := sample.Tables()
	for b.Loop() {
		New(s, tab, g, r.plan)
	}
}
