package site

import (
	"linemap/internal/network"
	"linemap/internal/unit"
)

// Usable reports whether the trailer can stand at the spot: even ground, out
// of live traffic.
func (spot *Spot) Usable() bool { return !spot.Uneven && spot.Traffic != LiveTraffic }

// LayLength returns the length of jet hose on the ground from a spot to an
// access: as measured, else as drawn, else straight, and on top of it the
// difference in height between the spot's ground and the opening.
func (s *Site) LayLength(spot *Spot, n *network.Node) unit.Length {
	along := run(s.LayPath(spot, n))
	if l := s.lay(spot.ID, n.ID, ""); l != nil && l.Length != nil {
		along = *l.Length
	}
	return along + abs(s.opening(n)-spot.Elevation)
}

// LayPath returns the way of the jet hose on the plan from a spot to an
// access, both ends included.
func (s *Site) LayPath(spot *Spot, n *network.Node) []network.Point {
	return through(spot.At, s.lay(spot.ID, n.ID, ""), n.At)
}

// SupplyLength returns the length of supply hose from a water point to a spot:
// as measured, else as drawn, else straight.
func (s *Site) SupplyLength(spot *Spot, w *WaterPoint) unit.Length {
	l := s.lay(spot.ID, "", w.ID)
	if l != nil && l.Length != nil {
		return *l.Length
	}
	return run(s.SupplyPath(spot, w))
}

// SupplyPath returns the way of the supply hose on the plan from a spot to a
// water point, both ends included.
func (s *Site) SupplyPath(spot *Spot, w *WaterPoint) []network.Point {
	return through(spot.At, s.lay(spot.ID, "", w.ID), w.At)
}

// Inflow returns the best flow that fills the tank at a spot, and the water
// point that gives it: the strongest within the supply hose, the nearest of
// equals, held to what the fill lets in. It is 0 and nil where no water point
// is within reach.
func (s *Site) Inflow(spot *Spot) (unit.Flow, *WaterPoint) {
	var best *WaterPoint
	var flow unit.Flow
	var away unit.Length
	for i := range s.Water {
		w := &s.Water[i]
		length := s.SupplyLength(spot, w)
		if length > s.Rig.Supply.Length+hair {
			continue
		}
		in := s.FillFlow(w)
		if best == nil || in > flow || in == flow && (length < away || length == away && w.ID < best.ID) {
			best, flow, away = w, in, length
		}
	}
	return flow, best
}

// hair is far below what anyone can measure; it keeps a hose that just reaches
// from falling short by the rounding of a coordinate.
const hair = unit.Length(1e-6)

// FillFlow returns what a water point gives through the rig's fill.
func (s *Site) FillFlow(w *WaterPoint) unit.Flow {
	if most := s.Rig.Supply.MaxFlow; most > 0 {
		return min(w.Flow, most)
	}
	return w.Flow
}

// opening is the height of an access's opening above the datum.
func (s *Site) opening(n *network.Node) unit.Length {
	var riser unit.Length
	if n.Access != nil {
		riser = n.Access.Riser
	}
	if n.Invert != nil {
		return *n.Invert + riser
	}
	for i := range s.Network.Levels {
		if l := &s.Network.Levels[i]; l.Name == n.Level {
			return l.Elevation + riser
		}
	}
	return riser
}

// lay finds the lay between a spot and an access or a water point, nil where
// the straight line is open.
func (s *Site) lay(spot SpotID, access network.NodeID, water WaterID) *Lay {
	for i := range s.Lays {
		if l := &s.Lays[i]; l.Spot == spot && l.Access == access && l.Water == water {
			return l
		}
	}
	return nil
}

func through(from network.Point, l *Lay, to network.Point) []network.Point {
	way := []network.Point{from}
	if l != nil {
		way = append(way, l.Via...)
	}
	return append(way, to)
}

func run(way []network.Point) unit.Length {
	var sum unit.Length
	for i := 1; i < len(way); i++ {
		sum += way[i-1].Distance(way[i])
	}
	return sum
}

func abs(l unit.Length) unit.Length { return max(l, -l) }
