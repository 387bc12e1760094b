// Package network models the drain: a graph of nodes and pipes, its geometry,
// the direction it flows and what is wrong with it.
//
// A [Network] is plain data, as sketched. [Trace] works out which way every
// pipe flows and gives the [Graph] that the other packages walk. The package
// knows no rig, no file and no screen; every function is pure.
//
// Start with [Trace]. In its Graph, nodes and pipes are plain indexes: Next
// leads from pipe to pipe down to the outlet, Above lists what flows into a
// node, and [Graph.Passage] tells what a hose meets between two pipes, going
// either way. [Graph.Length], [Graph.Corners] and [Graph.Climb] measure a pipe.
//
// What is wrong with a sketch comes as [Finding] values, from Trace for the flow
// and from [Graph.Findings] for all else. Both take any network: a half-drawn
// one gives findings, never a failure.
//
// Tests write networks in one line with package sketch below this one.
package network

import "linemap/internal/unit"

// NodeID names a node within one network. It never changes; labels do.
type NodeID string

// PipeID names a pipe within one network.
type PipeID string

// Network is a drain as it was sketched. The order of nodes and pipes carries
// no meaning.
type Network struct {
	Levels []Level `json:"levels,omitzero"`
	Nodes  []Node  `json:"nodes"`
	Pipes  []Pipe  `json:"pipes"`
}

// Level is a storey or a yard: a name and the height of its pipes above the
// site's datum.
type Level struct {
	Name      string      `json:"name"`
	Elevation unit.Length `json:"elevation"`
}

// Point is a place on the plan, in metres east and north of the site's origin.
type Point struct {
	X unit.Length `json:"x"`
	Y unit.Length `json:"y"`
}

// NodeKind tells what a node is.
type NodeKind string

// The kinds of node.
const (
	KindAccess    NodeKind = "access"
	KindBend      NodeKind = "bend"
	KindJunction  NodeKind = "junction"
	KindFixture   NodeKind = "fixture"
	KindTrap      NodeKind = "trap"
	KindReducer   NodeKind = "reducer"
	KindBackwater NodeKind = "backwater_valve"
	KindOutlet    NodeKind = "outlet"
	KindCap       NodeKind = "cap"
)

// Node is a point of the network. Exactly the member that its kind calls for
// is set: Access for an access, Junction for a junction.
type Node struct {
	ID    NodeID   `json:"id"`
	Label string   `json:"label,omitzero"`
	Kind  NodeKind `json:"kind"`
	At    Point    `json:"at"`
	Level string   `json:"level,omitzero"`
	// Invert is the height of the inside bottom of the pipe above the datum,
	// nil where it was not measured.
	Invert *unit.Length `json:"invert,omitzero"`
	// Turn is the whole angle that a bend turns the hose, or that a trap does
	// where it lets a hose through.
	Turn unit.Angle `json:"turn,omitzero"`
	// LetsThrough says that a hose can pass this trap or backwater valve
	// (opened, flap tied up). Others stop every hose.
	LetsThrough bool      `json:"lets_through,omitzero"`
	Access      *Access   `json:"access,omitzero"`
	Junction    *Junction `json:"junction,omitzero"`
	Note        string    `json:"note,omitzero"`
}

// AccessKind tells what sort of opening an access is.
type AccessKind string

// The kinds of access.
const (
	OneWayCleanout AccessKind = "cleanout_one_way"
	TwoWayCleanout AccessKind = "cleanout_two_way"
	Manhole        AccessKind = "manhole"
	PulledFixture  AccessKind = "pulled_fixture"
	RoofVent       AccessKind = "roof_vent"
	CatchBasin     AccessKind = "catch_basin"
)

// Facing is the way a one-way cleanout leads a hose.
type Facing string

// The ways a one-way cleanout can face: against the flow or with it.
const (
	FacesUpstream   Facing = "up"
	FacesDownstream Facing = "down"
)

