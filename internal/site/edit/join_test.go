package edit_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
)

// twoEnds is a yard with another line that ends 10 m beside the cap: from a trap
// at 40 m to a cap.
func twoEnds(t testing.TB) *site.Site {
	s := yard(t)
	s.Network.Nodes = append(
		s.Network.Nodes,
		network.Node{ID: "tr", Kind: network.KindTrap, At: pt(40, 5), Level: "Ground"},
		network.Node{ID: "end", Kind: network.KindCap, At: pt(35, 5), Level: "Ground"},
	)
	s.Network.Pipes = append(s.Network.Pipes, network.Pipe{
		ID: "q", From: "tr", To: "end", Size: 4, Material: network.PVC40, Class: network.BuildingDrain,
	})
	return s
}

func TestJoinEnds(t *testing.T) {
	for _, c := range []struct {
		name   string
		a, b   network.NodeID
		before func(s *site.Site)
		made   edit.Ref
		then   func(t *testing.T, s *site.Site)
	}{
		{"two caps become one pipe", "cap", "end", nil, edit.PipeRef("p4"), func(t *testing.T, s *site.Site) {
			assert.Equal(t, []network.NodeID{"out", "co", "w", "fx", "tr"}, nodeIDs(s))
			p := pipe(t, s, "p4")
			assert.Equal(t, []network.NodeID{"tr", "w"}, []network.NodeID{p.From, p.To})
			assert.Equal(t, []network.Point{{X: 25, Y: 5}}, p.Via, "at the place of the first")
			assert.Equal(t, []network.PipeID{"p4"}, node(t, s, "w").Junction.Branches)
		}},
		{"the other way round at the other place", "end", "cap", nil, edit.PipeRef("p4"), func(t *testing.T, s *site.Site) {
			assert.Equal(t, []network.Point{{X: 35, Y: 5}}, pipe(t, s, "p4").Via)
		}},
		{"of two sizes", "cap", "end", func(s *site.Site) { s.Network.Pipes[4].Size = 3 }, edit.NodeRef("cap"), func(t *testing.T, s *site.Site) {
			assert.Equal(t, network.KindReducer, node(t, s, "cap").Kind)
			assert.Equal(t, pt(25, 5), node(t, s, "cap").At)
			assert.Equal(t, network.NodeID("cap"), pipe(t, s, "q").To)
		}},
		{"of two materials", "cap", "end", func(s *site.Site) { s.Network.Pipes[4].Material = network.Clay }, edit.NodeRef("cap"), func(t *testing.T, s *site.Site) {
			assert.Equal(t, network.KindBend, node(t, s, "cap").Kind)
		}},
		{"an end to a trap", "tr", "cap", nil, edit.NodeRef("tr"), func(t *testing.T, s *site.Site) {
			assert.Equal(t, pt(40, 5), node(t, s, "tr").At)
			assert.Equal(t, network.NodeID("tr"), pipe(t, s, "p4").From)
		}},
		{"a trap to an end comes to it", "cap", "tr", nil, edit.NodeRef("tr"), func(t *testing.T, s *site.Site) {
			assert.Equal(t, pt(25, 5), node(t, s, "tr").At)
			assert.Equal(t, network.NodeID("tr"), pipe(t, s, "p4").From)
			assert.Equal(t, network.KindTrap, node(t, s, "tr").Kind)
		}},
		{"two ends of pipes that begin at one joint", "fx", "cap", func(s *site.Site) {
			n := &s.Network.Nodes[3]
			n.Kind, n.Label = network.KindCap, ""
		}, edit.NodeRef("fx"), func(t *testing.T, s *site.Site) {
			assert.Equal(t, network.KindBend, node(t, s, "fx").Kind, "a ring cannot be one pipe")
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := twoEnds(t)
			if c.before != nil {
				c.before(s)
			}
			e := do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.JoinEnds(s, c.a, c.b) })
			assert.Equal(t, []edit.Ref{c.made}, e.Made())
			c.then(t, s)
		})
	}
}

func TestJoinEndsRefuses(t *testing.T) {
	for _, c := range []struct {
		name    string
		a, b    network.NodeID
		before  func(s *site.Site)
		message string
	}{
		{"gone", "cap", "no", nil, `no node "no"`},
		{"itself", "cap", "cap", nil, "cap cap cannot be joined to itself"},
		{"other levels", "cap", "end", func(s *site.Site) { s.Network.Nodes[6].Level = "Roof" }, `cap end on level "Roof": a stack joins levels`},
		{"in line", "co", "cap", nil, "2 pipes meet at CO-1"},
		{"a fixture", "cap", "fx", nil, "FD-1 ends its line"},
		{"an outlet", "out", "cap", nil, "Sewer ends its line"},
		{"one pipe", "tr", "end", nil, "trap tr and cap end are the ends of pipe q"},
		{"no pipe", "cap", "end", func(s *site.Site) { s.Network.Pipes = s.Network.Pipes[:4] }, "no pipe ends at cap end"},
		{"two fittings", "tr", "cap", func(s *site.Site) {
			n := &s.Network.Nodes[4]
			n.Kind, n.Label = network.KindBackwater, "BWV-1"
		}, "trap tr and BWV-1 cannot be one joint"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := twoEnds(t)
			if c.before != nil {
				c.before(s)
			}
			refuse(t, s, c.message, func(s *site.Site) (*edit.Edit, error) { return edit.JoinEnds(s, c.a, c.b) })
		})
	}
}
