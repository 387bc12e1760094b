package route

import (
	"cmp"
	"context"
	"slices"
	"time"

	"linemap/internal/rig"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// Choice is what a run might have been made with instead.
type Choice string

// The choices, in the order in which they are told.
const (
	ByAccess    Choice = "access"
	ByDirection Choice = "direction"
	BySpot      Choice = "spot"
	ByHose      Choice = "hose"
	ByNozzle    Choice = "nozzle"
)

// RunWhy tells why a run of the plan is made as it is.
type RunWhy struct {
	Run     int       `json:"run"` // its number
	Instead []Instead `json:"instead"`
}

// Instead is what one might expect in place of a run's own choice, and what
// speaks against it: a rule, else what it would leave, else what it would cost.
// Where none does, it would do as well.
type Instead struct {
	Choice Choice `json:"choice"`
	// Own and Other name what was chosen and what was not, for a reader.
	Own   string `json:"own"`
	Other string `json:"other"`
	// Run is the run that it would be; none for another nozzle.
	Run site.RunKey `json:"key,omitzero"`
	// Not is what keeps that run from being made, At the counter reading there
	// where it breaks a rule on the way.
	Not *Breach     `json:"not,omitzero"`
	At  unit.Length `json:"at,omitzero"`
	// Leaves is the pipe of the run that it would not clean.
	Leaves unit.Length `json:"leaves,omitzero"`
	// Dearer is what it would cost beyond the run and its opening, dry; Move what
	// a move or a change of hose just for it would cost besides.
	Dearer time.Duration `json:"dearer_minutes,omitzero"`
	Move   time.Duration `json:"move_minutes,omitzero"`
	// Pressures are what the first pass has at the nozzle, own and other, for
	// another hose.
	Pressures [2]unit.Pressure `json:"pressures,omitzero"`
	// Nozzle is the nozzle that was not chosen, Force by how much the drag beats its
	// pull; none where it does not fit all of the pipe.
	Nozzle string     `json:"nozzle,omitzero"`
	Force  unit.Force `json:"force,omitzero"`
}

// reasoner finds why the runs of a plan are made as they are.
type reasoner struct {
	*catalogue
	at      map[int]int // the access of a node
	scratch *catalogue  // to make other runs in
	block   *Block
}

// addWhys tells for every run of a plan what speaks for its choices; of none
// where planning is cancelled on a large site, and then the plan says so.
func (c *catalogue) addWhys(ctx context.Context, p *Plan) {
	w := &reasoner{catalogue: c, at: map[int]int{}}
	for a := range c.access {
		w.at[c.access[a].node] = a
	}
	w.scratch = &catalogue{model: c.model, reachable: make([]bool, len(c.pipes))}
	for i := range w.scratch.reachable {
		w.scratch.reachable[i] = true
	}
	for b := range p.Blocks {
		if c.hurried(ctx) {
			break
		}
		w.block = &p.Blocks[b]
		for r := range w.block.Runs {
			run := &w.block.Runs[r]
			n, ok := c.find(run.Key(w.block))
			if !ok || n.spot < 0 || n.access < 0 {
				continue
			}
			if all := w.instead(run, &n); len(all) > 0 {
				p.Whys = append(p.Whys, RunWhy{Run: run.Number, Instead: all})
			}
		}
	}
	if c.hurried(ctx) {
		p.Whys, p.Stopped, p.Proven = nil, true, false
	}
}

// instead lists what might be expected in place of a run, what tells most first.
func (w *reasoner) instead(run *Run, n *named) []Instead {
	var out []Instead
	for _, one := range []func(*Run, *named) (Instead, bool){w.otherAccess, w.otherSpot, w.otherHose, w.otherNozzle} {
		if i, ok := one(run, n); ok {
			out = append(out, i)
		}
	}
	slices.SortStableFunc(out, func(a, b Instead) int { return cmp.Compare(a.rank(), b.rank()) })
	return out
}

func (i *Instead) rank() int {
	switch {
	case i.Not != nil, i.Nozzle != "":
		return 0
	case i.Leaves > 0:
		return 1
	case i.Dearer > 0 || i.Move > 0:
		return 2
	}
	return 3
}

// otherAccess looks at the other access with the shortest hose to the run's end:
// below it, or at the head of it; for a downstream run, to its upper end.
func (w *reasoner) otherAccess(run *Run, n *named) (Instead, bool) {
	best := named{access: -1}
	var least unit.Length
	for _, o := range w.accessesTo(run, n) {
		if hose := w.layTo(o.access, n.spot) + w.lengthOf(&o); best.access < 0 || hose < least {
			best, least = o, hose
		}
	}
	if best.access < 0 {
		return Instead{}, false
	}
	i := Instead{Choice: ByAccess, Own: w.nodeName(n.access), Other: w.nodeName(best.access)}
	if best.down != n.down {
		i.Choice = ByDirection
	}
	return w.compare(i, run, n, &best)
}

func (w *reasoner) nodeName(access int) string { return w.g.NodeName(w.access[access].node) }

// mostAccesses is how many accesses along a way are looked at.
const mostAccesses = 8

// accessesTo lists runs of the same spot and hose from other accesses to the far
// end of a run.
func (w *reasoner) accessesTo(run *Run, n *named) (out []named) {
	far := n.end
	if n.down {
		far = n.path[0]
	}
	add := func(access int, path []int, down bool) {
		if access == n.access {
			return
		}
		o := named{spot: n.spot, access: access, path: path}
		o.runID = runID{access: access, hose: n.hose, end: path[len(path)-1], down: down}
		o.key = site.RunKey{
			Spot: n.key.Spot, Hose: n.key.Hose, Access: w.site.Network.Nodes[w.access[access].node].ID,
			End: w.site.Network.Pipes[o.end].ID, Downstream: down,
		}
		out = append(out, o)
	}
	var up []int
	for p := far; p >= 0 && len(out) < mostAccesses && len(up) <= len(w.pipes) && !w.ring(p); p = w.g.Next[p] {
		up = append(up, p)
		if a, ok := w.at[w.g.Down[p]]; ok {
			path := slices.Clone(up)
			slices.Reverse(path)
			add(a, path, false)
		}
	}
	if a, ok := w.at[w.g.Up[n.end]]; ok && !n.down {
		clean := w.cleanedBy(run)
		from := slices.Index(n.path, clean[0])
		path := slices.Clone(n.path[from:])
		slices.Reverse(path)
		add(a, path, true)
	}
	return out
}

// lengthOf is the length of hose from an access' opening to the end of a run.
func (m *model) lengthOf(n *named) unit.Length {
	sum := m.access[n.access].riser
	for _, p := range n.path {
		sum += m.pipes[p].length
	}
	return sum
}

// otherSpot looks at the spot with the shortest lay, where that is not the run's.
func (w *reasoner) otherSpot(run *Run, n *named) (Instead, bool) {
	spot, least := -1, run.Lay
	for _, near := range w.access[n.access].near {
		if near.lay < least {
			spot, least = near.spot, near.lay
		}
	}
	if spot < 0 {
		return Instead{}, false
	}
	o := *n
	o.spot, o.key.Spot = spot, w.spots[spot].spot.ID
	i := Instead{Choice: BySpot, Own: spotName(w.site, n.key.Spot), Other: spotName(w.site, o.key.Spot)}
	crew := &w.site.Rig.Crew
	i.Move = (toTicks(minutes(crew.PackUp)) + w.tow(w.spots[n.spot].spot.At, w.spots[spot].spot.At) + toTicks(minutes(crew.SetUp))).duration()
	return w.compare(i, run, n, &o)
}

// otherHose looks at the rig's other hose that leaves the most pressure.
func (w *reasoner) otherHose(run *Run, n *named) (Instead, bool) {
	if len(run.Passes) == 0 {
		return Instead{}, false
	}
	var best Instead
	found := false
	for h := range w.site.Rig.Hoses {
		if h == n.hose {
			continue
		}
		o := *n
		o.hose, o.key.Hose = h, w.site.Rig.Hoses[h].ID
		i := Instead{
			Choice: ByHose, Own: w.site.Rig.Hoses[n.hose].Name, Other: w.site.Rig.Hoses[h].Name,
			Move: toTicks(minutes(w.site.Rig.Crew.HoseChange)).duration(),
		}
		nozzle := slices.IndexFunc(w.site.Rig.Nozzles, func(z rig.Nozzle) bool { return z.ID == run.Passes[0].Nozzle })
		op := w.ops.at(h, nozzle, w.ceilingOf(n))
		i.Pressures = [2]unit.Pressure{run.Passes[0].Operating.Nozzle, op.Operating.Nozzle}
		if i, ok := w.compare(i, run, n, &o); ok && (!found || i.Pressures[1] > best.Pressures[1]) {
			best, found = i, true
		}
	}
	return best, found
}

// ceilingOf is the lowest ceiling of the fragile pipes of a run, 0 for none.
func (m *model) ceilingOf(n *named) (lowest unit.Pressure) {
	for _, p := range n.path {
		if c := m.pipes[p].ceiling; c > 0 && (lowest == 0 || c < lowest) {
			lowest = c
		}
	}
	return lowest
}
