package route

import (
	"fmt"
	"slices"

	"linemap/internal/network"
	"linemap/internal/site"
)

// Shift says by how many steps every deposit is worse than noted: light,
// moderate, heavy. What is light gets no milder, what is heavy no worse.
type Shift int

// The shifts.
const (
	Milder  Shift = -1
	AsNoted Shift = 0
	Worse   Shift = 1
)

// severities are the steps, the mildest first.
var severities = []network.Severity{network.Light, network.Moderate, network.Heavy}

// of shifts one severity; one that the program does not know stays.
func (by Shift) of(s network.Severity) network.Severity {
	if s == "" {
		s = network.Moderate
	}
	at := slices.Index(severities, s)
	if at < 0 {
		return s
	}
	return severities[min(max(at+int(by), 0), len(severities)-1)]
}

// Shifted plays a plan's day through once more, the same runs in the same
// order, as if every deposit were milder or worse than noted: passes, nozzles,
// minutes, water and waiting come out as the same rules have them. Nothing is
// searched, so it takes little time. Shifted by nothing, a plan is itself.
//
// The plan that it returns has neither shortfalls nor bound. Where the rig
// cannot make a run at the other severity (no nozzle for the pass, no water),
// the pipe of that run counts as noted; and where a run then lacks the water that
// the others take, that of the others too, one after another from the last. It
// fails where the plan is none of the site's.
func (p *Plan) Shifted(s *site.Site, t *site.Tables, by Shift) (*Plan, error) {
	other := *s
	other.Network.Pipes = slices.Clone(s.Network.Pipes)
	pipes := other.Network.Pipes
	for i := range pipes {
		pipes[i].Severity = by.of(pipes[i].Severity)
	}
	for {
		m, err := newModel(&other, t)
		if err != nil {
			return nil, err
		}
		c := &catalogue{model: m, reachable: make([]bool, len(m.pipes))}
		entries, failed := c.remake(p)
		got := outcome{left: failed}
		if len(failed) == 0 {
			got = c.carryOutEntries(entries)
		}
		if len(got.left) == 0 {
			return got.plan, nil
		}
		again := false
		for _, i := range got.left {
			again = again || pipes[i].Severity != AsNoted.of(s.Network.Pipes[i].Severity)
			pipes[i].Severity = AsNoted.of(s.Network.Pipes[i].Severity)
		}
		if !again && !p.lastAsNoted(m, &s.Network) {
			return nil, fmt.Errorf("the plan does not belong to the site: %s cannot be cleaned as planned", m.g.PipeName(got.left[0]))
		}
	}
}

// lastAsNoted lets the pipe of the last run that is shifted count as noted; it is
// false where all does.
func (p *Plan) lastAsNoted(m *model, noted *network.Network) bool {
	runs, again := p.Runs(), false
	for r := len(runs) - 1; r >= 0 && !again; r-- {
		for _, leg := range runs[r].Path {
			i, ok := m.g.PipeIndex(leg.Pipe)
			if !ok || !leg.Cleaned {
				continue
			}
			pipe, was := &m.site.Network.Pipes[i], AsNoted.of(noted.Pipes[i].Severity)
			again = again || pipe.Severity != was
			pipe.Severity = was
		}
	}
	return again
}

// remake makes the candidates of a plan's runs. It lists the pipes on the way of
// the runs that cannot be made, none where all can.
func (c *catalogue) remake(p *Plan) (entries []entry, failed []int) {
	found, unknown := c.findAll(p.Keys())
	if len(unknown) > 0 {
		at, _ := c.g.PipeIndex(unknown[0].End)
		return nil, []int{at}
	}
	for i := range found {
		n := &found[i]
		col := c.remakeRun(n)
		if col < 0 {
			failed = append(failed, n.path...)
			continue
		}
		entries = append(entries, entry{n, col})
		for _, q := range c.chain(col) {
			c.reachable[q] = true
		}
	}
	return entries, failed
}

// remakeRun makes the candidate of a run for what of its way is not clean yet,
// -1 where the rules do not allow it.
func (c *catalogue) remakeRun(n *named) int {
	if n.spot < 0 || n.access < 0 {
		return -1
	}
	first, prev := len(c.columns), -1
	w, broken := c.enter(n.access, n.hose, n.path[0])
	for i, pipe := range n.path {
		if i > 0 {
			w, broken = c.step(w, pipe)
		}
		at, ok := c.addPlace(w, broken, prev)
		if !ok {
			return -1
		}
		if prev = at; c.pipes[pipe].target && !c.reachable[pipe] {
			c.extendOrdered(at, first)
		}
	}
	col := len(c.columns) - 1
	if col < first || c.columns[col].last != n.end || !c.madeFrom(col, n.spot) {
		return -1
	}
	return col
}
