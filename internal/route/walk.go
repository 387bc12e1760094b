package route

import (
	"math"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/unit"
)

// way is how far one hose has come from one access: everything that the rules
// ask of the path so far. It is a value; taking a step makes a new one.
type way struct {
	access, hose int
	down         bool
	pipe         int         // the pipe it has just passed
	length       unit.Length // riser and path
	turns        unit.Angle
	// drag is the drag of the hose at the nozzle in the low case, worst the
	// largest it has been.
	drag, worst unit.Force
	ceiling     unit.Pressure // lowest of the fragile pipes so far, 0 for none
	least, most unit.Size     // smallest and largest pipe so far
}

// breach is one rule that a step breaks, and by how much.
type breach struct {
	reason     Reason
	pipe, node int // -1 where it does not apply
	what       string
	bends      float64
	force      unit.Force
	angle      unit.Angle
	// excess is by how much the limit is passed, as a share of it, to compare
	// breaches of one rule.
	excess float64
}

// Rounding slack of the comparisons, far below what anyone can measure.
const (
	slackLength = unit.Length(1e-6)
	slackAngle  = unit.Angle(1e-6)
	slackVolume = unit.Volume(1e-9)
)

// enter takes a hose from an access into its first pipe.
func (m *model) enter(access, hose, pipe int) (way, []breach) {
	node := m.access[access].node
	w := way{
		access: access, hose: hose, pipe: -1, length: m.access[access].riser,
		down:  m.g.Down[pipe] != node,
		least: unit.Size(math.Inf(1)), most: 0,
	}
	if above := m.access[access].above; w.down {
		w.length += above
	} else {
		w.length -= above
	}
	var broken []breach
	if h, opening := &m.site.Rig.Hoses[hose], m.access[access].size; opening < h.MinPipe {
		broken = append(broken, breach{
			reason: HoseTooLarge, pipe: pipe, node: node, what: "opening", excess: float64(h.MinPipe/opening) - 1,
		})
	}
	next, more := m.cross(w, node, pipe, m.entry(access, pipe))
	return next, append(broken, more...)
}

// entry is the passage from an access into its first pipe, closed where a
// one-way cleanout faces the other way.
func (m *model) entry(access, pipe int) network.Passage {
	a := &m.access[access]
	if a.trial {
		pass := network.Passage{Open: true, What: "new cleanout"}
		if pipe != a.trialPipe { // down, through what its pipe ends at
			pass = m.g.Passage(a.trialPipe, pipe)
		}
		pass.Turn += trialEntry
		pass.Sharpest = max(pass.Sharpest, trialEntry)
		return pass
	}
	pass := m.g.Entry(a.node, pipe)
	facing := network.FacesUpstream
	if m.g.Down[pipe] != a.node {
		facing = network.FacesDownstream
	}
	if n := m.site.Network.Nodes[a.node].Access; n.Kind == network.OneWayCleanout && n.Facing != facing {
		pass.Open, pass.Why = false, "faces the other way"
	}
	return pass
}

// step takes a hose from the end of its way into the next pipe.
func (m *model) step(w way, pipe int) (way, []breach) {
	node := m.g.Up[w.pipe]
	if w.down {
		node = m.g.Down[w.pipe]
	}
	return m.cross(w, node, pipe, m.g.Passage(w.pipe, pipe))
}

