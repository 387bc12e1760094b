package route_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/network/sketch"
	"linemap/internal/route"
	"linemap/internal/unit"
)

// Fixtures within 10 ft of drain from the run's way count, by hand: the basin at
// 4 + 5 ft, the fixture at the far end, not the one at 11 ft nor the one behind a
// valve.
func TestBlowBack(t *testing.T) {
	net := sketch.Must(`
		OUT -20ft/4in- MH1 -10ft- W1 -10ft- W2 -10ft- F9
		W1 ~4ft/3in- B1 -5ft/3in- F1
		W2 ~6ft/3in- B2 -5ft/3in- F2`)
	g, _ := network.Trace(net)
	ft := unit.Feet
	pipe := func(a, b network.NodeID) network.PipeID {
		for _, p := range net.Pipes {
			if p.From == a && p.To == b || p.From == b && p.To == a {
				return p.ID
			}
		}
		require.Failf(t, "no pipe", "%s to %s", a, b)
		return ""
	}
	up := route.Run{Direction: route.Upstream, Path: []route.Leg{
		{Pipe: pipe("MH1", "W1"), From: ft(50), To: ft(60)},
		{Pipe: pipe("W1", "W2"), From: ft(60), To: ft(70)},
		{Pipe: pipe("W2", "F9"), From: ft(70), To: ft(80)},
	}}
	names := func(all []route.Exposed) (ids []network.NodeID) {
		for _, e := range all {
			ids = append(ids, e.Node)
		}
		return ids
	}
	found := route.BlowBack(g, &up)
	require.Equal(t, []network.NodeID{"F1", "F9"}, names(found))
	assert.Equal(t, network.NodeID("W1"), found[0].Join)
	assert.InDelta(t, ft(60).Metres(), found[0].At.Metres(), 1e-9)
	assert.InDelta(t, ft(9).Metres(), found[0].Away.Metres(), 1e-9)
	assert.InDelta(t, ft(80).Metres(), found[1].At.Metres(), 1e-9)
	assert.Zero(t, found[1].Away)

	down := route.Run{Direction: route.Downstream, Path: []route.Leg{{Pipe: pipe("W1", "W2"), From: ft(5), To: ft(15)}}}
	found = route.BlowBack(g, &down)
	require.Equal(t, []network.NodeID{"F9", "F1"}, names(found), "seen going down, from W2 to W1")
	assert.InDelta(t, ft(10).Metres(), found[0].Away.Metres(), 1e-9)

	for i := range net.Nodes {
		if n := &net.Nodes[i]; n.ID == "B1" {
			n.Kind = network.KindBackwater
		}
	}
	assert.Equal(t, []network.NodeID{"F9"}, names(route.BlowBack(g, &up)), "the valve closes")
	assert.Empty(t, route.BlowBack(g, &route.Run{Path: []route.Leg{{Pipe: "no such pipe"}}}))
}
