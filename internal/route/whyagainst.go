package route

import (
	"slices"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// compare completes what is told of another run; false where nothing can be
// said of it.
func (w *reasoner) compare(i Instead, run *Run, n, o *named) (Instead, bool) {
	if i.Run = o.key; !w.isOne(o) {
		return Instead{}, false
	}
	if i.Not = w.barrier(o); i.Not != nil {
		i.At, i.Move, i.Pressures = w.readingOf(o, i.Not.Rule), 0, [2]unit.Pressure{}
		return i, true
	}
	cleaned := w.cleanedBy(run)
	for _, p := range cleaned {
		if !slices.Contains(o.path, p) {
			i.Leaves += w.pipes[p].length
		}
	}
	if i.Leaves > 0 {
		i.Move = 0
		return i, true
	}
	other, ok := w.costOf(o, cleaned)
	if !ok {
		return Instead{}, false
	}
	own := toTicks(run.Minutes) + toTicks(minutes(w.site.Rig.Crew.RunStart))
	if !w.opensOther(run, n.key.Access) {
		own += w.openCost(n.access, n.spot)
	}
	if o.spot != n.spot || o.hose != n.hose || !w.opensOther(run, o.key.Access) {
		other += w.openCost(o.access, o.spot)
	}
	i.Dearer = (other - own).duration()
	return i, i.Dearer >= 0 || i.Move > 0
}

// isOne tells whether the key of a run stands for it alone. Round a ring there
// can be another way with the flow to the same end.
func (w *reasoner) isOne(n *named) bool {
	ways := 0
	for _, path := range w.waysFrom(w.access[n.access].node, n.end) {
		if down := w.g.Down[path[0]] != w.access[n.access].node; down == n.down {
			ways++
		}
	}
	return ways == 1
}

func (w *reasoner) cleanedBy(run *Run) (out []int) {
	for _, leg := range run.Path {
		if p, ok := w.g.PipeIndex(leg.Pipe); ok && leg.Cleaned {
			out = append(out, p)
		}
	}
	return out
}

// opensOther tells whether another run of the block goes in by an access.
func (w *reasoner) opensOther(run *Run, access network.NodeID) bool {
	return slices.ContainsFunc(w.block.Runs, func(r Run) bool { return r.Number != run.Number && r.Access == access })
}

// costOf is what a run costs that cleans some pipes, without its opening; false
// where it cannot be made.
func (w *reasoner) costOf(n *named, cleaned []int) (ticks, bool) {
	s := w.scratch
	s.places, s.columns = s.places[:0], s.columns[:0]
	for _, p := range cleaned {
		s.reachable[p] = false
	}
	col := s.remakeRun(n)
	for _, p := range cleaned {
		s.reachable[p] = true
	}
	if col < 0 {
		return 0, false
	}
	return s.columns[col].cost, true
}

// barrier is what keeps a run from being made by its path alone; nil for
// nothing.
func (w *reasoner) barrier(n *named) *Breach {
	b := &Breach{Key: n.key}
	if !w.entry(n.access, n.path[0]).Open {
		b.What = FacesAway
		return b
	}
	if b.Rule = w.pathBroken(n); b.Rule != nil {
		b.What = BreaksRule
		return b
	}
	if b.Pipe = w.uncleanedOn(n); b.Pipe != "" {
		b.What = OverUncleaned
		return b
	}
	return nil
}

// readingOf is the counter reading at which a run breaks a rule of its path; 0
// where the rule has no place.
func (w *reasoner) readingOf(n *named, rule *Shortfall) unit.Length {
	if rule == nil || rule.AtPipe == "" {
		return 0
	}
	at := w.layTo(n.access, n.spot) + w.access[n.access].riser
	for _, p := range n.path {
		here := w.site.Network.Pipes[p].ID == rule.AtPipe
		if here && rule.Reason != PullShort { // it breaks at the pipe's near end
			break
		}
		if at += w.pipes[p].length; here {
			break
		}
	}
	return at
}
