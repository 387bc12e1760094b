package edit_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

func pt(x, y unit.Length) network.Point { return network.Point{X: x, Y: y} }

func TestMove(t *testing.T) {
	for _, c := range []struct {
		name string
		sel  edit.Selection
		step string
		want func(t *testing.T, s *site.Site)
	}{
		{"a node, and no more", edit.Select(edit.NodeRef("co")), "move cleanout", func(t *testing.T, s *site.Site) {
			assert.Equal(t, pt(11, 2), node(t, s, "co").At)
			assert.Equal(t, pt(20, 0), node(t, s, "w").At)
			assert.Equal(t, pt(8, -5), s.Lays[0].Via[0], "the corner of a lay one of whose ends moves")
		}},
		{"a pipe with ends and corners", edit.Select(edit.PipeRef("p4")), "move pipe", func(t *testing.T, s *site.Site) {
			assert.Equal(t, pt(26, 7), node(t, s, "cap").At)
			assert.Equal(t, pt(21, 2), node(t, s, "w").At)
			assert.Equal(t, []network.Point{{X: 25, Y: 4}}, pipe(t, s, "p4").Via)
		}},
		{"two nodes with the corners between", edit.Select(edit.NodeRef("cap"), edit.NodeRef("w")), "move 2 things", func(t *testing.T, s *site.Site) {
			assert.Equal(t, []network.Point{{X: 25, Y: 4}}, pipe(t, s, "p4").Via)
		}},
		{"one end only leaves the corner", edit.Select(edit.NodeRef("cap")), "move cap", func(t *testing.T, s *site.Site) {
			assert.Equal(t, []network.Point{{X: 24, Y: 2}}, pipe(t, s, "p4").Via)
		}},
		{"spot and access take their lay along", edit.Select(edit.SpotRef("s"), edit.NodeRef("co")), "move 2 things", func(t *testing.T, s *site.Site) {
			assert.Equal(t, pt(6, -8), s.Spots[0].At)
			assert.Equal(t, pt(9, -3), s.Lays[0].Via[0])
		}},
		{"a lay alone moves its corners", edit.Select(edit.Ref{Kind: edit.Lay, ID: "s>co"}), "move lay", func(t *testing.T, s *site.Site) {
			assert.Equal(t, pt(9, -3), s.Lays[0].Via[0])
			assert.Equal(t, pt(5, -10), s.Spots[0].At)
		}},
		{"water, note and underlay", edit.Select(edit.WaterRef("h"), edit.NoteRef("t"), edit.UnderlayRef("u")), "move 3 things", func(t *testing.T, s *site.Site) {
			assert.Equal(t, pt(1, -18), s.Water[0].At)
			assert.Equal(t, pt(4, 5), s.Notes[0].At)
			assert.Equal(t, pt(16, 2), s.Underlays[0].At)
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := yard(t)
			s.Network.Pipes[3].Via = []network.Point{{X: 24, Y: 2}}
			e := do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.Move(s, c.sel, pt(1, 2)) })
			assert.Equal(t, c.step, e.Name())
			c.want(t, s)
		})
	}
}

func TestMoveKeepsWhatWasMeasured(t *testing.T) {
	s := yard(t)
	length := unit.Length(12.5)
	s.Network.Pipes[2].Length = &length
	do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.Move(s, edit.Select(edit.NodeRef("fx")), pt(7, 0)) })
	assert.Equal(t, length, *pipe(t, s, "p3").Length)
}

func TestMoveByDecimalsStaysShort(t *testing.T) {
	s := yard(t)
	do(t, s, func(s *site.Site) (*edit.Edit, error) {
		return edit.Move(s, edit.Select(edit.SpotRef("s")), pt(0.1, 0.2))
	})
	do(t, s, func(s *site.Site) (*edit.Edit, error) {
		return edit.Move(s, edit.Select(edit.SpotRef("s")), pt(0.2, 0.1))
	})
	assert.Equal(t, pt(5.3, -9.7), s.Spots[0].At)
}

func TestMoveOfNothing(t *testing.T) {
	s := yard(t)
	e, err := edit.Move(s, edit.Select(edit.NodeRef("co")), pt(0, 0))
	assert.NoError(t, err)
	assert.True(t, e.Empty())
}

func TestMoveRefuses(t *testing.T) {
	nan := unit.Length(math.NaN())
	for _, c := range []struct {
		name, message string
		sel           edit.Selection
		by            network.Point
	}{
		{"nothing selected", "nothing is selected", edit.Selection{}, pt(1, 1)},
		{"nothing there", "nothing is selected", edit.Select(edit.NodeRef("gone")), pt(1, 1)},
		{"off the plan", "CO-1 would lie at 100010", edit.Select(edit.NodeRef("co")), pt(100000, 0)},
		{"no number", "Spot 1 would lie at NaN", edit.Select(edit.SpotRef("s")), pt(nan, 0)},
		{"endless", "would lie at", edit.Select(edit.PipeRef("p1")), pt(0, unit.Length(math.Inf(-1)))},
		{"a lay's corner", "lay would lie", edit.Select(edit.Ref{Kind: edit.Lay, ID: "s>co"}), pt(-100009, 0)},
		{"locked", "Locked plan is locked", edit.Select(edit.UnderlayRef("v")), pt(1, 1)},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := yard(t)
			s.Underlays = append(s.Underlays, site.Underlay{ID: "v", Label: "Locked plan", Scale: 1, Data: []byte("x..."), Locked: true})
			refuse(t, s, c.message, func(s *site.Site) (*edit.Edit, error) { return edit.Move(s, c.sel, c.by) })
		})
	}
}

func TestMoveLeavesLockedUnderlays(t *testing.T) {
	s := yard(t)
	s.Underlays[0].Locked = true
	e := do(t, s, func(s *site.Site) (*edit.Edit, error) {
		return edit.Move(s, edit.Select(edit.UnderlayRef("u"), edit.SpotRef("s")), pt(1, 1))
	})
	assert.Equal(t, "move spot", e.Name())
	assert.Equal(t, pt(15, 0), s.Underlays[0].At)
}

// TestReachIsTheSchemas: a place at the limit loads, one beyond it does not.
func TestReachIsTheSchemas(t *testing.T) {
	s := yard(t)
	do(t, s, func(s *site.Site) (*edit.Edit, error) {
		return edit.Move(s, edit.Select(edit.NoteRef("t")), pt(99997, -100003))
	})
	assert.NoError(t, site.Check(s.Notes[0]))
	beyond := s.Notes[0]
	beyond.At.X += 1e-6
	assert.Error(t, site.Check(beyond))
}
