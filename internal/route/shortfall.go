package route

import (
	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// Reason is the rule that keeps a pipe from being cleaned.
type Reason string

// The reasons.
const (
	OverReel     Reason = "over_reel_length"
	OverBends    Reason = "over_bend_allowance"
	HoseTooLarge Reason = "hose_too_large"
	HoseTooSmall Reason = "hose_too_small"
	NoAccess     Reason = "no_access"
	TurnTooSharp Reason = "turn_too_sharp"
	BranchTurn   Reason = "branch_not_steerable"
	PullShort    Reason = "pull_short"
	NoNozzle     Reason = "no_nozzle"
	Blocked      Reason = "blocked"
	NoWater      Reason = "no_water"
	NoSpot       Reason = "no_spot"
	NoHose       Reason = "no_hose"
	// Reasons of a pipe that the planner would clean, were it not for decisions
	// made by hand.
	BarredByHand Reason = "barred_by_hand"
	KeptByHand   Reason = "kept_by_hand"
	LeftOut      Reason = "left_out_by_hand"
)

// Shortfall is a pipe of the job that no run covers, with the reason of the
// attempt that the cheapest cure would mend.
type Shortfall struct {
	Pipe   network.PipeID `json:"pipe"`
	Name   string         `json:"name"` // of the pipe, for a reader
	Size   unit.Size      `json:"size"`
	Length unit.Length    `json:"length"`
	Reason Reason         `json:"reason"`
	// Length, Bends, Force and Water say by how much, as the reason needs.
	ByLength unit.Length `json:"by_length,omitzero"`
	ByBends  float64     `json:"by_bends,omitzero"`
	ByForce  unit.Force  `json:"by_force,omitzero"`
	ByWater  unit.Volume `json:"by_water,omitzero"`
	ByAngle  unit.Angle  `json:"by_angle,omitzero"`
	// Spot, Hose and Access are the attempt; AtPipe and AtNode where it broke;
	// What is in the way there ("trap").
	Spot   site.SpotID    `json:"spot,omitzero"`
	Hose   string         `json:"hose,omitzero"`
	Access network.NodeID `json:"access,omitzero"`
	AtPipe network.PipeID `json:"at_pipe,omitzero"`
	AtNode network.NodeID `json:"at_node,omitzero"`
	What   string         `json:"what,omitzero"`
	// SpotName, HoseName, AccessName and AtName say the same for a reader.
	SpotName   string `json:"spot_name,omitzero"`
	HoseName   string `json:"hose_name,omitzero"`
	AccessName string `json:"access_name,omitzero"`
	AtName     string `json:"at_name,omitzero"`
	Cure       Cure   `json:"cure"`
}

// CureKind is a way to make a shortfall reachable.
type CureKind string

// The cures.
const (
	LongerHose  CureKind = "longer_hose"
	OtherSpot   CureKind = "other_spot"
	NewCleanout CureKind = "new_cleanout"
	SmallerHose CureKind = "other_hose"
	OtherNozzle CureKind = "other_nozzle"
	MoreWater   CureKind = "more_water"
	StrongerRig CureKind = "stronger_rig"
	ClearByHand CureKind = "clear_by_hand"
	// NotSought stands where planning was stopped before a cure was found.
	NotSought CureKind = "not_sought"
	FreeRun   CureKind = "free_run"
	OwnOrder  CureKind = "own_order"
)

// Cure is the cheapest way found to make a shortfall reachable; the planner
// has tried it on the same site.
type Cure struct {
	Kind CureKind `json:"kind"`
	// Length is the hose to add, or how near to the access a spot must be.
	Length unit.Length `json:"length,omitzero"`
	// Pipe and At place a new cleanout: At is the distance from the pipe's
	// upstream end.
	Pipe network.PipeID `json:"pipe,omitzero"`
	Name string         `json:"name,omitzero"` // of that pipe or run, for a reader
	At   unit.Length    `json:"at,omitzero"`
	// Gains is the length of the shortfalls' pipe that becomes reachable; for
	// another spot, and on a large site for a longer hose, through the access of
	// the shortfall alone.
	Gains unit.Length `json:"gains,omitzero"`
	// Run is the run to leave to the planner again; none where it takes more
	// than one.
	Run site.RunKey `json:"run,omitzero"`
}
