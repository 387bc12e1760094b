package edit_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
)

func nodes(ids ...network.NodeID) (refs []edit.Ref) {
	for _, id := range ids {
		refs = append(refs, edit.NodeRef(id))
	}
	return refs
}

func pipes(ids ...network.PipeID) (refs []edit.Ref) {
	for _, id := range ids {
		refs = append(refs, edit.PipeRef(id))
	}
	return refs
}

func TestBranch(t *testing.T) {
	s := yard(t)
	g, _ := network.Trace(&s.Network)
	for _, c := range []struct {
		name     string
		of       edit.Ref
		upstream bool
		want     []edit.Ref
	}{
		{"above a pipe", edit.PipeRef("p2"), true, append(nodes("w", "fx", "cap"), pipes("p2", "p3", "p4")...)},
		{"above a branch", edit.PipeRef("p4"), true, append(nodes("cap"), pipes("p4")...)},
		{"above a node", edit.NodeRef("w"), true, append(nodes("w", "fx", "cap"), pipes("p3", "p4")...)},
		{"above the outlet is all", edit.NodeRef("out"), true, append(nodes("out", "co", "w", "fx", "cap"), pipes("p1", "p2", "p3", "p4")...)},
		{"below a branch", edit.PipeRef("p4"), false, append(nodes("w", "co", "out"), pipes("p4", "p2", "p1")...)},
		{"below an end", edit.NodeRef("fx"), false, append(nodes("fx", "w", "co", "out"), pipes("p3", "p2", "p1")...)},
		{"below a junction", edit.NodeRef("w"), false, append(nodes("w", "co", "out"), pipes("p2", "p1")...)},
		{"below the outlet", edit.NodeRef("out"), false, nodes("out")},
		{"of what is gone", edit.PipeRef("no"), true, nil},
		{"of a spot", edit.SpotRef("s"), true, nil},
	} {
		t.Run(c.name, func(t *testing.T) { assert.ElementsMatch(t, c.want, edit.Branch(g, c.of, c.upstream).Refs()) })
	}
}

// TestBranchOfARing ends where a ring closes, and takes pipes to nowhere.
func TestBranchOfARing(t *testing.T) {
	s := yard(t)
	s.Network.Pipes = append(
		s.Network.Pipes,
		network.Pipe{ID: "ring", From: "fx", To: "cap", Size: 4, Material: network.PVC40, Class: network.Branch},
		network.Pipe{ID: "nowhere", From: "fx", To: "gone", Size: 4, Material: network.PVC40, Class: network.Branch},
	)
	g, _ := network.Trace(&s.Network)
	for _, upstream := range []bool{true, false} {
		for _, r := range append(nodes("out", "w", "fx", "cap"), pipes("p1", "ring", "nowhere")...) {
			assert.LessOrEqual(t, edit.Branch(g, r, upstream).Len(), 11)
		}
	}
	assert.Equal(t, 10, edit.Branch(g, edit.NodeRef("out"), true).Len())
}

func TestSameKind(t *testing.T) {
	s := yard(t)
	s.Network.Nodes = append(
		s.Network.Nodes,
		network.Node{ID: "mh", Kind: network.KindAccess, Access: &network.Access{Kind: network.Manhole, Size: 24}},
		network.Node{ID: "co2", Kind: network.KindAccess, Access: &network.Access{Kind: network.TwoWayCleanout, Size: 3}},
	)
	s.Network.Pipes[1].Size = 6
	s.Water = append(s.Water, site.WaterPoint{ID: "bib", Kind: site.HoseBib, Flow: 1}, site.WaterPoint{ID: "h2", Kind: site.Hydrant, Flow: 1})
	s.Areas = []site.Area{{ID: "a", Kind: site.Stand}, {ID: "b", Kind: site.Walkway}, {ID: "c", Kind: site.Stand}}
	for _, c := range []struct {
		of   edit.Ref
		want []edit.Ref
	}{
		{edit.NodeRef("co"), nodes("co", "co2")},
		{edit.NodeRef("mh"), nodes("mh")},
		{edit.NodeRef("fx"), nodes("fx")},
		{edit.NodeRef("w"), nodes("w")},
		{edit.PipeRef("p1"), pipes("p1", "p3", "p4")},
		{edit.PipeRef("p2"), pipes("p2")},
		{edit.SpotRef("s"), []edit.Ref{edit.SpotRef("s")}},
		{edit.WaterRef("h"), []edit.Ref{edit.WaterRef("h"), edit.WaterRef("h2")}},
		{edit.LayRef(&s.Lays[0]), []edit.Ref{edit.LayRef(&s.Lays[0]), edit.LayRef(&s.Lays[1])}},
		{edit.AreaRef("a"), []edit.Ref{edit.AreaRef("a"), edit.AreaRef("c")}},
		{edit.NoteRef("t"), []edit.Ref{edit.NoteRef("t")}},
		{edit.UnderlayRef("u"), []edit.Ref{edit.UnderlayRef("u")}},
		{edit.NodeRef("no"), nil},
		{edit.Ref{}, nil},
	} {
		assert.ElementsMatch(t, c.want, edit.SameKind(s, c.of).Refs(), c.of)
	}
}

func TestAll(t *testing.T) {
	s := yard(t)
	s.Network.Nodes[3].Level = "Roof" // fx, and with it p3 leads to the roof
	s.Network.Nodes[4].Level = ""     // the cap is on no level
	s.Underlays = append(s.Underlays, site.Underlay{ID: "locked", Level: "Ground", Locked: true}, site.Underlay{ID: "hidden", Hidden: true})
	rest := []edit.Ref{edit.SpotRef("s"), edit.WaterRef("h"), edit.LayRef(&s.Lays[1])}
	ground := append(nodes("out", "co", "w", "cap"), pipes("p1", "p2", "p4")...)
	ground = append(append(ground, rest...), edit.LayRef(&s.Lays[0]), edit.NoteRef("t"), edit.UnderlayRef("u"))
	assert.ElementsMatch(t, ground, edit.All(s, "Ground").Refs())
	assert.ElementsMatch(t, append(nodes("fx", "cap"), rest...), edit.All(s, "Roof").Refs())
}