// Access is an opening that a hose can enter.
type Access struct {
	Kind AccessKind `json:"kind"`
	// Facing matters only for a one-way cleanout.
	Facing Facing    `json:"facing,omitzero"`
	Size   unit.Size `json:"size"`
	Indoor bool      `json:"indoor,omitzero"`
	// OpenMinutes is the time to open and close it again, 0 for the crew's
	// ordinary pace.
	OpenMinutes float64 `json:"open_minutes,omitzero"`
	// Riser is the length from the opening down to the pipe, and Entry the
	// turn a hose makes from the riser into the pipe.
	Riser unit.Length `json:"riser,omitzero"`
	Entry unit.Angle  `json:"entry,omitzero"`
	Room  string      `json:"room,omitzero"`
	// OutOfService says that it may not be used: buried, seized, locked.
	OutOfService bool `json:"out_of_service,omitzero"`
}

// JunctionKind tells which fitting joins the pipes.
type JunctionKind string

// The kinds of junction.
const (
	Wye         JunctionKind = "wye"
	SanitaryTee JunctionKind = "sanitary_tee"
	Combination JunctionKind = "combination" // wye and 1/8 bend
	DoubleWye   JunctionKind = "double_wye"
	Cross       JunctionKind = "cross"
)

// Junction is the fitting at a node with three or four legs. Branches lists
// the legs that are branches, one for a wye, a tee and a combination, two for
// a double wye and a cross; the other two legs are the run of the fitting.
type Junction struct {
	Kind     JunctionKind `json:"kind"`
	Branches []PipeID     `json:"branches"`
}

// PipeClass is the trade's class of a pipe.
type PipeClass string

// The classes of pipe.
const (
	Lateral       PipeClass = "lateral"
	Branch        PipeClass = "branch"
	Main          PipeClass = "main"
	Stack         PipeClass = "stack"
	BuildingDrain PipeClass = "building_drain"
	BuildingSewer PipeClass = "building_sewer"
)

// Material is the pipe's material; true bores and friction go by it.
type Material string

// The materials with a table of bores.
const (
	PVC40    Material = "pvc_sch40"
	ABS40    Material = "abs_sch40"
	CastIron Material = "cast_iron_no_hub"
	Clay     Material = "clay"
	Concrete Material = "concrete"
)

// Deposit is what has to come out of a pipe.
type Deposit string

// The deposits.
const (
	NoDeposit    Deposit = "none"
	Grease       Deposit = "grease"
	Sediment     Deposit = "sediment"
	Scale        Deposit = "scale"
	Roots        Deposit = "roots"
	Ice          Deposit = "ice"
	HardStoppage Deposit = "hard_stoppage"
	UnknownDep   Deposit = "unknown"
)

// Severity is how bad a deposit is.
type Severity string

// The severities; the empty one reads as moderate.
const (
	Light    Severity = "light"
	Moderate Severity = "moderate"
	Heavy    Severity = "heavy"
)

// Pipe is one length of pipe between two nodes.
type Pipe struct {
	ID    PipeID `json:"id"`
	Label string `json:"label,omitzero"`
	// From and To are the ends as drawn; [Trace] finds which is upstream.
	From NodeID `json:"from"`
	To   NodeID `json:"to"`
	// Via are the corners traced between the ends, from From to To. Each is a
	// bend.
	Via      []Point   `json:"via,omitzero"`
	Size     unit.Size `json:"size"`
	Material Material  `json:"material"`
	// Length is the length as measured, nil for the length as drawn.
	Length *unit.Length `json:"length,omitzero"`
	// Slope is the fall per length where no inverts give it, nil for unknown.
	Slope    *unit.Slope `json:"slope,omitzero"`
	Class    PipeClass   `json:"class"`
	Deposit  Deposit     `json:"deposit,omitzero"`
	Severity Severity    `json:"severity,omitzero"`
	// Fragile pipe takes no more pressure at the nozzle than Ceiling.
	Fragile bool           `json:"fragile,omitzero"`
	Ceiling *unit.Pressure `json:"ceiling,omitzero"`
	// OutOfJob pipe is drawn, and passed through, but not cleaned.
	OutOfJob bool   `json:"out_of_job,omitzero"`
	Note     string `json:"note,omitzero"`
}