// cross goes through a node and along the pipe behind it. It goes on past
// broken rules, so that all of them can be told.
func (m *model) cross(w way, node, pipe int, pass network.Passage) (way, []breach) {
	var broken []breach
	hose := &m.site.Rig.Hoses[w.hose]
	p := &m.pipes[pipe]
	at := func(r Reason) breach { return breach{reason: r, pipe: pipe, node: node} }
	if !pass.Open {
		b := at(Blocked)
		b.what = pass.Why
		broken = append(broken, b)
	}
	if pass.Branch && pass.Sharpest > hose.BranchTurn+slackAngle {
		b := at(BranchTurn)
		b.angle, b.what = pass.Sharpest-hose.BranchTurn, pass.What
		b.excess = float64(b.angle / hose.BranchTurn)
		broken = append(broken, b)
	}
	sharpest, what := pass.Sharpest, pass.What
	w.turns += pass.Turn
	for _, s := range m.steps(w, pipe, pass.Turn) {
		w.drag = rig.Push(w.drag, s, hose, m.water, rig.LowReach)
	}
	for _, c := range m.pipes[pipe].corners {
		turn := c.Turn()
		w.turns += turn
		if turn > sharpest {
			sharpest, what = turn, "traced corner"
		}
	}
	if sharpest > hose.Sharpest+slackAngle {
		b := at(TurnTooSharp)
		b.angle, b.what = sharpest-hose.Sharpest, what
		b.excess = float64(b.angle / hose.Sharpest)
		broken = append(broken, b)
	}
	if over := w.turns - unit.QuarterBends(hose.Bends); over > slackAngle {
		b := at(OverBends)
		b.bends = over.QuarterBends()
		b.excess = b.bends / hose.Bends
		broken = append(broken, b)
	}
	if p.size < hose.MinPipe {
		b := at(HoseTooLarge)
		b.excess = float64(hose.MinPipe/p.size) - 1
		broken = append(broken, b)
	}
	if p.size > hose.MaxPipe {
		b := at(HoseTooSmall)
		b.excess = float64(p.size/hose.MaxPipe) - 1
		broken = append(broken, b)
	}
	w.pipe = pipe
	w.length += p.length
	w.worst = max(w.worst, w.drag)
	w.least, w.most = min(w.least, p.size), max(w.most, p.size)
	if p.ceiling > 0 && (w.ceiling == 0 || p.ceiling < w.ceiling) {
		w.ceiling = p.ceiling
	}
	if p.target {
		if b, ok := m.workable(w); !ok {
			b.pipe, b.node = pipe, -1
			broken = append(broken, b)
		}
	}
	return w, broken
}

// steps lays out a pipe, with the turn into it, as the hose meets it.
func (m *model) steps(w way, pipe int, turn unit.Angle) []rig.Step {
	p := &m.pipes[pipe]
	climb := m.g.Climb(pipe)
	if w.down {
		climb = -climb
	}
	corners := m.pipes[pipe].corners
	steps := make([]rig.Step, 0, len(corners)+1)
	add := func(length unit.Length) {
		steps = append(steps, rig.Step{Length: length, Climb: climb, Turn: turn, Friction: p.friction})
	}
	var done unit.Length
	for i := range corners {
		c, at := m.cornerAhead(w.down, pipe, corners, i)
		add(at - done)
		done, turn = at, c.Turn()
	}
	add(p.length - done)
	return steps
}

// cornerAhead is the i-th corner that a hose meets in a pipe, and its distance
// from the end at which the hose comes in.
func (m *model) cornerAhead(down bool, pipe int, corners []network.Corner, i int) (network.Corner, unit.Length) {
	if m.entersAtFrom(down, pipe) {
		return corners[i], corners[i].At
	}
	c := corners[len(corners)-1-i]
	return c, m.pipes[pipe].length - c.At
}

// entersAtFrom tells whether a hose comes into a pipe at the end that was drawn
// first.
func (m *model) entersAtFrom(down bool, pipe int) bool {
	end := m.g.Down[pipe]
	if down {
		end = m.g.Up[pipe]
	}
	from, _ := m.g.NodeIndex(m.site.Network.Pipes[pipe].From)
	return from == end
}

// spotsFor is the set of the access's near spots from which the reel holds the hose for a way.
func (m *model) spotsFor(w way) uint64 {
	var set uint64
	for i, n := range m.access[w.access].near {
		if m.overReel(w, n.lay) <= slackLength {
			set |= 1 << i
		}
	}
	return set
}

// overReel is how much hose a way lacks after a lay; negative is to spare.
func (m *model) overReel(w way, lay unit.Length) unit.Length {
	h := &m.site.Rig.Hoses[w.hose]
	return lay + w.length + h.Reserve - h.Length
}
