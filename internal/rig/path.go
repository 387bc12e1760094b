package rig

import "linemap/internal/unit"

// Range is a figure with its spread.
type Range struct {
	Low    float64 `json:"low"`
	Likely float64 `json:"likely"`
	High   float64 `json:"high"`
}

// Case picks one figure of every [Range]. A low reach takes the high friction
// and the heavy hose.
type Case int

// The cases.
const (
	LowReach Case = iota
	LikelyReach
	HighReach
)

// Step is one piece of a hose's way from the access to the nozzle: a straight
// of some length, or a turn (Length 0), or both, the turn first.
type Step struct {
	Length unit.Length
	// Climb is the angle above level, going away from the access.
	Climb unit.Angle
	Turn  unit.Angle
	// Friction of the hose on this pipe. Low is the small figure.
	Friction Range
}

// Operating is the state in which pump, hose and nozzle agree.
type Operating struct {
	Flow   unit.Flow     `json:"flow"`
	Pump   unit.Pressure `json:"pump_pressure"`
	Nozzle unit.Pressure `json:"nozzle_pressure"`
	Loss   unit.Pressure `json:"loss"`
	// Thrust is the forward pull along the hose's axis; negative where the
	// front jets win.
	Thrust unit.Force `json:"thrust"`
}
