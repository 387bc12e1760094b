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
	// CleanoutSpacing and ManholeSpacing bound the way between two accesses. Of
	// the rows by nominal size the first whose UpTo is at least the size holds.
	CleanoutSpacing []SpacingRow `json:"cleanout_spacing"`
	ManholeSpacing  unit.Length  `json:"manhole_spacing,omitzero"`
	// DirectionChange is the aggregate turn between accesses above which an
	// access is asked for, 0 where the code sets none. DirectionReach is how
	// much pipe one access may serve past such turns, 0 for no limit.
	DirectionChange unit.Angle  `json:"direction_change,omitzero"`
	DirectionReach  unit.Length `json:"direction_reach,omitzero"`
	// MinSlope is the least fall, by rows as above.
	MinSlope []SlopeRow `json:"min_slope"`
	Source   string     `json:"source"`
}

// Row is a figure that holds for pipe up to a nominal size.
type Row[T ~float64] struct {
	UpTo   unit.Size `json:"up_to"`
	Limit  T         `json:"limit"`
	Source string    `json:"source"`
}

// SpacingRow is an access spacing, SlopeRow a least slope.
type (
	SpacingRow = Row[unit.Length]
	SlopeRow   = Row[unit.Slope]
)

// rowFor returns the first row that holds for a size.
func rowFor[T ~float64](rows []Row[T], s unit.Size) (Row[T], bool) {
	for _, row := range rows {
		if s <= row.UpTo {
			return row, true
		}
	}
	return Row[T]{}, false
}
