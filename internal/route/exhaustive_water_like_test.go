package route

import (
	"slices"

	"linemap/internal/rig"
)

// likeness narrows the oracle down to the runs of a given plan, and to less: what
// stays as it is in that plan is what is not set below. What comes later in the
// list has what comes before it set too.
type likeness struct {
	runs     []likeRun
	shuffled bool // runs come in any order in their block
	mixed    bool // blocks come in any order
	anyhow   bool // the runs of a block do not stay together
	anywhere bool // runs are made from any spot
}

// likeRun is a run of a plan.
type likeRun struct {
	id         runID
	made       uint64
	key, block int
}

// runsOf lists the runs of a plan as the oracle sees them.
func (o *wetOracle) runsOf(p *Plan) (runs []likeRun) {
	for j := range p.Blocks {
		b := &p.Blocks[j]
		spot := slices.IndexFunc(o.spots, func(s modelSpot) bool { return s.spot.ID == b.Spot })
		hose := slices.IndexFunc(o.site.Rig.Hoses, func(h rig.Hose) bool { return h.ID == b.Hose })
		for k := range b.Runs {
			r := &b.Runs[k]
			node, _ := o.g.NodeIndex(r.Access)
			one := likeRun{key: spot*o.hoses + hose, block: j}
			one.id = runID{access: o.accessAt[node], hose: hose, down: r.Direction == Downstream}
			for _, leg := range r.Path {
				p, _ := o.g.PipeIndex(leg.Pipe)
				if one.id.end = p; leg.Cleaned {
					one.made |= 1 << p
				}
			}
			runs = append(runs, one)
		}
	}
	return runs
}

// block is the block that is being made or has to come next; -1 where any may.
func (l *likeness) block(clean uint64) int {
	undone := func(r likeRun) bool { return r.made&clean == 0 }
	if !l.mixed {
		if i := slices.IndexFunc(l.runs, undone); i >= 0 {
			return l.runs[i].block
		}
		return -1
	}
	for i := 1; i < len(l.runs); i++ {
		if a, b := l.runs[i-1], l.runs[i]; a.block == b.block && undone(a) != undone(b) {
			return a.block
		}
	}
	return -1
}

// moves tells whether the crew may go on to a spot and hose.
func (l *likeness) moves(clean uint64, key int) bool {
	if l == nil || l.anyhow {
		return true
	}
	at := l.block(clean)
	return slices.ContainsFunc(l.runs, func(r likeRun) bool {
		return r.key == key && r.made&clean == 0 && (at < 0 || r.block == at)
	})
}

// makes tells whether a run may be made.
func (l *likeness) makes(s *oracleState, id runID, made uint64) bool {
	if l == nil {
		return true
	}
	i := slices.IndexFunc(l.runs, func(r likeRun) bool { return r.made == made && r.id == id })
	if i < 0 || l.anywhere {
		return i >= 0
	}
	r := l.runs[i]
	if r.key != s.key || l.anyhow {
		return r.key == s.key
	}
	if at := l.block(s.clean); at >= 0 && at != r.block {
		return false
	}
	return l.shuffled || !slices.ContainsFunc(l.runs[:i], func(b likeRun) bool { return b.block == r.block && b.made&s.clean == 0 })
}
