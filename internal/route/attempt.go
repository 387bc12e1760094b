package route

import (
	"slices"

	"linemap/internal/unit"
)

// attempt is one hose pushed from one access toward a pipe that no run cleans,
// with every rule it breaks on the way, in the order met. The reel is looked
// at last, from the spot with the shortest lay.
type attempt struct {
	way    way
	path   []int
	broken []breach
	spot   int
	over   unit.Length // hose lacking from that spot; negative is to spare
}

// attempts tries every access near enough to matter, way and hose on one pipe.
func (e *explainer) attempts(pipe int) []attempt {
	var out []attempt
	for _, in := range e.waysIn(pipe) {
		if !e.entry(in.access, in.path[0]).Open {
			continue
		}
		for h := range e.site.Rig.Hoses {
			out = append(out, e.attempt(in.access, h, in.path))
		}
	}
	return out
}

// attempt pushes a hose along a path whatever it breaks.
func (m *model) attempt(access, hose int, path []int) attempt {
	w, broken := m.enter(access, hose, path[0])
	for _, p := range path[1:] {
		var more []breach
		w, more = m.step(w, p)
		broken = append(broken, more...)
	}
	t := attempt{way: w, path: path, broken: broken, spot: -1}
	for _, n := range m.access[access].near {
		if over := m.overReel(w, n.lay); t.spot < 0 || over < t.over {
			t.spot, t.over = n.spot, over
		}
	}
	return t
}

// waysFrom lists the pipes that a hose goes through from a node to a pipe and
// along it, without turning about: against the flow, with the flow, or both
// where pipes run in a loop.
func (m *model) waysFrom(node, pipe int) [][]int {
	var out [][]int
	var up []int
	for p := pipe; p >= 0 && len(up) <= len(m.pipes) && !m.ring(p); p = m.g.Next[p] {
		up = append(up, p)
		if m.g.Down[p] == node {
			way := slices.Clone(up)
			slices.Reverse(way)
			out = append(out, way)
			break
		}
	}
	for _, first := range m.g.Below[node] {
		var down []int
		for p := first; p >= 0 && len(down) <= len(m.pipes) && !m.ring(p); p = m.g.Next[p] {
			down = append(down, p)
			if p == pipe {
				out = append(out, down)
				break
			}
		}
	}
	return out
}

func (t *attempt) excess() (sum float64) {
	for _, b := range t.broken {
		sum += b.excess
	}
	return sum
}

func (t *attempt) reelHolds() bool { return t.over <= slackLength }
func (t *attempt) works() bool     { return len(t.broken) == 0 && t.reelHolds() }

// better ranks attempts: the fewest broken rules, then the least excess, then
// the shortest lack of hose, then the shortest way.
func (t *attempt) better(u *attempt) bool {
	if a, b := len(t.broken), len(u.broken); a != b {
		return a < b
	}
	if a, b := t.excess(), u.excess(); a != b {
		return a < b
	}
	if a, b := max(t.over, 0), max(u.over, 0); a != b {
		return a < b
	}
	return t.way.length < u.way.length
}
