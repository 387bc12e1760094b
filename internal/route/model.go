package route

import (
	"fmt"
	"math"
	"slices"
	"time"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// ticks is a time in whole ticks, the planner's integer cost.
type ticks int64

func toTicks(d time.Duration) ticks     { return ticks(d.Round(Tick) / Tick) }
func (t ticks) duration() time.Duration { return time.Duration(t) * Tick }

func minutes(m float64) time.Duration { return time.Duration(m * float64(time.Minute)) }

// passCount is the number of kinds of pass; passes are indexed in the order in
// which a run makes them.
const passCount = 4

func passName(k int) site.PassKind { return site.PassOrder()[k] }

// model is a site laid out flat for the planner. It is read-only once built.
type model struct {
	site   *site.Site
	tables *site.Tables
	g      *network.Graph
	water  rig.Water
	pipes  []modelPipe
	access []modelAccess
	spots  []modelSpot
	// accessAt is, by node, the access in service there, -1 for none.
	accessAt []int
	// above[p] lists the pipes whose way goes through p next.
	above [][]int
	// deposits numbers the deposits so that a set of them is a bit mask.
	deposits []network.Deposit
	// serve[k][d][n] ranks nozzle n for pass k of deposit d, least first; -1
	// where it does not serve.
	serve [passCount][][]int
	ops   *operations
	// ground finds the spots near an access.
	ground *ground
}

// modelPipe is what the planner needs of a pipe, by its graph index.
type modelPipe struct {
	length   unit.Length
	corners  []network.Corner
	size     unit.Size
	ceiling  unit.Pressure // 0 for none
	friction rig.Range
	target   bool
	deposit  int
	needs    [passCount]bool
	// work is the time of a pass that works the pipe, out and back, upstream
	// and downstream; travel the time of one that only passes.
	work   [passCount][2]ticks
	travel ticks
}

type modelAccess struct {
	node  int
	riser unit.Length
	size  unit.Size
	// near are the spots that can serve it; see addNear.
	near []nearSpot
	// trial marks a cleanout that a shortfall's cure thinks of.
	trial     bool
	trialPipe int
	// above is how far above the lower end of its pipe a trial stands.
	above unit.Length
}

type modelSpot struct {
	spot   *site.Spot
	inflow unit.Flow
	// sources are where a trailer without inflow here fills soonest, whatever it
	// lacks.
	sources []source
}

// source is a water point as a spot sees it: the way there and back, and the flow.
type source struct {
	trip ticks
	flow unit.Flow
}

// What fits the planner's bit masks and bytes, far beyond any real rig.
const (
	maxNozzles = 64
	maxHoses   = 64
)

func newModel(s *site.Site, t *site.Tables) (*model, error) {
	m := &model{site: s, tables: t, water: rig.WaterAt(s.Rig.Water)}
	m.g, _ = network.Trace(&s.Network)
	if n := len(s.Rig.Nozzles); n > maxNozzles {
		return nil, fmt.Errorf("rig %q has %d nozzles; the planner takes %d", s.Rig.Name, n, maxNozzles)
	}
	if n := len(s.Rig.Hoses); n > maxHoses {
		return nil, fmt.Errorf("rig %q has %d hoses; the planner takes %d", s.Rig.Name, n, maxHoses)
	}
	m.ops = newOperations(&s.Rig)
	if err := m.addPipes(); err != nil {
		return nil, err
	}
	m.addAccesses()
	m.addSpots()
	if err := m.addNear(); err != nil {
		return nil, err
	}
	m.above = make([][]int, len(m.pipes))
	for p, next := range m.g.Next {
		if next >= 0 && !m.ring(p) && !m.ring(next) {
			m.above[next] = append(m.above[next], p)
		}
	}
	return m, nil
}

func (m *model) addPipes() error {
	number := map[network.Deposit]int{}
	kinds := site.PassOrder()
	for i := range m.site.Network.Pipes {
		p := &m.site.Network.Pipes[i]
		mat, ok := m.tables.Materials[p.Material]
		if !ok {
			return fmt.Errorf("%s: material %q has no row in the tables", m.g.PipeName(i), p.Material)
		}
		dep := p.Deposit
		if dep == "" {
			dep = network.NoDeposit
		}
		row, ok := m.tables.Deposits[dep]
		if !ok {
			return fmt.Errorf("%s: deposit %q has no row in the tables", m.g.PipeName(i), dep)
		}
		d, ok := number[dep]
		if !ok {
			d = len(m.deposits)
			number[dep] = d
			m.deposits = append(m.deposits, dep)
			m.addServing(row, kinds)
		}
		mp := modelPipe{
			length: m.g.Length(i), corners: m.g.Corners(i), size: p.Size, friction: mat.Friction,
			target: !p.OutOfJob, deposit: d,
		}
		if p.Fragile && p.Ceiling != nil {
			mp.ceiling = *p.Ceiling
		}
		m.setTimes(&mp, p, row, kinds)
		m.pipes = append(m.pipes, mp)
	}
	return nil
}

// addServing records which nozzles serve the passes of a deposit.
func (m *model) addServing(row site.DepositRow, kinds []site.PassKind) {
	for k, kind := range kinds {
		place := make([]int, len(m.site.Rig.Nozzles))
		for n := range place {
			place[n] = -1
		}
		for _, pass := range row.Passes {
			if pass.Kind != kind {
				continue
			}
			for n, nozzle := range m.site.Rig.Nozzles {
				place[n] = bestPlace(pass.Nozzles, nozzle.Purposes)
			}
		}
		m.serve[k] = append(m.serve[k], place)
	}
}

// bestPlace ranks a nozzle with the purposes it has for a pass that wants some,
// best first; -1 where it has none of them.
func bestPlace(wanted, has []rig.Purpose) int {
	for i, w := range wanted {
		if own := slices.Index(has, w); own >= 0 {
			return i*maxPurposes + own
		}
	}
	return -1
}

// maxPurposes is more than a nozzle has purposes.
const maxPurposes = 16

// setTimes fills in what the passes of a pipe take, by the formulas in doc.go.
func (m *model) setTimes(mp *modelPipe, p *network.Pipe, row site.DepositRow, kinds []site.PassKind) {
	crew := &m.site.Rig.Crew
	severity := p.Severity
	if severity == "" {
		severity = network.Moderate
	}
	over := rig.Over(mp.length, crew.Travel)
	mp.travel = toTicks(2 * over)
	for k, kind := range kinds {
		for _, pass := range row.Passes {
			pulls := pass.Pulls[severity]
			if pass.Kind != kind || pulls == 0 {
				continue
			}
			out := over
			if pass.Strokes {
				out = crew.StrokeOut(mp.length)
			}
			both := out + time.Duration(pulls)*rig.Over(mp.length, pass.Pull) + time.Duration(pulls-1)*over
			mp.needs[k] = true
			mp.work[k][0] = toTicks(both)
			mp.work[k][1] = toTicks(time.Duration(math.Round(float64(both) * (1 + crew.Downstream))))
		}
	}
}

func (m *model) addAccesses() {
	m.accessAt = slices.Repeat([]int{-1}, len(m.site.Network.Nodes))
	for i := range m.site.Network.Nodes {
		n := &m.site.Network.Nodes[i]
		if n.Kind != network.KindAccess || n.Access == nil || n.Access.OutOfService {
			continue
		}
		m.accessAt[i] = len(m.access)
		m.access = append(m.access, modelAccess{node: i, riser: n.Access.Riser, size: n.Access.Size})
	}
}

func (m *model) addSpots() {
	for i := range m.site.Spots {
		sp := &m.site.Spots[i]
		if !sp.Usable() {
			continue
		}
		ms := modelSpot{spot: sp}
		if ms.inflow, _ = m.site.Inflow(sp); ms.inflow <= 0 {
			ms.sources = m.sourcesFor(sp)
		}
		m.spots = append(m.spots, ms)
	}
}

// sourcesFor lists the water points for a spot but those that others beat in both
// the way and the flow.
func (m *model) sourcesFor(sp *site.Spot) (out []source) {
	for i := range m.site.Water {
		w := &m.site.Water[i]
		one := source{trip: 2 * m.tow(sp.At, w.At), flow: m.site.FillFlow(w)}
		beats := func(a, b source) bool { return a.trip <= b.trip && a.flow >= b.flow }
		if one.flow > 0 && !slices.ContainsFunc(out, func(o source) bool { return beats(o, one) }) {
			out = append(slices.DeleteFunc(out, func(o source) bool { return beats(one, o) }), one)
		}
	}
	return out
}

// ring tells whether a pipe ends where it starts; such a pipe leads nowhere.
func (m *model) ring(pipe int) bool { return m.g.Up[pipe] == m.g.Down[pipe] }

// tow is the time to tow from one spot to another, set-up and pack-up apart.
func (m *model) tow(from, to network.Point) ticks {
	crew := &m.site.Rig.Crew
	return toTicks(minutes(crew.Move) + rig.Over(from.Distance(to), crew.TowSpeed))
}
