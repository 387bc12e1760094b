package edit

import (
	"math"
	"slices"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// Move moves what is selected on the plan, by X east and by Y north. A pipe
// moves with both its ends and all its corners, and so do the corners of a pipe
// or a lay both of whose ends move. A length or an invert that was measured
// stays as it was measured. Locked underlays stay where they are; it errs where
// only such are selected, and where something would leave the plan.
func Move(s *site.Site, sel Selection, by network.Point) (*Edit, error) {
	return carry("move", s, sel, motion{to: shift(by)})
}

func shift(by network.Point) func(network.Point) network.Point {
	return func(p network.Point) network.Point { return network.Point{X: p.X + by.X, Y: p.Y + by.Y} }
}

// motion says where things go: every place, and by how much a picture turns
// with it.
type motion struct {
	to   func(network.Point) network.Point
	turn unit.Angle
}

// at is where a place goes.
func (m motion) at(p network.Point) network.Point {
	q := m.to(p)
	if q == p {
		return p
	}
	return network.Point{X: tidy(q.X), Y: tidy(q.Y)}
}

func (m motion) way(via []network.Point) []network.Point {
	moved := slices.Clone(via)
	for i := range moved {
		moved[i] = m.at(moved[i])
	}
	return moved
}

// carry takes what is selected along a motion.
func carry(verb string, s *site.Site, sel Selection, m motion) (*Edit, error) {
	sel, err := unlocked(s, sel)
	if err != nil {
		return nil, err
	}
	name, err := called(verb, s, sel)
	if err != nil {
		return nil, err
	}
	return Make(name, s, func(d *Draft) error {
		c := carrier{draft: d, sel: sel, motion: m, moved: map[Ref]bool{}}
		c.network()
		c.ground()
		c.lays()
		c.remarks()
		return c.err
	})
}

// carrier is a motion at work.
type carrier struct {
	draft *Draft
	sel   Selection
	motion
	// moved are the things that a lay can lead to and that go along.
	moved map[Ref]bool
	err   error // the first thing that would leave the plan
}

// network moves nodes, and pipes with their ends.
func (c *carrier) network() {
	net := &c.draft.site.Network
	for i := range net.Pipes {
		if p := &net.Pipes[i]; c.sel.Has(PipeRef(p.ID)) {
			c.moved[NodeRef(p.From)], c.moved[NodeRef(p.To)] = true, true
		}
	}
	for i := range net.Nodes {
		n := net.Nodes[i]
		if r := NodeRef(n.ID); c.sel.Has(r) || c.moved[r] {
			c.moved[r] = true
			if c.point(&n.At, n.Name) {
				set(c.draft, nodesOf, i, n)
			}
		}
	}
	for i := range net.Pipes {
		p := net.Pipes[i]
		if c.moved[NodeRef(p.From)] && c.moved[NodeRef(p.To)] && c.corners(&p.Via, p.Name) {
			set(c.draft, pipesOf, i, p)
		}
	}
}

// ground moves spots, water points and areas.
func (c *carrier) ground() {
	s := c.draft.site
	for i := range s.Spots {
		v := s.Spots[i]
		if r := SpotRef(v.ID); c.sel.Has(r) {
			c.moved[r] = true
			if c.point(&v.At, func() string { return spotName(&v) }) {
				c.draft.SetSpot(i, v)
			}
		}
	}
	for i := range s.Water {
		v := s.Water[i]
		if r := WaterRef(v.ID); c.sel.Has(r) {
			c.moved[r] = true
			if c.point(&v.At, func() string { return waterName(&v) }) {
				c.draft.SetWater(i, v)
			}
		}
	}
	for i := range s.Areas {
		if v := s.Areas[i]; c.sel.Has(AreaRef(v.ID)) && c.corners(&v.Outline, v.Name) {
			c.draft.SetArea(i, v)
		}
	}
}

func (c *carrier) lays() {
	s := c.draft.site
	for i := range s.Lays {
		l := s.Lays[i]
		end := NodeRef(l.Access)
		if l.Water != "" {
			end = WaterRef(l.Water)
		}
		along := c.moved[SpotRef(l.Spot)] && c.moved[end]
		if (along || c.sel.Has(LayRef(&l))) && c.corners(&l.Via, layName) {
			c.draft.SetLay(i, l)
		}
	}
}

// remarks moves notes and underlays.
func (c *carrier) remarks() {
	s := c.draft.site
	for i := range s.Notes {
		v := s.Notes[i]
		if c.sel.Has(NoteRef(v.ID)) && c.point(&v.At, func() string { return noteName(&v) }) {
			c.draft.SetNote(i, v)
		}
	}
	for i := range s.Underlays {
		v := s.Underlays[i]
		if !c.sel.Has(UnderlayRef(v.ID)) {
			continue
		}
		was := v
		c.point(&v.At, func() string { return underlayName(&v) })
		if c.turn != 0 {
			v.Turn = whole(v.Turn + c.turn)
		}
		if v.At != was.At || v.Turn != was.Turn {
			c.draft.SetUnderlay(i, v)
		}
	}
}

// whole brings an angle into one whole turn, from 0.
func whole(a unit.Angle) unit.Angle {
	a = unit.Angle(math.Mod(a.Radians(), 2*math.Pi))
	if a < 0 {
		a += 2 * math.Pi
	}
	return a
}

// point moves a place of a named thing, and reports whether it is another now.
func (c *carrier) point(at *network.Point, name func() string) bool {
	was := *at
	*at = c.at(was)
	c.hold(*at, name)
	return *at != was
}

func (c *carrier) corners(via *[]network.Point, name func() string) bool {
	was := *via
	*via = c.way(was)
	for _, p := range *via {
		c.hold(p, name)
	}
	return !slices.Equal(*via, was)
}

func (c *carrier) hold(p network.Point, name func() string) {
	if c.err == nil && !onPlan(p) {
		c.err = offPlan(name(), p, c.draft.site.Units)
	}
}
