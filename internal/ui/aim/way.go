package aim

import (
	"linemap/internal/network"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

// touching is how near two places are that are one.
const touching = unit.Length(0.001)

// WayAt is what the angle of a leg that begins at an anchor is counted from: the
// way of the pipe that ends there, or that of one that is met; nil for none.
func (x *Index) WayAt(a edit.Anchor) *Way {
	f, ok := x.find(a.At, a.Level, touching, func(r edit.Ref) bool {
		return r.Kind == edit.Pipe && (a.Pipe == "" || r == edit.PipeRef(a.Pipe))
	})
	if !ok || a.Node == "" && a.Pipe == "" {
		return nil
	}
	t := &x.things[f.leg.thing]
	heading, ok := Along(t.leg(f.leg.i))
	if !ok {
		return nil
	}
	if n, ok := x.find(a.At, a.Level, touching, func(r edit.Ref) bool { return r == edit.NodeRef(a.Node) }); ok {
		node := x.things[n.leg.thing].of
		if out := x.out[node]; out == out {
			if x.nodes[node].Kind == network.KindCap {
				return &Way{Heading: out}
			}
			heading = out
		}
	}
	return &Way{Heading: heading, Of: x.pipes[t.of].Name()}
}

// Joined is the anchor at a place: at the node there, else at the pipe, else at
// nothing.
func (x *Index) Joined(at network.Point, level string, skip func(edit.Ref) bool) edit.Anchor {
	return x.Snap(Sight{At: at, Level: level, Within: touching, Exact: true, Skip: skip}).Anchor
}

// has reports whether a thing is at a place.
func (x *Index) has(r edit.Ref, at network.Point, level string) bool {
	_, ok := x.find(at, level, touching, func(o edit.Ref) bool { return o == r })
	return ok
}

// Still is an anchor as it holds for the site as it now stands: what it joined
// may have gone, and something else come to its place.
func (x *Index) Still(a edit.Anchor) edit.Anchor {
	switch {
	case a.Node != "" && x.has(edit.NodeRef(a.Node), a.At, a.Level),
		a.Pipe != "" && x.has(edit.PipeRef(a.Pipe), a.At, a.Level):
		return a
	}
	return x.Joined(a.At, a.Level, nil)
}
