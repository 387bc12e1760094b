package audit

import (
	"fmt"

	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/unit"
)

// mark is something the hose meets, by the checker's own survey.
type mark struct {
	at      unit.Length // from the start of the first pipe
	node    network.NodeID
	pipe    network.PipeID
	turn    unit.Angle
	side    string
	confirm bool
	bare    bool // may go untold
}

// marks lists what a hose meets on a track, in order.
func (g *ground) marks(t *track) []mark {
	var out []mark
	for i, h := range t.hops {
		pipe := g.net.Pipes[h.pipe].ID
		if i > 0 || h.turn > 0 {
			out = append(out, mark{
				at: h.near, node: g.nodeID(h.node), pipe: pipe, turn: h.turn,
				side: h.side, confirm: h.branch, bare: h.bare,
			})
		}
		for _, c := range h.corners {
			side := "right"
			if c.left {
				side = "left"
			}
			out = append(out, mark{at: h.near + c.at, pipe: pipe, turn: c.counts, side: side})
		}
	}
	return out
}

// fittings checks that a run tells everything that its hose meets.
func (c *checker) fittings(r *run) {
	entry := unit.Length(c.entry(r))
	next := 0
	for _, m := range c.marks(&r.track) {
		place := fmt.Sprintf("%s, %s at %s", r.name, m.pipe, metres(entry+m.at))
		if next >= len(r.Fittings) || !m.tells(&r.Fittings[next]) {
			if !m.bare {
				c.add(RuleFittings, place, "the run does not tell of a turn, junction or change here")
				return
			}
			continue
		}
		f := &r.Fittings[next]
		next++
		c.sameLength(RuleFittings, place, "reading", f.At, entry+m.at)
		c.sameAngle(RuleFittings, place, "turn", f.Turn, m.turn)
		if f.Side != m.side {
			c.differ(RuleFittings, place, "side", f.Side, m.side)
		}
		if f.Confirm != m.confirm {
			c.differ(RuleFittings, place, "to be confirmed with a locator", f.Confirm, m.confirm)
		}
		if f.What == "" {
			c.add(RuleFittings, place, "the fitting has no name")
		}
	}
	if next < len(r.Fittings) {
		f := r.Fittings[next]
		c.add(RuleFittings, r.name, "there is no %s in %s at %s", f.What, f.Pipe, metres(f.At))
	}
}

// tells reports whether a fitting of a run stands for a mark.
func (m *mark) tells(f *route.Fitting) bool { return f.Node == m.node && f.Pipe == m.pipe }
