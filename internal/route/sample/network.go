package sample

import (
	"fmt"
	"math/rand/v2"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// Network grows a drain of n pipes upward from an outlet.
func Network(r *rand.Rand, n int) *network.Network {
	net := &network.Network{}
	node := func(k network.NodeKind, x, y float64) network.NodeID {
		id := network.NodeID(fmt.Sprintf("n%d", len(net.Nodes)))
		net.Nodes = append(net.Nodes, network.Node{ID: id, Label: string(id), Kind: k, At: network.Point{X: unit.Feet(x), Y: unit.Feet(y)}})
		return id
	}
	node(network.KindOutlet, 0, 0)
	ups := map[network.NodeID][]network.PipeID{}
	pick := func(of ...network.Deposit) network.Deposit { return of[r.IntN(len(of))] }
	for i := range n {
		var at int
		for { // an outlet takes one pipe, other nodes two from above
			at = r.IntN(len(net.Nodes))
			if limit := 2; at == 0 && len(ups[net.Nodes[0].ID]) == 0 || at > 0 && len(ups[net.Nodes[at].ID]) < limit {
				break
			}
		}
		from := net.Nodes[at]
		length := 10 + float64(r.IntN(12))*10
		up := node(network.KindBend, from.At.X.Feet()+length, from.At.Y.Feet()+float64(r.IntN(5))*4)
		id := network.PipeID(fmt.Sprintf("p%d", i))
		l := unit.Feet(length)
		sizes := []unit.Size{2, 3, 4, 4, 4, 6}
		net.Pipes = append(net.Pipes, network.Pipe{
			ID: id, From: up, To: from.ID, Size: sizes[r.IntN(len(sizes))], Material: network.PVC40, Length: &l,
			Class:    network.Main,
			Deposit:  pick(network.Grease, network.Grease, network.Sediment, network.Scale, network.Roots, network.UnknownDep),
			OutOfJob: r.IntN(5) == 0,
		})
		ups[from.ID] = append(ups[from.ID], id)
	}
	access := func(nd *network.Node) {
		nd.Kind, nd.Turn = network.KindAccess, 0
		nd.Access = &network.Access{Kind: network.TwoWayCleanout, Size: 4, OpenMinutes: float64(r.IntN(9))}
		switch r.IntN(4) {
		case 0:
			nd.Access.Kind, nd.Access.Facing = network.OneWayCleanout, network.FacesUpstream
		case 1:
			nd.Access.Kind, nd.Access.Facing = network.OneWayCleanout, network.FacesDownstream
		}
	}
	for i := 1; i < len(net.Nodes); i++ {
		nd := &net.Nodes[i]
		switch up := ups[nd.ID]; {
		case len(up) == 2 && r.IntN(3) > 0:
			nd.Kind = network.KindJunction
			nd.Junction = &network.Junction{Kind: network.Wye, Branches: up[r.IntN(2):][:1]}
			if r.IntN(3) == 0 {
				nd.Junction.Kind = network.SanitaryTee
			}
		case len(up) == 2:
			nd.Kind = network.KindAccess
			nd.Access = &network.Access{Kind: network.Manhole, Size: 8}
		case r.IntN(3) > 0:
			access(nd)
		case len(up) == 1:
			nd.Turn = unit.Degrees([]float64{22.5, 45, 90}[r.IntN(3)])
		default:
			nd.Kind = network.KindCap
		}
	}
	return net
}
