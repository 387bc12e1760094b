package edit_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

// tester is a test, of rapid or not.
type tester interface {
	require.TestingT
	Helper()
}

// yard is a small job: a main from a fixture past a wye and a cleanout to the
// sewer, a branch that ends in a cap, a spot, a hydrant, and one of everything
// else.
//
//	fx --p3-- w --p2-- co --p1-- out      30, 20, 10 and 0 m east
//	           \
//	            p4 -- cap                 25 east, 5 north
func yard(t tester) *site.Site {
	t.Helper()
	s, err := site.New(unit.Metric)
	require.NoError(t, err)
	at := func(x, y unit.Length) network.Point { return network.Point{X: x, Y: y} }
	pipe := func(id network.PipeID, from, to network.NodeID) network.Pipe {
		return network.Pipe{ID: id, From: from, To: to, Size: 4, Material: network.PVC40, Class: network.BuildingDrain}
	}
	s.Network = network.Network{
		Levels: []network.Level{{Name: "Ground"}, {Name: "Roof", Elevation: 6}},
		Nodes: []network.Node{
			{ID: "out", Label: "Sewer", Kind: network.KindOutlet, At: at(0, 0), Level: "Ground"},
			{ID: "co", Label: "CO-1", Kind: network.KindAccess, At: at(10, 0), Level: "Ground", Access: &network.Access{Kind: network.TwoWayCleanout, Size: 4}},
			{ID: "w", Kind: network.KindJunction, At: at(20, 0), Level: "Ground", Junction: &network.Junction{Kind: network.Wye, Branches: []network.PipeID{"p4"}}},
			{ID: "fx", Label: "FD-1", Kind: network.KindFixture, At: at(30, 0), Level: "Ground"},
			{ID: "cap", Kind: network.KindCap, At: at(25, 5), Level: "Ground"},
		},
		Pipes: []network.Pipe{pipe("p1", "co", "out"), pipe("p2", "w", "co"), pipe("p3", "fx", "w"), pipe("p4", "cap", "w")},
	}
	s.Spots = []site.Spot{{ID: "s", Label: "Spot 1", At: at(5, -10)}}
	s.Water = []site.WaterPoint{{ID: "h", Label: "H-1", Kind: site.Hydrant, At: at(0, -20), Flow: unit.LitresPerMinute(200)}}
	s.Lays = []site.Lay{{Spot: "s", Access: "co", Via: []network.Point{at(8, -5)}}, {Spot: "s", Water: "h"}}
	s.Notes = []site.Note{{ID: "t", At: at(3, 3), Level: "Ground", Text: "Gate locked"}}
	s.Underlays = []site.Underlay{{ID: "u", Label: "Plan", Level: "Ground", At: at(15, 0), Scale: 0.01, Data: []byte("picture")}}
	s.ByHand = site.ByHand{Keep: []site.RunKey{{Spot: "s", Hose: "half-inch", Access: "co", End: "p3"}}}
	return s
}

// encode writes a site.
func encode(t testing.TB, s *site.Site) string {
	t.Helper()
	data, err := site.Encode(s)
	require.NoError(t, err)
	return string(data)
}

// carryOut does an edit and undoes it and does it again, and holds it to what
// every edit promises: making it changes nothing, undo gives the first bytes,
// redo the last, and the result loads.
func carryOut(t testing.TB, s *site.Site, e *edit.Edit, first string) {
	t.Helper()
	require.Equal(t, first, encode(t, s), "making the edit changed the site")
	e.Do(s)
	last := encode(t, s)
	_, err := site.Decode([]byte(last))
	require.NoError(t, err)
	e.Undo(s)
	require.Equal(t, first, encode(t, s), "undo")
	e.Do(s)
	require.Equal(t, last, encode(t, s), "redo")
}

// do carries out the edit that change makes of s, and returns it.
func do(t testing.TB, s *site.Site, change func(*site.Site) (*edit.Edit, error)) *edit.Edit {
	t.Helper()
	first := encode(t, s)
	e, err := change(s)
	require.NoError(t, err)
	carryOut(t, s, e, first)
	return e
}

// refuse asks that an edit is refused with a message, and that nothing changed.
func refuse(t testing.TB, s *site.Site, message string, change func(*site.Site) (*edit.Edit, error)) {
	t.Helper()
	first := encode(t, s)
	e, err := change(s)
	require.ErrorContains(t, err, message)
	assert.Nil(t, e)
	require.Equal(t, first, encode(t, s))
}

// node and pipe find what must be there.
func node(t testing.TB, s *site.Site, id network.NodeID) network.Node {
	t.Helper()
	for _, n := range s.Network.Nodes {
		if n.ID == id {
			return n
		}
	}
	require.Fail(t, "no node", id)
	return network.Node{}
}

func pipe(t testing.TB, s *site.Site, id network.PipeID) network.Pipe {
	t.Helper()
	for _, p := range s.Network.Pipes {
		if p.ID == id {
			return p
		}
	}
	require.Fail(t, "no pipe", id)
	return network.Pipe{}
}

// nodeIDs and pipeIDs list what is there, in the site's order.
func nodeIDs(s *site.Site) (ids []network.NodeID) {
	for _, n := range s.Network.Nodes {
		ids = append(ids, n.ID)
	}
	return ids
}

func pipeIDs(s *site.Site) (ids []network.PipeID) {
	for _, p := range s.Network.Pipes {
		ids = append(ids, p.ID)
	}
	return ids
}
