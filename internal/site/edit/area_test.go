package edit_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

// lot is an outline of 10 by 6 m south of the yard's drain.
func lot() []network.Point { return []network.Point{pt(0, -15), pt(10, -15), pt(10, -9), pt(0, -9)} }

func placeArea(t *testing.T, s *site.Site, kind site.AreaKind, outline []network.Point) *site.Area {
	t.Helper()
	e := do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.PlaceArea(s, kind, outline) })
	a := &s.Areas[len(s.Areas)-1]
	assert.Equal(t, []edit.Ref{edit.AreaRef(a.ID)}, e.Made())
	return a
}

func TestPlaceArea(t *testing.T) {
	s := yard(t)
	outline := lot()
	a := placeArea(t, s, site.Stand, append(outline, outline[0], outline[0]))
	assert.Equal(t, site.Area{ID: "a1", Label: "Stand 1", Kind: site.Stand, Outline: lot()}, *a, "closed by a click on the first corner")
	outline[0].X = 99
	assert.Equal(t, lot(), a.Outline, "nothing is shared with the caller")
	assert.Equal(t, "Keep clear 1", placeArea(t, s, site.KeepClear, lot()).Label)
	assert.Equal(t, "Stand 2", placeArea(t, s, site.Stand, lot()).Label)
	assert.Equal(t, "Walkway 1", placeArea(t, s, site.Walkway, lot()).Label)
}

func TestPlaceAreaRefuses(t *testing.T) {
	for _, c := range []struct {
		name    string
		kind    site.AreaKind
		outline []network.Point
		message string
	}{
		{"nothing", site.Stand, nil, "too few corners (0)"},
		{"a line", site.Stand, []network.Point{pt(0, 0), pt(5, 0), pt(0, 0)}, "too few corners (2)"},
		{"there and back", site.Stand, []network.Point{pt(0, 0), pt(5, 0), pt(9, 0)}, "crosses or touches itself"},
		{"no ground", site.Stand, []network.Point{pt(0, 0), pt(0.1, 0), pt(0, 0.1)}, "encloses no ground (0 m²)"},
		{"across itself", site.Walkway, []network.Point{pt(0, 0), pt(10, 9), pt(10, 0), pt(0, 9), pt(-5, 5)}, "crosses or touches itself (5.0 m east, 4.5 m north)"},
		{"off the plan", site.Stand, []network.Point{pt(0, 0), pt(5, 0), pt(0, 200000)}, "the corner would lie at"},
		{"no kind", "", lot(), `kind: found ""`},
		{"too many corners", site.Stand, comb(201), "a list of 201"},
	} {
		t.Run(c.name, func(t *testing.T) {
			refuse(t, yard(t), c.message, func(s *site.Site) (*edit.Edit, error) { return edit.PlaceArea(s, c.kind, c.outline) })
		})
	}
}

// comb is a curved outline of n corners.
func comb(n int) []network.Point {
	var all []network.Point
	for i := range n {
		x := unit.Length(i)
		all = append(all, network.Point{X: x, Y: x * x / 100})
	}
	return all
}

func TestAreaCorners(t *testing.T) {
	s := yard(t)
	id := placeArea(t, s, site.Walkway, lot()).ID
	step := func(what string, change func(*site.Site) (*edit.Edit, error), want ...network.Point) {
		t.Helper()
		do(t, s, change)
		assert.Equal(t, want, s.Areas[0].Outline, what)
	}
	step("one more in the closing side", func(s *site.Site) (*edit.Edit, error) { return edit.AddAreaCorner(s, id, 3, pt(-2, -12)) },
		pt(0, -15), pt(10, -15), pt(10, -9), pt(0, -9), pt(-2, -12))
	step("moved", func(s *site.Site) (*edit.Edit, error) { return edit.MoveAreaCorner(s, id, 0, pt(1, -14)) },
		pt(1, -14), pt(10, -15), pt(10, -9), pt(0, -9), pt(-2, -12))
	step("gone", func(s *site.Site) (*edit.Edit, error) { return edit.RemoveAreaCorner(s, id, 1) },
		pt(1, -14), pt(10, -9), pt(0, -9), pt(-2, -12))
	refuse(t, s, "crosses or touches itself", func(s *site.Site) (*edit.Edit, error) { return edit.MoveAreaCorner(s, id, 0, pt(5, -5)) })
	refuse(t, s, "Walkway 1 has 4 corners, and none of number 5", func(s *site.Site) (*edit.Edit, error) { return edit.RemoveAreaCorner(s, id, 4) })
	refuse(t, s, "none of number 0", func(s *site.Site) (*edit.Edit, error) { return edit.AddAreaCorner(s, id, -1, pt(0, 0)) })
	refuse(t, s, "the corner would lie at", func(s *site.Site) (*edit.Edit, error) { return edit.MoveAreaCorner(s, id, 0, pt(2e5, 0)) })
	refuse(t, s, `there is no area "a9"`, func(s *site.Site) (*edit.Edit, error) { return edit.RemoveAreaCorner(s, "a9", 0) })
	do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.RemoveAreaCorner(s, id, 3) })
	refuse(t, s, "too few corners (2)", func(s *site.Site) (*edit.Edit, error) { return edit.RemoveAreaCorner(s, id, 0) })

	s.Areas[0].Outline = []network.Point{pt(0, 0), pt(4, 3), pt(4, 0), pt(0, 4)} // as a file may have it
	do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.MoveAreaCorner(s, id, 0, pt(1, 0)) })
}

