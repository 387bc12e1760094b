package edit_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

func TestReverse(t *testing.T) {
	z := func(l unit.Length) *unit.Length { return &l }
	fall := unit.Slope(0.02)
	s := yard(t)
	s.Network.Nodes[1].Invert = z(-2)    // co
	s.Network.Nodes[2].Invert = z(-1.75) // w
	s.Network.Nodes[3].Invert = z(-1.5)  // fx
	s.Network.Pipes[1].Via = []network.Point{{X: 15, Y: 1}, {X: 12, Y: 1}}
	s.Network.Pipes[1].Slope = &fall // p2 is measured, so it falls by its inverts
	s.Network.Pipes[3].Slope = &fall // p4 is not
	fell := func(id network.PipeID) unit.Slope {
		g, _ := network.Trace(&s.Network)
		p, _ := g.PipeIndex(id)
		f, _ := g.Fall(p)
		return f
	}
	before2, before3 := fell("p2"), fell("p3")
	sel := edit.Select(edit.PipeRef("p2"), edit.PipeRef("p3"), edit.PipeRef("p4"), edit.NodeRef("co"))
	e := do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.Reverse(s, sel) })
	assert.Equal(t, "reverse 3 things", e.Name())
	p := pipe(t, s, "p2")
	assert.Equal(t, [2]network.NodeID{"co", "w"}, [2]network.NodeID{p.From, p.To})
	assert.Equal(t, []network.Point{{X: 12, Y: 1}, {X: 15, Y: 1}}, p.Via)
	assert.Equal(t, fall, *p.Slope)
	assert.Equal(t, -fall, *pipe(t, s, "p4").Slope)
	assert.Equal(t, []unit.Length{-1.5, -1.75, -2}, []unit.Length{*node(t, s, "co").Invert, *node(t, s, "w").Invert, *node(t, s, "fx").Invert})
	assert.InDelta(t, -float64(before2), float64(fell("p2")), 1e-12, "the only way is still to the sewer")
	assert.InDelta(t, -float64(before3), float64(fell("p3")), 1e-12)

	do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.Reverse(s, sel) })
	assert.Equal(t, unit.Length(-2), *node(t, s, "co").Invert, "twice is as before")
	assert.Equal(t, fall, *pipe(t, s, "p4").Slope)
}

// TestReverseTurnsTheFlow: where water can go either way, it goes the other way.
func TestReverseTurnsTheFlow(t *testing.T) {
	s := yard(t)
	high, low := unit.Length(-1), unit.Length(-1.3)
	s.Network.Nodes[3].Kind = network.KindOutlet // at both ends
	s.Network.Nodes[1].Invert, s.Network.Nodes[2].Invert = &low, &high
	flows := func() (up network.NodeID) {
		g, _ := network.Trace(&s.Network)
		p, _ := g.PipeIndex("p2")
		return g.Net.Nodes[g.Up[p]].ID
	}
	assert.Equal(t, network.NodeID("w"), flows())
	do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.Reverse(s, edit.Select(edit.PipeRef("p2"))) })
	assert.Equal(t, network.NodeID("co"), flows())
}

func TestReverseRefuses(t *testing.T) {
	s := yard(t)
	refuse(t, s, "no pipe is selected", func(s *site.Site) (*edit.Edit, error) { return edit.Reverse(s, edit.Select(edit.NodeRef("co"))) })
}
