package network

import "linemap/internal/unit"

// Bores maps a nominal size to the true bore of one material.
type Bores map[unit.Size]unit.Length

// Codes holds the code editions by key.
type Codes map[string]Code

// Code is what one edition of a plumbing code, or one jurisdiction, asks of a
// drain. It is data: a reader must always check the local code.
type Code struct {
	Name string `json:"name"`
	// CleanoutSpacing and ManholeSpacing bound the way between two accesses,
	// by nominal size: the first row whose UpTo is at least the size holds.
	CleanoutSpacing []SpacingRow `json:"cleanout_spacing"`
	ManholeSpacing  unit.Length  `json:"manhole_spacing,omitzero"`
	// DirectionChange is the aggregate turn between accesses above which an
	// access is asked for, 0 where the code sets none. DirectionReach is how
	// much pipe one access may serve past such turns, 0 for no limit.
	DirectionChange unit.Angle  `json:"direction_change,omitzero"`
	DirectionReach  unit.Length `json:"direction_reach,omitzero"`
	// MinSlope is the least fall by size, first row whose UpTo is at least the
	// size.
	MinSlope []SlopeRow `json:"min_slope"`
	Source   string     `json:"source"`
}

// SpacingRow is an access spacing for pipe up to a size.
type SpacingRow struct {
	UpTo   unit.Size   `json:"up_to"`
	Limit  unit.Length `json:"limit"`
	Source string      `json:"source"`
}

// SlopeRow is a least slope for pipe up to a size.
type SlopeRow struct {
	UpTo   unit.Size  `json:"up_to"`
	Limit  unit.Slope `json:"limit"`
	Source string     `json:"source"`
}
