package edit_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

func TestLevels(t *testing.T) {
	s := yard(t)
	do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.AddLevel(s, "Cellar", -3) })
	do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.RenameLevel(s, "Ground", "Erdgeschoß") })
	do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.SetLevelElevation(s, "Roof", 7) })
	do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.RemoveLevel(s, "Cellar") })
	assert.Equal(t, []network.Level{{Name: "Erdgeschoß"}, {Name: "Roof", Elevation: 7}}, s.Network.Levels)
	for _, n := range s.Network.Nodes {
		assert.Equal(t, "Erdgeschoß", n.Level)
	}
	assert.Equal(t, "Erdgeschoß", s.Notes[0].Level)
	assert.Equal(t, "Erdgeschoß", s.Underlays[0].Level)
}

// A house is sketched before anyone thinks of its upper floor: what is there then
// must not be left on no level, where it could not be drawn on.
func TestTheFirstLevelTakesTheSketch(t *testing.T) {
	s := yard(t)
	s.Network.Levels = nil
	for i := range s.Network.Nodes {
		s.Network.Nodes[i].Level = ""
	}
	s.Notes[0].Level, s.Underlays[0].Level = "", ""
	assert.Zero(t, edit.StoreyAbove(s))
	do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.AddLevel(s, "Ground floor", edit.StoreyAbove(s)) })
	do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.AddLevel(s, "Upper floor", edit.StoreyAbove(s)) })
	for _, n := range s.Network.Nodes {
		assert.Equal(t, "Ground floor", n.Level)
	}
	assert.Equal(t, "Ground floor", s.Notes[0].Level)
	assert.Equal(t, "Ground floor", s.Underlays[0].Level)
	want := unit.Metres(3)
	if s.Units != unit.Metric {
		want = unit.Feet(10)
	}
	assert.Equal(t, want, s.Network.Levels[1].Elevation, "a storey above the first")
}

func TestMoveToLevel(t *testing.T) {
	s := yard(t)
	do(t, s, func(s *site.Site) (*edit.Edit, error) {
		return edit.MoveToLevel(s, edit.Select(edit.PipeRef("p4"), edit.NoteRef("t"), edit.UnderlayRef("u"), edit.SpotRef("s")), "Roof")
	})
	var levels []string
	for _, n := range s.Network.Nodes {
		levels = append(levels, n.Level)
	}
	assert.Equal(t, []string{"Ground", "Ground", "Roof", "Ground", "Roof"}, levels)
	assert.Equal(t, "Roof", s.Notes[0].Level)
	assert.Equal(t, "Roof", s.Underlays[0].Level)
	do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.MoveToLevel(s, edit.Select(edit.NoteRef("t")), "") })
	assert.Empty(t, s.Notes[0].Level)
}

func TestLevelsRefuse(t *testing.T) {
	for _, c := range []struct {
		name, message string
		change        func(s *site.Site) (*edit.Edit, error)
	}{
		{"a name twice", `a level "Roof" already`, func(s *site.Site) (*edit.Edit, error) { return edit.AddLevel(s, "Roof", 0) }},
		{"no name", `level "": name: found ""`, func(s *site.Site) (*edit.Edit, error) { return edit.AddLevel(s, "", 0) }},
		{"a long name", "201 characters", func(s *site.Site) (*edit.Edit, error) { return edit.AddLevel(s, strings.Repeat("x", 201), 0) }},
		{"too high", "elevation: found 9001 m", func(s *site.Site) (*edit.Edit, error) { return edit.AddLevel(s, "Moon", 9001) }},
		{"no number", "NaN", func(s *site.Site) (*edit.Edit, error) {
			return edit.SetLevelElevation(s, "Roof", unit.Length(math.NaN()))
		}},
		{"another's name", `a level "Roof" already`, func(s *site.Site) (*edit.Edit, error) { return edit.RenameLevel(s, "Ground", "Roof") }},
		{"one that is not there", `no level "Cellar"`, func(s *site.Site) (*edit.Edit, error) { return edit.RenameLevel(s, "Cellar", "Basement") }},
		{"in use", `level "Ground" cannot be removed: 7 things are on it`, func(s *site.Site) (*edit.Edit, error) { return edit.RemoveLevel(s, "Ground") }},
		{"removing none", `no level "Cellar"`, func(s *site.Site) (*edit.Edit, error) { return edit.RemoveLevel(s, "Cellar") }},
		{"to one that is not there", `no level "Cellar"`, func(s *site.Site) (*edit.Edit, error) {
			return edit.MoveToLevel(s, edit.Select(edit.NodeRef("co")), "Cellar")
		}},
		{"what is never on a level", "belong to the whole site", func(s *site.Site) (*edit.Edit, error) {
			return edit.MoveToLevel(s, edit.Select(edit.SpotRef("s"), edit.WaterRef("h")), "Roof")
		}},
		{"nothing", "nothing is selected", func(s *site.Site) (*edit.Edit, error) { return edit.MoveToLevel(s, edit.Selection{}, "Roof") }},
	} {
		t.Run(c.name, func(t *testing.T) { refuse(t, yard(t), c.message, c.change) })
	}
}
