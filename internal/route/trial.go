package route

import (
	"math"
	"slices"

	"linemap/internal/unit"
)

// A trial is a copy of the model with one thing changed, to see whether a cure
// would work.

// trialEntry is the turn from the riser of a new cleanout into the pipe: a wye.
var trialEntry = unit.Degrees(45)

// withCleanout adds a cleanout at the lower end of a pipe, facing upstream and
// as large as the pipe, and returns its index.
func (m *model) withCleanout(pipe int) (*model, int) {
	t := *m
	node := m.g.Down[pipe]
	place, height := m.site.Network.Nodes[node].At, m.g.Elevation(node)
	t.access = append(slices.Clone(m.access), modelAccess{node: node, size: m.pipes[pipe].size, trial: true, trialPipe: pipe})
	t.spots = slices.Clone(m.spots)
	for i := range t.spots {
		s := &t.spots[i]
		across := math.Hypot(float64(s.spot.At.X-place.X), float64(s.spot.At.Y-place.Y))
		rise := math.Abs(float64(s.spot.Elevation - height))
		s.lay = append(slices.Clone(s.lay), unit.Length(across+rise))
	}
	return &t, len(t.access) - 1
}

// withHose makes a hose longer.
func (m *model) withHose(hose int, by unit.Length) *model {
	t, s := *m, *m.site
	s.Rig.Hoses = slices.Clone(s.Rig.Hoses)
	s.Rig.Hoses[hose].Length += by
	t.site, t.ops = &s, newOperations(&s.Rig)
	return &t
}

// wayFromTrial is the way from a trial cleanout up to a pipe.
func (m *model) wayFromTrial(access, pipe int) []int {
	var up []int
	for p := pipe; p >= 0 && len(up) <= len(m.pipes); p = m.g.Next[p] {
		up = append(up, p)
		if p == m.access[access].trialPipe {
			slices.Reverse(up)
			return up
		}
	}
	return nil
}

// reachFrom lists the pipes above an access that some hose of the rig may work.
func (m *model) reachFrom(access, first int) map[int]bool {
	out := map[int]bool{}
	for h := range m.site.Rig.Hoses {
		w, broken := m.enter(access, h, first)
		stack := []way{w}
		if len(broken) > 0 {
			continue
		}
		for len(stack) > 0 {
			w := stack[len(stack)-1]
			stack = stack[:len(stack)-1]
			if m.spotsFor(w) == 0 {
				continue
			}
			out[w.pipe] = true
			for _, q := range m.above[w.pipe] {
				if next, broken := m.step(w, q); len(broken) == 0 {
					stack = append(stack, next)
				}
			}
		}
	}
	return out
}
