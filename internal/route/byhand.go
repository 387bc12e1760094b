package route

import (
	"time"

	"linemap/internal/network"
	"linemap/internal/site"
)

// Key names the run of a block, as decisions made by hand name it.
func (r Run) Key(b *Block) site.RunKey {
	key := site.RunKey{Spot: b.Spot, Hose: b.Hose, Access: r.Access, Downstream: r.Direction == Downstream}
	if n := len(r.Path); n > 0 {
		key.End = r.Path[n-1].Pipe
	}
	return key
}

// Keys names all runs of the plan in order.
func (p *Plan) Keys() []site.RunKey {
	var out []site.RunKey
	for b := range p.Blocks {
		for i := range p.Blocks[b].Runs {
			out = append(out, p.Blocks[b].Runs[i].Key(&p.Blocks[b]))
		}
	}
	return out
}

// HandReport says what came of the decisions made by hand: what they cost,
// which stand for nothing, and which break a rule.
type HandReport struct {
	// Free is what the planner's own plan costs, without any decision by hand;
	// FreeProven says that no cheaper one exists. More is what the plan costs
	// beyond it, negative where it costs less.
	Free       time.Duration `json:"free_minutes"`
	FreeProven bool          `json:"free_proven,omitzero"`
	More       time.Duration `json:"more_minutes"`
	// Left are the pipes that only the decisions keep from being cleaned.
	Left []network.PipeID `json:"left,omitzero"`
	// Unknown are runs of which something is gone, or to whose end no way leads
	// from their access. What was decided about them is passed over.
	Unknown []site.RunKey `json:"unknown,omitzero"`
	Broken  []Breach      `json:"broken,omitzero"`
}

// Breach is a decision made by hand that breaks a rule.
type Breach struct {
	Key  site.RunKey `json:"run"`
	What BreachKind  `json:"what"`
	// Rule is the rule that keeps the run from being made, told as the
	// shortfall of its last pipe, without a cure; nil where What says all.
	Rule *Shortfall `json:"rule,omitzero"`
	// Other is the run that stands in the way.
	Other site.RunKey `json:"other,omitzero"`
	// Pipe is the lower pipe that is not clean yet, the pipe at which a run ends
	// that is cut short, or the one on its way that no run can clean.
	Pipe network.PipeID `json:"pipe,omitzero"`
}

// BreachKind is what is wrong with a decision made by hand.
type BreachKind string

// The kinds of breach. But for CutShort and NotLowestFirst the run is not made.
const (
	BreaksRule     BreachKind = "breaks_rule"
	SpotUnfit      BreachKind = "spot_cannot_be_used"
	AccessShut     BreachKind = "access_out_of_service"
	FacesAway      BreachKind = "access_faces_away"
	NotInJob       BreachKind = "not_in_job"
	OverUncleaned  BreachKind = "over_uncleaned_pipe"
	KeptAndBarred  BreachKind = "kept_and_barred"
	InTheWay       BreachKind = "other_run_in_the_way"
	OutOfWater     BreachKind = "out_of_water"
	OrderedBarred  BreachKind = "ordered_and_barred"
	KeptLeftOut    BreachKind = "kept_not_in_order"
	NothingLeft    BreachKind = "nothing_left_to_clean"
	CutShort       BreachKind = "cut_short"
	NotLowestFirst BreachKind = "not_lowest_first"
)

// Made tells whether the run is made all the same.
func (b *Breach) Made() bool { return b.What == CutShort || b.What == NotLowestFirst }

// PassedOver counts the decisions that are not heeded: those that stand for
// nothing, and those whose run is not made.
func (h *HandReport) PassedOver() int {
	n := len(h.Unknown)
	for i := range h.Broken {
		if !h.Broken[i].Made() {
			n++
		}
	}
	return n
}

func decided(h *site.ByHand) bool { return len(h.Keep)+len(h.Bar)+len(h.Order) > 0 }
