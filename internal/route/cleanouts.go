package route

import (
	"slices"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// Cleanout is a place for a new two-way cleanout, at the lower end of a pipe, what
// cutting it in takes, and the pipes that runs could clean from there that none
// reaches now.
type Cleanout struct {
	Pipe network.PipeID `json:"pipe"`
	Name string         `json:"name"` // of the pipe, for a reader
	At   unit.Length    `json:"at"`   // from the pipe's upper end
	Size unit.Size      `json:"size"`
	Lies site.Lie       `json:"lies"`
	// Depth is how deep the pipe lies, 0 in a wall and where nothing tells it.
	Depth unit.Length `json:"depth,omitzero"`
	// Price is by the tables of the trade, by which cures are compared.
	Price   float64          `json:"price"`
	Reaches []network.PipeID `json:"reaches"`
	Gains   unit.Length      `json:"gains"`
}

// Cleanouts lists, in the order of the pipes, every place for one new cleanout
// that lets runs reach pipe of the job that they do not reach: on such pipe, and
// on any within a hose's length of it.
func Cleanouts(s *site.Site, t *site.Tables) ([]Cleanout, error) {
	m, err := newModel(s, t)
	if err != nil {
		return nil, err
	}
	e := newExplainer(newCatalogue(m))
	for p := range e.pipes {
		e.missing[p] = e.pipes[p].target && !e.reachable[p]
	}
	var out []Cleanout
	for p, worth := range e.near() {
		if !worth || e.ring(p) {
			continue
		}
		g := e.gainBothWays(p)
		o := Cleanout{
			Pipe: s.Network.Pipes[p].ID, Name: e.g.PipeName(p), At: e.pipes[p].length - e.stub(p), Gains: g.length,
			Size: e.pipes[p].size, Lies: e.cutIn[p].lie, Depth: e.cutIn[p].depth, Price: e.cutIn[p].price,
		}
		for q := range g.reach {
			if e.missing[q] {
				o.Reaches = append(o.Reaches, s.Network.Pipes[q].ID)
			}
		}
		if slices.Sort(o.Reaches); len(o.Reaches) > 0 {
			out = append(out, o)
		}
	}
	return out, nil
}

// near marks the pipes from whose lower end a hose is long enough for one that
// is missing.
func (e *explainer) near() []bool {
	longest := unit.Length(0)
	for i := range e.site.Rig.Hoses {
		longest = max(longest, e.site.Rig.Hoses[i].Length)
	}
	// What is left of the longest hose past the lower end of a pipe, up the way
	// to the nearest that is missing and down it; below nothing for none.
	up, down := make([]unit.Length, len(e.pipes)), make([]unit.Length, len(e.pipes))
	for i := len(e.g.Order) - 1; i >= 0; i-- { // the uppermost first
		p := e.g.Order[i]
		if up[p] = max(up[p], 0); e.missing[p] {
			up[p] = longest
		}
		if next := e.g.Next[p]; next >= 0 {
			up[next] = max(up[next], up[p]-e.pipes[next].length)
		}
	}
	near := make([]bool, len(e.pipes))
	for _, p := range e.g.Order { // the lowest first
		if next := e.g.Next[p]; next >= 0 {
			if down[p] = down[next] - e.pipes[next].length; e.missing[next] {
				down[p] = longest
			}
		}
		near[p] = up[p] > 0 || down[p] > 0
	}
	return near
}

// stub is how far above the lower end of a pipe a new cleanout stands: in the
// place of a cap or a bend, else with room for its fitting.
func (m *model) stub(pipe int) unit.Length {
	switch m.site.Network.Nodes[m.g.Down[pipe]].Kind {
	case network.KindCap, network.KindBend:
		return 0
	}
	const room = unit.Length(0.3)
	return min(room, m.pipes[pipe].length/2)
}

// backAlong is the place at a share of a line from its end.
func backAlong(line []network.Point, share unit.Length) network.Point {
	left := share * network.WayLength(line)
	for i := len(line) - 1; i > 0; i-- {
		a, b := line[i], line[i-1]
		length := a.Distance(b)
		if left < length {
			return network.Point{X: a.X + left/length*(b.X-a.X), Y: a.Y + left/length*(b.Y-a.Y)}
		}
		left -= length
	}
	return line[0]
}

// gainBothWays measures what a two-way cleanout at the lower end of a pipe, with
// a riser up to the site's datum, adds to what is cleaned anyway.
func (e *explainer) gainBothWays(pipe int) gain {
	t, access := e.withCleanout(pipe)
	a, opening := &t.access[access], t.trialOpening(pipe)
	a.above, a.riser = e.stub(pipe), max(-*opening.Invert, 0)
	if whole := e.pipes[pipe].length; a.above > 0 {
		opening.At = backAlong(e.g.Polyline(pipe), a.above/whole)
	}
	*opening.Invert += a.riser
	a.near, _ = t.nearTo(opening)
	c := &catalogue{model: t, given: e.reachable}
	c.walkFrom(access)
	if next := e.g.Next[pipe]; next >= 0 && !e.ring(next) {
		for h := range e.site.Rig.Hoses {
			c.downstream(access, h, next)
		}
	}
	return c.gainOf(e.missing)
}

// Missed lists the pipes of the job that no run reaches, however long is
// searched, in the order of the pipes.
func Missed(s *site.Site, t *site.Tables) ([]network.PipeID, error) {
	m, err := newModel(s, t)
	if err != nil {
		return nil, err
	}
	c := newCatalogue(m)
	var out []network.PipeID
	for p := range c.pipes {
		if c.pipes[p].target && !c.reachable[p] {
			out = append(out, s.Network.Pipes[p].ID)
		}
	}
	return out, nil
}
