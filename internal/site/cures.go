package site

import (
	"errors"
	"fmt"

	"linemap/internal/unit"
)

// CureRow holds the prices by which cures are compared, in the currency of no
// country: only their order matters.
type CureRow struct {
	NewCleanout  CleanoutRow `json:"new_cleanout"`
	NewSpot      float64     `json:"new_spot"`
	HosePerMetre float64     `json:"hose_per_metre"`
	SmallerHose  float64     `json:"smaller_hose"`
	// SteerableHose is a hose that is steered into a branch: hard to come by, so
	// that a cleanout goes first.
	SteerableHose float64 `json:"steerable_hose"`
	OtherNozzle   float64 `json:"other_nozzle"`
	StrongerRig   float64 `json:"stronger_rig"`
	ClearByHand   float64 `json:"clear_by_hand"`
	Source        string  `json:"source"`
}

// Lie is where a pipe lies: what has to be opened to get at it.
type Lie string

// Where a pipe lies.
const (
	InWall    Lie = "in_wall" // or under a ceiling: above the ground
	InYard    Lie = "in_yard"
	UnderSlab Lie = "under_slab"
)

// Lies lists where a pipe may lie.
func Lies() []Lie { return []Lie{InWall, InYard, UnderSlab} }

// CleanoutRow prices a new cleanout: what opening the place takes, what digging
// takes, and what the fitting takes by its size.
type CleanoutRow struct {
	Open map[Lie]OpenRow `json:"open"`
	// Of the fittings the first whose UpTo is at least the size holds.
	Fittings []FittingRow `json:"fittings"`
}

// OpenRow is the price of getting at a pipe and making good again.
type OpenRow struct {
	Price float64 `json:"price"`
	// PerMetre is added for every metre that the pipe lies deep.
	PerMetre float64 `json:"per_metre,omitzero"`
	Source   string  `json:"source"`
}

// FittingRow is the price of a fitting, with its riser and plug, up to a
// nominal size.
type FittingRow struct {
	UpTo  unit.Size `json:"up_to"`
	Price float64   `json:"price"`
}

// Price is that of a new cleanout on a pipe of a size that lies so, and so deep.
func (r *CleanoutRow) Price(lie Lie, depth unit.Length, sz unit.Size) float64 {
	open := r.Open[lie]
	price := open.Price + open.PerMetre*depth.Metres()
	for _, f := range r.Fittings {
		if sz <= f.UpTo {
			return price + f.Price
		}
	}
	return price
}

func (c *CureRow) check() error {
	for _, f := range []struct {
		name  string
		price float64
	}{
		{"new_spot", c.NewSpot},
		{"hose_per_metre", c.HosePerMetre},
		{"smaller_hose", c.SmallerHose},
		{"steerable_hose", c.SteerableHose},
		{"other_nozzle", c.OtherNozzle},
		{"stronger_rig", c.StrongerRig},
		{"clear_by_hand", c.ClearByHand},
	} {
		if !(f.price > 0) {
			return fmt.Errorf("%s is %v, must be above 0", f.name, f.price)
		}
	}
	if err := c.NewCleanout.check(); err != nil {
		return fmt.Errorf("new_cleanout: %w", err)
	}
	if c.Source == "" {
		return errors.New("source must be given")
	}
	return nil
}

func (r *CleanoutRow) check() error {
	if len(r.Open) != len(Lies()) {
		return fmt.Errorf("open has %d rows, must have one for each of %v", len(r.Open), Lies())
	}
	for _, lie := range Lies() {
		switch open, ok := r.Open[lie]; {
		case !ok:
			return fmt.Errorf("open: no row %s", lie)
		case !(open.Price > 0):
			return fmt.Errorf("open: price %s is %v, must be above 0", lie, open.Price)
		case !(open.PerMetre >= 0):
			return fmt.Errorf("open: per_metre %s is %v, must not be below 0", lie, open.PerMetre)
		case open.Source == "":
			return fmt.Errorf("open: %s must name its source", lie)
		}
	}
	sizes := make([]unit.Size, len(r.Fittings))
	for i, f := range r.Fittings {
		if sizes[i] = f.UpTo; !(f.Price > 0) {
			return fmt.Errorf("fittings: price up to %v in is %v, must be above 0", float64(f.UpTo), f.Price)
		}
	}
	if err := checkRise(sizes); err != nil {
		return fmt.Errorf("fittings: %w", err)
	}
	return nil
}
