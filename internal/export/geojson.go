package export

import (
	"errors"
	"fmt"

	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// ErrNoGeo says that a site cannot be put on the globe.
var ErrNoGeo = errors.New("the site does not say where on Earth it lies: " +
	"give latitude, longitude and bearing under \"geo\" in the site file")

// GeoJSON is the site and its plan as a FeatureCollection of RFC 7946, for a
// geographic information system: nodes and pipes, spots, water points and areas, then
// the hose on the ground, the runs along their paths and the pipes that no run
// cleans. Positions are longitude and latitude in WGS 84, to a tenth of a
// millimetre; heights are above the site's datum and so are properties, not
// part of a position. The property "kind" tells the features apart. Properties
// with a unit carry it in their name and do not follow the site's units; "why"
// and "cure" are sentences for people and do.
//
// The error is [ErrNoGeo] for a site that does not say where it lies.
func GeoJSON(s *site.Site, p *route.Plan, opt Options) ([]byte, error) {
	if err := lacksGeo(s); err != nil {
		return nil, err
	}
	g, _ := network.Trace(&s.Network)
	c := &collection{Type: "FeatureCollection", Features: []feature{}, geo: s.Geo, site: s, graph: g, sys: opt.For(s).Units}
	c.drain()
	c.ground()
	c.areas()
	c.work(p)
	c.gaps(p)
	return site.EncodeValue(c)
}

func lacksGeo(s *site.Site) error {
	if s.Geo == nil {
		return ErrNoGeo
	}
	return nil
}

// collection is a FeatureCollection in the making.
type collection struct {
	Type     string    `json:"type"`
	Features []feature `json:"features"`

	geo   *site.Geo
	site  *site.Site
	graph *network.Graph
	sys   unit.System
}

func (c *collection) add(id string, g *geometry, properties any) {
	c.Features = append(c.Features, feature{Type: "Feature", ID: id, Geometry: g, Properties: properties})
}

// drain adds the nodes and pipes.
func (c *collection) drain() {
	for i := range c.site.Network.Nodes {
		n := &c.site.Network.Nodes[i]
		props := nodeProperties{
			Kind: "node", Key: n.ID, Name: c.graph.NodeName(i), Node: n.Kind, Level: n.Level,
			Invert: n.Invert, Note: n.Note,
		}
		if a := n.Access; a != nil {
			props.Access, props.Size, props.Room, props.OutOfService = a.Kind, a.Size, a.Room, a.OutOfService
		}
		c.add("node/"+string(n.ID), c.point(n.At), props)
	}
	for i := range c.site.Network.Pipes {
		p := &c.site.Network.Pipes[i]
		props := pipeProperties{
			Kind: "pipe", Key: p.ID, Name: c.graph.PipeName(i), Size: p.Size, Material: p.Material, Class: p.Class,
			Length: c.graph.Length(i), Deposit: p.Deposit, Severity: p.Severity, Fragile: p.Fragile,
			OutOfJob: p.OutOfJob, Note: p.Note,
		}
		if fall, ok := c.graph.Fall(i); ok {
			props.Slope = &fall
		}
		if c.graph.Up[i] >= 0 {
			props.From, props.To = c.site.Network.Nodes[c.graph.Up[i]].ID, c.site.Network.Nodes[c.graph.Down[i]].ID
		}
		c.add("pipe/"+string(p.ID), c.line(c.graph.Polyline(i)), props)
	}
}

// ground adds the spots and water points.
func (c *collection) ground() {
	for i := range c.site.Spots {
		s := &c.site.Spots[i]
		c.add("spot/"+string(s.ID), c.point(s.At), spotProperties{
			Kind: "spot", Key: s.ID, Name: s.Label, Elevation: s.Elevation, Usable: s.Usable(), Traffic: s.Traffic, Note: s.Note,
		})
	}
	for i := range c.site.Water {
		w := &c.site.Water[i]
		c.add("water/"+string(w.ID), c.point(w.At), waterProperties{
			Kind: "water", Key: w.ID, Name: w.Label, Water: w.Kind, Flow: w.Flow, Note: w.Note,
		})
	}
}

// work adds the hoses on the ground and the runs, in the order of the day.
func (c *collection) work(p *route.Plan) {
	w := &wording{sys: c.sys, site: c.site, graph: c.graph}
	laid := map[string]bool{}
	lay := func(id string, way []network.Point, props layProperties) {
		if !laid[id] {
			laid[id] = true
			c.add(id, c.line(way), props)
		}
	}
	for _, b := range p.Blocks {
		spot := w.spot(b.Spot)
		if spot != nil {
			if _, from := c.site.Inflow(spot); from != nil {
				lay(fmt.Sprintf("supply/%s/%s", spot.ID, from.ID), c.site.SupplyPath(spot, from),
					layProperties{Kind: "supply", Spot: spot.ID, Water: from.ID, Length: c.site.SupplyLength(spot, from)})
			}
		}
		for i := range b.Runs {
			r := &b.Runs[i]
			if n, ok := c.graph.NodeIndex(r.Access); ok && spot != nil {
				lay(fmt.Sprintf("lay/%s/%s", spot.ID, r.Access), c.site.LayPath(spot, &c.site.Network.Nodes[n]),
					layProperties{Kind: "lay", Spot: spot.ID, Access: r.Access, Length: r.Lay})
			}
			c.add(fmt.Sprint("run/", r.Number), c.line(c.way(r)), runProperties{
				Kind: "run", Number: r.Number, Spot: b.Spot, Hose: w.hoseName(b.Hose), Access: r.Access, Direction: r.Direction,
				Lay: r.Lay, Entry: r.Entry, End: r.End, Bends: r.Bends, Passes: len(r.Passes),
				Minutes: r.Minutes, Water: r.Water, Cleaned: cleaned(r),
			})
		}
	}
}

// way is the line of a run on the plan, from its access to its far end.
func (c *collection) way(r *route.Run) []network.Point {
	at, ok := c.graph.NodeIndex(r.Access)
	if !ok {
		return nil
	}
	line := []network.Point{c.site.Network.Nodes[at].At}
	for _, leg := range r.Path {
		p, ok := c.graph.PipeIndex(leg.Pipe)
		if !ok {
			return nil
		}
		part := c.graph.Polyline(p)
		next := c.graph.Down[p]
		if next == at { // against the flow
			part, next = reversed(part), c.graph.Up[p]
		}
		line, at = append(line, part[1:]...), next
	}
	return line
}

// cleaned lists the pipes that a run cleans.
func cleaned(r *route.Run) []network.PipeID {
	pipes := []network.PipeID{}
	for _, leg := range r.Path {
		if leg.Cleaned {
			pipes = append(pipes, leg.Pipe)
		}
	}
	return pipes
}

// gaps adds the pipes that no run cleans.
func (c *collection) gaps(p *route.Plan) {
	for i := range p.Shortfalls {
		sf := &p.Shortfalls[i]
		var line []network.Point
		if p, ok := c.graph.PipeIndex(sf.Pipe); ok {
			line = c.graph.Polyline(p)
		}
		c.add("shortfall/"+string(sf.Pipe), c.line(line), shortfallProperties{
			Kind: "shortfall", Pipe: sf.Pipe, Name: sf.Name, Size: sf.Size, Length: sf.Length, Reason: sf.Reason,
			Why: sf.Why(c.sys), Cure: sf.Cure.Say(c.sys),
		})
	}
}
