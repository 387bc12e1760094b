package edit

import (
	"fmt"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// cut is a pipe in two halves with a node between them: near from the pipe's
// From to the node, far from there to its To. One of them has the pipe's ID.
type cut struct {
	node      network.NodeID
	near, far network.PipeID
}

// split cuts a pipe at the place nearest to a point. The node between the halves
// is a bend; the caller makes something else of it. The downstream half keeps
// the pipe's ID, and what was decided by hand of the pipe goes on to hold.
func (d *Draft) split(pipe network.PipeID, at network.Point) (network.NodeID, error) {
	p, ok := d.Pipe(pipe)
	if !ok {
		return "", noPipe(pipe)
	}
	if network.WayLength(d.line(&p)) == 0 {
		return "", fmt.Errorf("%s is upright, and a place on the plan says nothing of where: draw a pipe to it, or place something on it, on a level between its ends", p.Name())
	}
	from, _ := d.Node(p.From)
	c, end, err := d.cut(p, at, from.Level)
	if err != nil {
		return "", err
	}
	if end != "" {
		n, _ := d.Node(end)
		return "", fmt.Errorf("%s ends there, at %s; split it between its ends", p.Name(), n.Name())
	}
	d.orient(c, flowing(d.trace(), c))
	return c.node, nil
}

// trace works out the flow of the network as it stands.
func (d *Draft) trace() *network.Graph {
	g, _ := network.Trace(&d.site.Network)
	return g
}

// cut cuts a pipe at the place nearest to a point; an upright pipe, which is a
// point on the plan, at the height of a level. The near half keeps the ID: see
// [Draft.orient]. Where the place is an end of the pipe, nothing is cut and that
// end returned.
func (d *Draft) cut(p network.Pipe, at network.Point, level string) (c cut, end network.NodeID, err error) {
	from, _ := d.Node(p.From)
	to, _ := d.Node(p.To)
	var here place
	if line := d.line(&p); network.WayLength(line) > 0 {
		here = nearest(line, at)
		switch length := network.WayLength(line); {
		case unit.Length(here.along)*length < atEnd:
			return cut{}, p.From, nil
		case unit.Length(1-here.along)*length < atEnd:
			return cut{}, p.To, nil
		}
		if level != to.Level {
			level = from.Level
		}
	} else {
		here, end, err = d.storey(&p, level)
		if err != nil || end != "" {
			return cut{}, end, err
		}
	}
	return d.cutAt(p, here, level), "", nil
}

// cutAt cuts a pipe at a place on its way.
func (d *Draft) cutAt(p network.Pipe, here place, level string) cut {
	from, _ := d.Node(p.From)
	to, _ := d.Node(p.To)
	n := network.Node{Kind: network.KindBend, At: here.at, Level: level}
	if from.Invert != nil && to.Invert != nil {
		// Between two measured heights the pipe falls evenly.
		z := tidy(*from.Invert + unit.Length(here.along)*(*to.Invert-*from.Invert))
		n.Invert = &z
	}
	n.ID = d.AddNode(n)

	near, far := p.Clone(), p.Clone()
	near.To, far.From, far.ID = n.ID, n.ID, ""
	near.Via, far.Via = nil, nil
	for i, v := range p.Via {
		switch {
		case v == here.at: // the node takes the corner's place
		case i < here.corners:
			near.Via = append(near.Via, v)
		default:
			far.Via = append(far.Via, v)
		}
	}
	if p.Length != nil {
		a := *p.Length * unit.Length(here.along)
		b := *p.Length - a
		near.Length, far.Length = &a, &b
	}
	far.Label = d.nextOf(p.Label)
	d.SetPipe(near)
	far.ID = d.AddPipe(far)
	d.rehang(to.ID, p.ID, far.ID)
	return cut{n.ID, near.ID, far.ID}
}

// storey is the place of a level on an upright pipe, or the end that is on that
// level.
func (d *Draft) storey(p *network.Pipe, level string) (here place, end network.NodeID, err error) {
	from, _ := d.Node(p.From)
	to, _ := d.Node(p.To)
	switch level {
	case from.Level:
		return place{}, p.From, nil
	case to.Level:
		return place{}, p.To, nil
	}
	z, known := d.elevation(level)
	a, b := d.height(&from), d.height(&to)
	if !known || z <= min(a, b) || z >= max(a, b) {
		return place{}, "", fmt.Errorf("%s runs from level %q to level %q, and level %q is not between them", p.Name(), from.Level, to.Level, level)
	}
	return place{from.At, 0, float64((z - a) / (b - a))}, "", nil
}

// elevation is the height of a level, false where there is none of that name.
func (d *Draft) elevation(level string) (unit.Length, bool) {
	i, err := levelIndex(d.site, level)
	if err != nil {
		return 0, false
	}
	return d.site.Network.Levels[i].Elevation, true
}

// height is the height of a node: its invert, else that of its level.
func (d *Draft) height(n *network.Node) unit.Length {
	if n.Invert != nil {
		return *n.Invert
	}
	z, _ := d.elevation(n.Level)
	return z
}

// flowing reports whether the water of a cut pipe goes from the near half into
// the far one.
func flowing(g *network.Graph, c cut) bool {
	node, _ := g.NodeIndex(c.node)
	near, _ := g.PipeIndex(c.near)
	return g.Down[near] == node
}

func noPipe(id network.PipeID) error { return fmt.Errorf("there is no pipe %q on the site", id) }

func noNode(id network.NodeID) error { return fmt.Errorf("there is no node %q on the site", id) }
