package network

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
