// Package rig models the jetter: pump, tank, hoses, nozzles and the crew's
// pace, and the physics that decides how far a nozzle pulls its hose.
//
// A [Rig] is plain data. The functions are pure: hose loss by Darcy-Weisbach
// with Colebrook, the operating point of pump, hose and nozzle together,
// thrust, drag along a path and the reach that follows, partial-flow carry,
// stroke timing and the tank. The package knows no network and no file.
package rig

import (
	"slices"

	"linemap/internal/unit"
)

// Rig is one machine with its hoses, nozzles and crew.
type Rig struct {
	Name   string     `json:"name"`
	Pump   Pump       `json:"pump"`
	Tank   Tank       `json:"tank"`
	Supply SupplyHose `json:"supply"`
	// Plumbing is the pipework between pump and reel, as a hose.
	Plumbing Plumbing         `json:"plumbing,omitzero"`
	Water    unit.Temperature `json:"water_temperature"`
	Hoses    []Hose           `json:"hoses"`
	Nozzles  []Nozzle         `json:"nozzles"`
	Crew     Crew             `json:"crew"`
	Note     string           `json:"note,omitzero"`
}

// Pump is a positive-displacement pump with an unloader valve.
type Pump struct {
	// Flow is the rated flow, delivered until the pressure reaches Unloader.
	Flow unit.Flow `json:"flow"`
	// Rated is the pump's rated pressure; Unloader the setting in force, at
	// most Rated.
	Rated    unit.Pressure `json:"rated"`
	Unloader unit.Pressure `json:"unloader"`
}

// Tank is the water tank on the trailer.
type Tank struct {
	Volume unit.Volume `json:"volume"`
	// Start is the least level to start the engine with, Stop the level at
	// which it must stop.
	Start unit.Volume `json:"start"`
	Stop  unit.Volume `json:"stop"`
	// Drain is the flow at which the tank is dumped before towing.
	Drain unit.Flow `json:"drain"`
	// ArrivesFull says that the trailer comes to the site with a full tank.
	ArrivesFull bool `json:"arrives_full,omitzero"`
}

// SupplyHose fills the tank from a water point.
type SupplyHose struct {
	Length unit.Length `json:"length"`
	// MaxFlow is the most that the fill (hose, float valve, backflow
	// preventer) lets in; 0 means the water point's own flow.
	MaxFlow unit.Flow `json:"max_flow,omitzero"`
}

// Plumbing is the pipework between pump and reel.
type Plumbing struct {
	Bore   unit.Length `json:"bore"`
	Length unit.Length `json:"length"`
}

// Hose is a jet hose on its reel.
type Hose struct {
	ID        string        `json:"id"`
	Name      string        `json:"name"`
	Bore      unit.Length   `json:"bore"`
	Roughness unit.Length   `json:"roughness,omitzero"` // 0 means DefaultRoughness
	Length    unit.Length   `json:"length"`
	Reserve   unit.Length   `json:"reserve"` // stays on the reel
	Working   unit.Pressure `json:"working_pressure"`
	// Mass is the mass of the empty hose per length, MassSpread the share by
	// which it may be off (0.1 is 10 %). Water is added by the physics.
	Mass       unit.LinearMass `json:"mass"`
	MassSpread float64         `json:"mass_spread,omitzero"`
	MinPipe    unit.Size       `json:"min_pipe"`
	MaxPipe    unit.Size       `json:"max_pipe"`
	// Bends is the bend allowance of one run in quarter-bend equivalents.
	Bends float64 `json:"bends"`
	// Sharpest is the sharpest single turn the hose takes, BranchTurn the
	// largest deflection into a branch that it can be steered into.
	Sharpest   unit.Angle `json:"sharpest"`
	BranchTurn unit.Angle `json:"branch_turn"`
}

// Purpose is what a nozzle is for.
type Purpose string

// The purposes.
const (
	Pulling     Purpose = "pulling"
	Penetrating Purpose = "penetrating"
	Flushing    Purpose = "flushing"
	Spinning    Purpose = "spinning"
	RootCutting Purpose = "root_cutting"
)

// Purposes lists every purpose.
func Purposes() []Purpose {
	return []Purpose{Pulling, Penetrating, Flushing, Spinning, RootCutting}
}

// Nozzle is a jet nozzle.
type Nozzle struct {
	ID       string    `json:"id"`
	Name     string    `json:"name"`
	Purposes []Purpose `json:"purposes"`
	Orifices []Orifice `json:"orifices"`
	// Discharge is the coefficient Cd of its orifices.
	Discharge float64   `json:"discharge"`
	Mass      unit.Mass `json:"mass"`
	MinPipe   unit.Size `json:"min_pipe"`
	MaxPipe   unit.Size `json:"max_pipe"`
}

// Facing is the way an orifice looks.
type Facing string

// The ways an orifice looks: back along the hose, or ahead.
const (
	Rear  Facing = "rear"
	Front Facing = "front"
)

// Orifice is a set of equal holes.
type Orifice struct {
	Count    int         `json:"count"`
	Diameter unit.Length `json:"diameter"`
	// Angle is measured from the hose's axis: 0 looks straight back or ahead.
	Angle  unit.Angle `json:"angle"`
	Facing Facing     `json:"facing"`
}

// Crew is the crew's pace. Minutes are decimal.
type Crew struct {
	People int `json:"people"`
	// SetUp is charged once for each stay at a spot: level, chock, cone, run
	// out the supply hose. PackUp is its opposite.
	SetUp  float64 `json:"set_up_minutes"`
	PackUp float64 `json:"pack_up_minutes"`
	// Move is the tow from one spot to another, before filling or draining,
	// plus distance at TowSpeed.
	Move     float64    `json:"move_minutes"`
	TowSpeed unit.Speed `json:"tow_speed"`
	// Open is to open, guard and close an access that names no time itself.
	Open float64 `json:"open_minutes"`
	// Lay is the speed of dragging hose from the reel to an access.
	Lay unit.Speed `json:"lay_speed"`
	// RunStart is charged for each run: mount the first nozzle, feed it in,
	// check the counter. NozzleChange for each further nozzle of the run,
	// HoseChange for swapping reels at one spot.
	RunStart     float64 `json:"run_start_minutes"`
	NozzleChange float64 `json:"nozzle_change_minutes"`
	HoseChange   float64 `json:"hose_change_minutes"`
	// Travel is the speed over pipe that is not worked on, out or back.
	Travel unit.Speed `json:"travel_speed"`
	// Stroke is the length of one stroke forward; the nozzle comes back half
	// of it. Forward and Back are the speeds of the two.
	Stroke  unit.Length `json:"stroke"`
	Forward unit.Speed  `json:"forward_speed"`
	Back    unit.Speed  `json:"back_speed"`
	// Downstream is the share of extra time for work in a downstream run,
	// 0.5 for half as much again.
	Downstream float64 `json:"downstream_extra"`
	// Shift is the time that the crew works in one day, 0 for as long as it
	// takes. The plan goes on the next day where it stopped.
	Shift float64 `json:"shift_minutes,omitzero"`
}

// Clone returns a copy that shares nothing with r.
func (r Rig) Clone() Rig {
	r.Hoses, r.Nozzles = slices.Clone(r.Hoses), slices.Clone(r.Nozzles)
	for i := range r.Nozzles {
		n := &r.Nozzles[i]
		n.Purposes, n.Orifices = slices.Clone(n.Purposes), slices.Clone(n.Orifices)
	}
	return r
}
