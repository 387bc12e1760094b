package edit

import (
	"fmt"
	"math"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// reach is how far a place may lie from the site's origin, east or west, north
// or south, as the schema of the file has it.
const reach = unit.Length(100_000)

func onPlan(p network.Point) bool {
	return p.X >= -reach && p.X <= reach && p.Y >= -reach && p.Y <= reach
}

// offPlan says that a named thing would lie off the plan.
func offPlan(name string, p network.Point, units unit.System) error {
	return fmt.Errorf("%s would lie at %s east, %s north of the site's origin; a site reaches %s at most",
		name, units.Length(p.X), units.Length(p.Y), units.Length(reach))
}

// tidy brings a coordinate to the nanometre, so that a file says 0.3 and not
// 0.30000000000000004.
func tidy(l unit.Length) unit.Length {
	const perMetre = 1e9
	return unit.Length(math.Round(l.Metres()*perMetre) / perMetre)
}
