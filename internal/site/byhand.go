package site

import (
	"slices"

	"linemap/internal/network"
)

// RunKey tells one run from any other. It may name what is no longer there; it
// then stands for no run.
type RunKey struct {
	Spot   SpotID         `json:"spot"`
	Hose   string         `json:"hose"`
	Access network.NodeID `json:"access"`
	// End is the last pipe on the run's way.
	End network.PipeID `json:"end"`
	// Downstream says that the nozzle goes with the flow.
	Downstream bool `json:"downstream,omitzero"`
}

// ByHand is what was decided by hand about the runs.
type ByHand struct {
	// Keep are runs that every plan must make, Bar runs that none may make.
	Keep []RunKey `json:"keep,omitzero"`
	Bar  []RunKey `json:"bar,omitzero"`
	// Order lists all runs in the order in which they are to be made; empty for
	// the planner's own.
	Order []RunKey `json:"order,omitzero"`
}

// IsZero reports whether nothing was decided by hand.
func (h ByHand) IsZero() bool { return h.Keep == nil && h.Bar == nil && h.Order == nil }

// Clone returns a copy that shares nothing with h.
func (h ByHand) Clone() ByHand {
	return ByHand{Keep: slices.Clone(h.Keep), Bar: slices.Clone(h.Bar), Order: slices.Clone(h.Order)}
}
