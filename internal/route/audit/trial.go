package audit

import (
	"slices"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

func (c *checker) resurvey(s *site.Site) *ground { return survey(s, c.tables, &report{}) }

// withLongerHose adds to a hose.
func (c *checker) withLongerHose(id string, by unit.Length) *ground {
	s := *c.site
	s.Rig.Hoses = slices.Clone(s.Rig.Hoses)
	for i := range s.Rig.Hoses {
		if s.Rig.Hoses[i].ID == id {
			s.Rig.Hoses[i].Length += by
			return c.resurvey(&s)
		}
	}
	return nil
}

// trialID ends the name of what a trial adds. Such a name sorts beside the one
// that it begins with, so that flow which goes by names goes as before.
const trialID = "\x00trial"

// withSpotNear adds a spot as near to an access, or to every access where none
// is told, with water.
func (c *checker) withSpotNear(id network.NodeID, lay unit.Length) *ground {
	s := *c.site
	s.Spots, s.Lays, s.Water = slices.Clone(s.Spots), slices.Clone(s.Lays), slices.Clone(s.Water)
	var flow unit.Flow
	for _, w := range s.Water {
		flow = max(flow, w.Flow)
	}
	added := false
	for i := range c.net.Nodes {
		n := &c.net.Nodes[i]
		if !c.isAccess(i) || id != "" && n.ID != id {
			continue
		}
		added = true
		name := string(n.ID) + trialID
		height, _ := c.height(i)
		s.Spots = append(s.Spots, site.Spot{ID: site.SpotID(name), At: n.At, Elevation: height + n.Access.Riser})
		s.Lays = append(s.Lays, site.Lay{Spot: site.SpotID(name), Access: n.ID, Length: &lay})
		if flow > 0 {
			s.Water = append(s.Water, site.WaterPoint{ID: site.WaterID(name), At: n.At, Flow: flow})
		}
	}
	if !added {
		return nil
	}
	return c.resurvey(&s)
}

// cleanoutEntry is the turn of a hose out of a new cleanout: a wye.
var cleanoutEntry = unit.Degrees(45)

// withCleanout cuts a pipe at a distance from its upstream end and puts a
// cleanout in that faces upstream and is as large as the pipe. The part below
// gets a name of its own.
func (c *checker) withCleanout(id network.PipeID, at unit.Length) *ground {
	i, ok := c.pipe[id]
	if !ok || at < 0 || float64(at) > float64(c.pipes[i].length)+hair {
		return nil
	}
	up, down := c.graph.Up[i], c.graph.Down[i]
	if up < 0 || down < 0 {
		return nil
	}
	s := *c.site
	s.Network.Nodes, s.Network.Pipes = slices.Clone(c.net.Nodes), slices.Clone(c.net.Pipes)
	line := c.drawn(i)
	cut, k := pointAlong(line, float64(at/c.pipes[i].length))
	cleanout := network.Node{
		ID: c.net.Nodes[down].ID + trialID, Kind: network.KindAccess, At: cut, Level: c.net.Nodes[down].Level,
		Access: &network.Access{
			Kind: network.OneWayCleanout, Facing: network.FacesUpstream,
			Size: c.pipes[i].Size, Entry: cleanoutEntry,
		},
	}
	if high, low := c.net.Nodes[up].Invert, c.net.Nodes[down].Invert; low != nil {
		invert := *low
		if high != nil && c.pipes[i].length > 0 {
			invert = *high + (*low-*high)*at/c.pipes[i].length
		}
		cleanout.Invert = &invert
	}
	s.Network.Nodes = append(s.Network.Nodes, cleanout)

	above, below := *c.pipes[i].Pipe, *c.pipes[i].Pipe
	rest := max(0, c.pipes[i].length-at)
	above.From, above.To, above.Via, above.Length = c.net.Nodes[up].ID, cleanout.ID, inner(line, 1, k), &at
	below.ID, below.From, below.To = id+trialID, cleanout.ID, c.net.Nodes[down].ID
	below.Via, below.Length = inner(line, k, len(line)-1), &rest
	below.OutOfJob = below.OutOfJob || rest <= hair
	s.Network.Pipes[i] = above
	s.Network.Pipes = append(s.Network.Pipes, below)
	s.Network.Nodes[down].Junction = renamed(c.net.Nodes[down].Junction, id)
	return c.resurvey(&s)
}

// inner copies the points of a line from one index up to another.
func inner(line []network.Point, from, to int) []network.Point {
	if from >= to {
		return nil
	}
	return slices.Clone(line[from:to])
}

// renamed is a junction whose branch goes by the trial's name now.
func renamed(j *network.Junction, id network.PipeID) *network.Junction {
	if j == nil {
		return nil
	}
	out := *j
	out.Branches = slices.Clone(j.Branches)
	for i := range out.Branches {
		if out.Branches[i] == id {
			out.Branches[i] = id + trialID
		}
	}
	return &out
}

// pointAlong is the point at a share of a line, and the index of the first
// point at or beyond it.
func pointAlong(line []network.Point, share float64) (network.Point, int) {
	last := len(line) - 1
	if !(share < 1) {
		return line[last], last
	}
	left := float64(plan(line)) * share
	for i := 1; i < len(line); i++ {
		d := float64(straight(line[i-1], line[i]))
		if d > 0 && left <= d {
			a, b, f := line[i-1], line[i], unit.Length(left/d)
			return network.Point{X: a.X + (b.X-a.X)*f, Y: a.Y + (b.Y-a.Y)*f}, i
		}
		left -= d
	}
	return line[last], last
}
