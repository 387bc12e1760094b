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

func TestDelete(t *testing.T) {
	type ids = []network.NodeID
	type pipes = []network.PipeID
	for _, c := range []struct {
		name   string
		sel    edit.Selection
		before func(s *site.Site)
		nodes  ids
		pipes  pipes
		then   func(t *testing.T, s *site.Site)
	}{
		{
			"a branch: its bare end goes, the run is whole again", edit.Select(edit.PipeRef("p4")), nil,
			ids{"out", "co", "fx"},
			pipes{"p1", "p2"},
			func(t *testing.T, s *site.Site) {
				p := pipe(t, s, "p2")
				assert.Equal(t, [2]network.NodeID{"fx", "co"}, [2]network.NodeID{p.From, p.To})
				assert.Empty(t, p.Via, "straight on")
				assert.Equal(t, network.PipeID("p2"), s.ByHand.Keep[0].End, "the run that ended in p3")
			},
		},
		{
			"an access in line: the run is healed, its lay and runs go", edit.Select(edit.NodeRef("co")), nil,
			ids{"out", "w", "fx", "cap"},
			pipes{"p1", "p3", "p4"},
			func(t *testing.T, s *site.Site) {
				assert.Len(t, s.Lays, 1)
				assert.Equal(t, site.WaterID("h"), s.Lays[0].Water)
				assert.True(t, s.ByHand.IsZero())
			},
		},
		{
			"an access at a corner leaves the corner", edit.Select(edit.NodeRef("co")),
			func(s *site.Site) { s.Network.Nodes[1].At = pt(10, 10) },
			ids{"out", "w", "fx", "cap"},
			pipes{"p1", "p3", "p4"},
			func(t *testing.T, s *site.Site) {
				assert.Equal(t, []network.Point{{X: 10, Y: 10}}, pipe(t, s, "p1").Via)
			},
		},
		{
			"an access between two sizes leaves a reducer", edit.Select(edit.NodeRef("co")),
			func(s *site.Site) { s.Network.Pipes[0].Size = 6 },
			ids{"out", "co", "w", "fx", "cap"},
			pipes{"p1", "p2", "p3", "p4"},
			func(t *testing.T, s *site.Site) {
				assert.Equal(t, network.Node{ID: "co", Kind: network.KindReducer, At: pt(10, 0), Level: "Ground"}, node(t, s, "co"))
			},
		},
		{
			"a measured access in line gives its height up with itself", edit.Select(edit.NodeRef("co")),
			func(s *site.Site) {
				z := unit.Length(-2)
				s.Network.Nodes[1].Invert = &z
			},
			ids{"out", "w", "fx", "cap"},
			pipes{"p1", "p3", "p4"},
			nil,
		},
		{
			"but the joint that has to stay keeps it", edit.Select(edit.NodeRef("co")),
			func(s *site.Site) {
				z := unit.Length(-2)
				s.Network.Nodes[1].Invert = &z
				s.Network.Pipes[0].Material = network.Clay
			},
			ids{"out", "co", "w", "fx", "cap"},
			pipes{"p1", "p2", "p3", "p4"},
			func(t *testing.T, s *site.Site) {
				assert.Equal(t, network.KindBend, node(t, s, "co").Kind)
				assert.Equal(t, unit.Length(-2), *node(t, s, "co").Invert)
			},
		},
		{
			"a fixture at an end leaves a cap", edit.Select(edit.NodeRef("fx")), nil,
			ids{"out", "co", "w", "fx", "cap"},
			pipes{"p1", "p2", "p3", "p4"},
			func(t *testing.T, s *site.Site) {
				assert.Equal(t, network.Node{ID: "fx", Kind: network.KindCap, At: pt(30, 0), Level: "Ground"}, node(t, s, "fx"))
			},
		},
		{
			"a fixture's pipe leaves the fixture, and the wye a bend in one pipe", edit.Select(edit.PipeRef("p3")), nil,
			ids{"out", "co", "fx", "cap"},
			pipes{"p1", "p2"},
			func(t *testing.T, s *site.Site) {
				p := pipe(t, s, "p2")
				assert.Equal(t, network.NodeID("cap"), p.From)
				assert.Equal(t, []network.Point{{X: 20, Y: 0}}, p.Via)
				assert.True(t, s.ByHand.IsZero(), "the run ended in p3")
			},
		},
		{
			"a wye: each pipe gets a cap", edit.Select(edit.NodeRef("w")), nil,
			ids{"out", "co", "w", "fx", "cap", "n1", "n2"},
			pipes{"p1", "p2", "p3", "p4"},
			func(t *testing.T, s *site.Site) {
				for _, id := range []network.NodeID{"w", "n1", "n2"} {
					assert.Equal(t, network.Node{ID: id, Kind: network.KindCap, At: pt(20, 0), Level: "Ground"}, node(t, s, id))
				}
				assert.Equal(t, network.NodeID("n1"), pipe(t, s, "p3").To)
				assert.Equal(t, network.NodeID("n2"), pipe(t, s, "p4").To)
			},
		},
		{
			"a manhole where a branch comes in leaves a wye", edit.Select(edit.NodeRef("w")),
			func(s *site.Site) {
				n := &s.Network.Nodes[2]
				n.Kind, n.Junction, n.Access = network.KindAccess, nil, &network.Access{Kind: network.Manhole, Size: 24}
			},
			ids{"out", "co", "w", "fx", "cap"},
			pipes{"p1", "p2", "p3", "p4"},
			func(t *testing.T, s *site.Site) {
				n := node(t, s, "w")
				assert.Equal(t, network.KindJunction, n.Kind)
				assert.Equal(t, network.Junction{Kind: network.Wye, Branches: []network.PipeID{"p4"}}, *n.Junction)
			},
		},
		{
			"a manhole where no fitting fits leaves caps", edit.Select(edit.NodeRef("w")),
			func(s *site.Site) {
				n := &s.Network.Nodes[2]
				n.Kind, n.Junction, n.Access = network.KindAccess, nil, &network.Access{Kind: network.Manhole, Size: 24}
				for _, id := range []network.NodeID{"a", "b"} {
					s.Network.Nodes = append(s.Network.Nodes, network.Node{ID: id, Kind: network.KindFixture, At: pt(22, 9)})
					s.Network.Pipes = append(s.Network.Pipes, network.Pipe{ID: "p" + network.PipeID(id), From: id, To: "w", Size: 4, Material: network.PVC40, Class: network.Lateral})
				}
			},
			ids{"out", "co", "w", "fx", "cap", "a", "b", "n1", "n2", "n3", "n4"},
			pipes{"p1", "p2", "p3", "p4", "pa", "pb"},
			nil,
		},
		{
			"a reducer that has to be there: the pipes part", edit.Select(edit.NodeRef("co")),
			func(s *site.Site) {
				n := &s.Network.Nodes[1]
				n.Kind, n.Access, s.Lays, s.Network.Pipes[0].Size = network.KindReducer, nil, nil, 6
			},
			ids{"out", "co", "w", "fx", "cap", "n1"},
			pipes{"p1", "p2", "p3", "p4"},
			nil,
		},
		{
			"a bend between pipes alike goes into one", edit.Select(edit.NodeRef("co")),
			func(s *site.Site) {
				n := &s.Network.Nodes[1]
				n.Kind, n.Access, s.Lays, n.Turn, n.Note = network.KindBend, nil, nil, unit.Degrees(45), "long sweep"
			},
			ids{"out", "w", "fx", "cap"},
			pipes{"p1", "p3", "p4"},
			nil,
		},
		{
			"everything on the way", edit.Select(edit.NodeRef("w"), edit.PipeRef("p2"), edit.PipeRef("p3"), edit.PipeRef("p4")), nil,
			ids{"out", "co", "fx"},
			pipes{"p1"},
			nil,
		},
		{
			"a cap with its pipe", edit.Select(edit.NodeRef("cap"), edit.PipeRef("p4")), nil,
			ids{"out", "co", "fx"},
			pipes{"p1", "p2"},
			nil,
		},
		{
			"a spot with its lays and runs", edit.Select(edit.SpotRef("s")), nil,
			ids{"out", "co", "w", "fx", "cap"},
			pipes{"p1", "p2", "p3", "p4"},
			func(t *testing.T, s *site.Site) {
				assert.Empty(t, s.Spots)
				assert.Empty(t, s.Lays)
				assert.True(t, s.ByHand.IsZero())
				assert.Len(t, s.Water, 1)
			},
		},
		{
			"water with its lay", edit.Select(edit.WaterRef("h")), nil,
			ids{"out", "co", "w", "fx", "cap"},
			pipes{"p1", "p2", "p3", "p4"},
			func(t *testing.T, s *site.Site) {
				assert.Empty(t, s.Water)
				assert.Len(t, s.Lays, 1)
				assert.False(t, s.ByHand.IsZero())
			},
		},
		{
			"a lay, a note and an underlay", edit.Select(edit.Ref{Kind: edit.Lay, ID: "s<h"}, edit.NoteRef("t"), edit.UnderlayRef("u")), nil,
			ids{"out", "co", "w", "fx", "cap"},
			pipes{"p1", "p2", "p3", "p4"},
			func(t *testing.T, s *site.Site) {
				assert.Len(t, s.Lays, 1)
				assert.Empty(t, s.Notes)
				assert.Empty(t, s.Underlays)
			},
		},
		{"all of it", edit.All(yard(t), "Ground"), nil, nil, nil, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := yard(t)
			if c.before != nil {
				c.before(s)
			}
			do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.Delete(s, c.sel) })
			assert.Equal(t, c.nodes, nodeIDs(s))
			assert.Equal(t, c.pipes, pipeIDs(s))
			if c.then != nil {
				c.then(t, s)
			}
		})
	}
}

