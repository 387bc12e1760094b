package network

import (
	"cmp"
	"slices"
)

// Gravity ranks a finding.
type Gravity string

// The gravities. An error must be mended before the plan can be trusted.
const (
	Error   Gravity = "error"
	Warning Gravity = "warning"
	Advice  Gravity = "advice"
)

// Finding is one thing that is wrong, or looks wrong, with a sketch.
type Finding struct {
	Gravity Gravity `json:"gravity"`
	// Kind is a stable key such as "adverse_slope".
	Kind string `json:"kind"`
	// Node or Pipe is the place; Place names it by its label for a reader.
	Node  NodeID `json:"node,omitzero"`
	Pipe  PipeID `json:"pipe,omitzero"`
	Place string `json:"place"`
	// What says what is wrong in one sentence; Value and Limit are the figure
	// found and the figure allowed, with their units, where there are any.
	What  string `json:"what"`
	Value string `json:"value,omitzero"`
	Limit string `json:"limit,omitzero"`
	// Source names where the limit comes from.
	Source string `json:"source,omitzero"`
	// Cure says what to do about it.
	Cure string `json:"cure,omitzero"`
}

// SortFindings puts the worst first, then sorts by place; findings of one
// place stand by kind.
func SortFindings(f []Finding) {
	rank := map[Gravity]int{Error: 0, Warning: 1, Advice: 2}
	slices.SortStableFunc(f, func(a, b Finding) int {
		return cmp.Or(
			rank[a.Gravity]-rank[b.Gravity],
			cmp.Compare(a.Place, b.Place),
			cmp.Compare(a.Node, b.Node),
			cmp.Compare(a.Pipe, b.Pipe),
			cmp.Compare(a.Kind, b.Kind),
			cmp.Compare(a.What, b.What),
			cmp.Compare(a.Value, b.Value),
		)
	})
}

// atNode starts a finding at a node.
func (g *Graph) atNode(node int, gravity Gravity, kind string) Finding {
	return Finding{Gravity: gravity, Kind: kind, Node: g.Net.Nodes[node].ID, Place: g.NodeName(node)}
}

// atPipe starts a finding at a pipe.
func (g *Graph) atPipe(p int, gravity Gravity, kind string) Finding {
	return Finding{Gravity: gravity, Kind: kind, Pipe: g.Net.Pipes[p].ID, Place: g.PipeName(p)}
}

// findings is a list of findings in the making.
type findings []Finding

// add notes a finding: its place, gravity and kind from where, the rest from f.
func (l *findings) add(where, f Finding) {
	f.Gravity, f.Kind, f.Node, f.Pipe, f.Place = where.Gravity, where.Kind, where.Node, where.Pipe, where.Place
	*l = append(*l, f)
}

// sorted is the list as [SortFindings] orders it.
func (l *findings) sorted() []Finding {
	SortFindings(*l)
	return *l
}