func TestSetArea(t *testing.T) {
	s := yard(t)
	id := placeArea(t, s, site.Stand, lot()).ID
	do(t, s, func(s *site.Site) (*edit.Edit, error) {
		return edit.SetArea(s, id, func(a *site.Area) { a.Label, a.Kind, a.Note = "Fire lane", site.KeepClear, "ask the chief" })
	})
	assert.Equal(t, site.Area{ID: id, Label: "Fire lane", Kind: site.KeepClear, Outline: lot(), Note: "ask the chief"}, s.Areas[0])
	refuse(t, s, `Fire lane: kind: found "pool"`, func(s *site.Site) (*edit.Edit, error) {
		return edit.SetArea(s, id, func(a *site.Area) { a.Kind = "pool" })
	})
}

func TestCarryAreas(t *testing.T) {
	s := yard(t)
	placeArea(t, s, site.Walkway, []network.Point{pt(0, 0), pt(4, 0), pt(0, 3)})
	sel := edit.Select(edit.AreaRef("a1"))
	e := do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.Move(s, sel, pt(1, 2)) })
	assert.Equal(t, "move walkway", e.Name())
	assert.Equal(t, []network.Point{pt(1, 2), pt(5, 2), pt(1, 5)}, s.Areas[0].Outline)
	do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.Rotate(s, sel, pt(1, 2), unit.Degrees(90)) })
	assert.Equal(t, []network.Point{pt(1, 2), pt(1, 6), pt(-2, 2)}, s.Areas[0].Outline)
	do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.Mirror(s, sel, pt(1, 0), pt(1, 1)) })
	assert.Equal(t, []network.Point{pt(1, 2), pt(1, 6), pt(4, 2)}, s.Areas[0].Outline)
	assert.Equal(t, unit.Area(6), site.AreaOf(s.Areas[0].Outline))

	e = do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.Duplicate(s, sel, pt(10, 0)) })
	assert.Equal(t, "Walkway 2", s.Areas[1].Label)
	assert.Equal(t, []network.Point{pt(11, 2), pt(11, 6), pt(14, 2)}, s.Areas[1].Outline)
	assert.Equal(t, []edit.Ref{edit.AreaRef(s.Areas[1].ID)}, e.Made())
	assert.Equal(t, 2, edit.SameKind(s, edit.AreaRef("a1")).Len())
	assert.True(t, edit.All(s, "Roof").Has(edit.AreaRef("a1")), "the ground belongs to every level")
	assert.Equal(t, s.Areas[0].Outline, edit.Places(s, sel))

	text, err := edit.Copy(s, sel).Text()
	assert.NoError(t, err)
	clip, err := edit.ClipFromText(text)
	assert.NoError(t, err)
	do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.Paste(s, clip, pt(0, 0), "Ground") })
	assert.Equal(t, []network.Point{pt(-1.5, -2), pt(-1.5, 2), pt(1.5, -2)}, s.Areas[2].Outline, "its middle where it is put")
	do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.Delete(s, edit.SameKind(s, edit.AreaRef("a1"))) })
	assert.Nil(t, s.Areas)
}