// TestDeleteABranchOfTwo: a double wye that loses a branch is a wye.
func TestDeleteABranchOfTwo(t *testing.T) {
	s := yard(t)
	s.Network.Nodes = append(s.Network.Nodes, network.Node{ID: "cap2", Kind: network.KindCap, At: pt(25, -5), Level: "Ground"})
	s.Network.Pipes = append(s.Network.Pipes, network.Pipe{ID: "p5", From: "cap2", To: "w", Size: 4, Material: network.PVC40, Class: network.Branch})
	s.Network.Nodes[2].Junction = &network.Junction{Kind: network.DoubleWye, Branches: []network.PipeID{"p4", "p5"}}
	do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.Delete(s, edit.Select(edit.PipeRef("p4"))) })
	assert.Equal(t, network.Junction{Kind: network.Wye, Branches: []network.PipeID{"p5"}}, *node(t, s, "w").Junction)
	g, _ := network.Trace(&s.Network)
	i, _ := g.NodeIndex("w")
	assert.True(t, g.Sound(i))
}

func TestDeleteRefuses(t *testing.T) {
	s := yard(t)
	refuse(t, s, "nothing is selected", func(s *site.Site) (*edit.Edit, error) { return edit.Delete(s, edit.Selection{}) })
	refuse(t, s, "delete the pipe with it", func(s *site.Site) (*edit.Edit, error) { return edit.Delete(s, edit.Select(edit.NodeRef("cap"))) })
	s.Underlays[0].Locked = true
	refuse(t, s, "Plan is locked", func(s *site.Site) (*edit.Edit, error) { return edit.Delete(s, edit.Select(edit.UnderlayRef("u"))) })
}

// TestDeleteOfDemos deletes every pipe and every node of the demo sites, each
// alone: what is left loads, and no junction is worse than it was.
func TestDeleteOfDemos(t *testing.T) {
	s, err := site.Demo("restaurant")
	require.NoError(t, err)
	first := encode(t, s)
	g, _ := network.Trace(&s.Network)
	for i := range g.Net.Nodes {
		if g.Net.Nodes[i].Kind == network.KindJunction {
			require.True(t, g.Sound(i))
		}
	}
	for _, r := range edit.All(s, "").With(edit.All(s, s.Network.Levels[0].Name).Refs()...).Refs() {
		if r == edit.NodeRef(g.Net.Nodes[g.Outlets[0]].ID) {
			continue // the water goes another way then
		}
		e, err := edit.Delete(s, edit.Select(r))
		if err != nil {
			require.ErrorContains(t, err, "delete the pipe with it")
			continue
		}
		carryOut(t, s, e, first)
		g, _ := network.Trace(&s.Network)
		for i := range g.Net.Nodes {
			if g.Net.Nodes[i].Kind == network.KindJunction {
				assert.True(t, g.Sound(i), "%s after %v is gone", g.NodeName(i), r)
			}
		}
		e.Undo(s)
	}
}
