package chart

import (
	"fmt"

	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// campus is an invented site of so many pipes, and a day's plan for it: streets
// with a sewer under each, and houses along them whose drains have branches on
// both sides. The plan is drawn up, not solved: one run through each house, one
// into each of some branches, and a branch in twenty not cleaned.
func campus(pipes int) (*site.Site, *route.Plan) {
	c := &builder{s: &site.Site{Version: site.Version, Units: unit.US}, plan: &route.Plan{}, most: pipes}
	const perStreet = 20
	outlet := c.node(network.KindOutlet, 0, 0, "")
	for street := 0; !c.full(); street++ {
		y := 70 * float64(street)
		below := outlet
		for k := 0; k < perStreet && !c.full(); k++ {
			x := 15 + 30*float64(k)
			hole := c.opening(network.Manhole, x, y, fmt.Sprintf("MH-%d%02d", street+1, k+1))
			c.pipe(hole, below, 8, network.Clay)
			below = hole
			for _, side := range []float64{1, -1} {
				c.house(hole, x+4, y+5*side, side)
			}
		}
	}
	return c.s, c.plan
}

type builder struct {
	s      *site.Site
	plan   *route.Plan
	most   int
	houses int
	run    int
}

func (c *builder) full() bool { return len(c.s.Network.Pipes) >= c.most }

func (c *builder) node(kind network.NodeKind, x, y float64, label string) network.NodeID {
	n := network.Node{
		ID: network.NodeID(fmt.Sprint("n", len(c.s.Network.Nodes))), Label: label, Kind: kind,
		At: network.Point{X: unit.Metres(x), Y: unit.Metres(y)},
	}
	c.s.Network.Nodes = append(c.s.Network.Nodes, n)
	return n.ID
}

func (c *builder) opening(kind network.AccessKind, x, y float64, label string) network.NodeID {
	id := c.node(network.KindAccess, x, y, label)
	c.s.Network.Nodes[len(c.s.Network.Nodes)-1].Access = &network.Access{Kind: kind, Size: 4}
	return id
}

func (c *builder) pipe(from, to network.NodeID, size unit.Size, m network.Material) network.PipeID {
	id := network.PipeID(fmt.Sprint("p", len(c.s.Network.Pipes)))
	c.s.Network.Pipes = append(c.s.Network.Pipes, network.Pipe{ID: id, From: from, To: to, Size: size, Material: m})
	return id
}

// house adds a drain that runs away from the street, with eight branches.
func (c *builder) house(street network.NodeID, x, y, side float64) {
	if c.full() {
		return
	}
	c.houses++
	spot := site.SpotID(fmt.Sprint("s", c.houses))
	c.s.Spots = append(c.s.Spots, site.Spot{ID: spot, Label: fmt.Sprint("Kerb ", c.houses), At: network.Point{X: unit.Metres(x - 6), Y: unit.Metres(y)}})
	co := c.opening(network.TwoWayCleanout, x, y, fmt.Sprintf("CO-%d", c.houses))
	c.pipe(co, street, 6, network.Clay)
	block := route.Block{Spot: spot}
	main := route.Run{Access: co, Direction: route.Upstream}
	below := co
	for k := 0; k < 8 && !c.full(); k++ {
		yk := y + side*(3+2.5*float64(k))
		tee := c.node(network.KindJunction, x, yk, "")
		main.Path = append(main.Path, route.Leg{Pipe: c.pipe(tee, below, 4, network.CastIron), Cleaned: true})
		below = tee
		for _, hand := range []float64{1, -1}[:1+k%2] {
			turn := c.node(network.KindJunction, x+hand*1.5, yk+side*1.5, "")
			end := c.node(network.KindFixture, x+hand*(4+float64(k%3)), yk+side*1.5, fmt.Sprintf("%s-%d", []string{"WC", "LAV", "SK"}[k%3], k+1))
			branch := c.pipe(turn, tee, 3, network.PVC40)
			tail := c.pipe(end, turn, 2, network.PVC40)
			switch {
			case (c.houses+k)%20 == 0:
				c.plan.Shortfalls = append(c.plan.Shortfalls, route.Shortfall{Pipe: tail, Reason: route.NoSpot})
			case k%3 == 0:
				block.Runs = append(block.Runs, route.Run{Access: co, Direction: route.Upstream, Path: []route.Leg{
					{Pipe: branch, Cleaned: true}, {Pipe: tail, Cleaned: true},
				}})
			}
		}
	}
	block.Runs = append([]route.Run{main}, block.Runs...)
	for i := range block.Runs {
		c.run++
		block.Runs[i].Number = c.run
	}
	c.plan.Blocks = append(c.plan.Blocks, block)
}
