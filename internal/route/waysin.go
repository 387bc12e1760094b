package route

import (
	"cmp"
	"slices"

	"linemap/internal/unit"
)

// wayIn is a way from an access to a pipe and along it.
type wayIn struct {
	access int
	path   []int
	length unit.Length
}

// mostWaysIn is how many ways into one pipe are looked at, the shortest first.
const mostWaysIn = 64

// waysIn lists the ways into a pipe, against the flow and with it, in the order
// of the accesses. Ways much longer than any hose are left out, but for the
// shortest each way.
func (e *explainer) waysIn(pipe int) []wayIn {
	out := append(shortest(e.waysUp(pipe)), shortest(e.waysDown(pipe))...)
	slices.SortStableFunc(out, func(a, b wayIn) int { return cmp.Compare(a.access, b.access) })
	return out
}

func shortest(ways []wayIn) []wayIn {
	if len(ways) > mostWaysIn {
		slices.SortStableFunc(ways, func(a, b wayIn) int { return cmp.Compare(a.length, b.length) })
		ways = ways[:mostWaysIn]
	}
	return ways
}

// waysUp walks from a pipe to the outlet: every access on that way leads up to
// it.
func (e *explainer) waysUp(pipe int) (out []wayIn) {
	var up []int
	var length unit.Length
	for p := pipe; p >= 0 && !e.ring(p) && !slices.Contains(up, p); p = e.g.Next[p] {
		if up, length = append(up, p), length+e.pipes[p].length; length > e.farthest && len(out) > 0 {
			break
		}
		a, ok := e.at[e.g.Down[p]]
		if !ok || slices.ContainsFunc(out, func(w wayIn) bool { return w.access == a }) {
			continue
		}
		path := slices.Clone(up)
		slices.Reverse(path)
		out = append(out, wayIn{access: a, path: path, length: length})
	}
	return out
}

// waysDown walks up all that drains through a pipe: from every access there a
// hose comes down to it.
func (e *explainer) waysDown(pipe int) (out []wayIn) {
	if e.ring(pipe) {
		return nil
	}
	type todo struct {
		pipe, from int // from indexes the list; -1 for the pipe itself
		length     unit.Length
	}
	list, seen := []todo{{pipe, -1, e.pipes[pipe].length}}, map[int]bool{pipe: true}
	for i := 0; i < len(list); i++ {
		at := list[i]
		if at.length > e.farthest && len(out) > 0 {
			continue
		}
		if a, ok := e.at[e.g.Up[at.pipe]]; ok {
			var path []int
			for j := i; j >= 0; j = list[j].from {
				path = append(path, list[j].pipe)
			}
			out = append(out, wayIn{access: a, path: path, length: at.length})
		}
		for _, q := range e.above[at.pipe] {
			if !seen[q] {
				seen[q] = true
				list = append(list, todo{q, i, at.length + e.pipes[q].length})
			}
		}
	}
	return out
}
