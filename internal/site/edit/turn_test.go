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

func TestRotate(t *testing.T) {
	root := unit.Length(math.Sqrt2)
	for _, c := range []struct {
		name string
		by   unit.Angle
		from network.Point
		want network.Point
		near bool
	}{
		{"a quarter turn is exact", unit.Degrees(90), pt(3, 0), pt(1, 2), false},
		{"and back", unit.Degrees(-90), pt(1, 2), pt(3, 0), false},
		{"half a turn", unit.Degrees(180), pt(3, 0.5), pt(-1, -0.5), false},
		{"five quarters", unit.Degrees(450), pt(3, 0), pt(1, 2), false},
		{"an eighth", unit.Degrees(45), pt(1+root, 0), pt(2, 1), true},
		{"a trade bend", unit.Degrees(22.5), pt(2, 0), pt(1+0.9238795325, 0.3826834324), true}, // cos and sin of 22.5 degrees
	} {
		t.Run(c.name, func(t *testing.T) {
			s := yard(t)
			s.Spots[0].At = c.from
			do(t, s, func(s *site.Site) (*edit.Edit, error) {
				return edit.Rotate(s, edit.Select(edit.SpotRef("s")), pt(1, 0), c.by)
			})
			if c.near {
				assert.Less(t, s.Spots[0].At.Distance(c.want).Metres(), 1e-8)
			} else {
				assert.Equal(t, c.want, s.Spots[0].At)
			}
		})
	}
}

func TestRotateTurnsPictures(t *testing.T) {
	s := yard(t)
	s.Underlays[0].Turn = unit.Degrees(300)
	turn := func(by float64) {
		do(t, s, func(s *site.Site) (*edit.Edit, error) {
			return edit.Rotate(s, edit.Select(edit.UnderlayRef("u")), pt(15, 0), unit.Degrees(by))
		})
	}
	turn(90)
	assert.InDelta(t, 30, s.Underlays[0].Turn.Degrees(), 1e-9)
	turn(-45)
	assert.InDelta(t, 345, s.Underlays[0].Turn.Degrees(), 1e-9)
	assert.Equal(t, pt(15, 0), s.Underlays[0].At)
}

func TestMirror(t *testing.T) {
	for _, c := range []struct {
		name string
		a, b network.Point
		want network.Point
		near bool
	}{
		{"left to right", pt(10, 0), pt(10, 5), pt(17, 4), false},
		{"top to bottom", pt(0, 1), pt(9, 1), pt(3, -2), false},
		{"across the diagonal", pt(0, 0), pt(1, 1), pt(4, 3), true},
		{"across another", pt(0, 0), pt(2, 1), pt(5, 0), true}, // foot of (3, 4) on the line is (4, 2)
	} {
		t.Run(c.name, func(t *testing.T) {
			s := yard(t)
			s.Notes[0].At = pt(3, 4)
			s.Underlays[0].Turn = unit.Degrees(30)
			do(t, s, func(s *site.Site) (*edit.Edit, error) {
				return edit.Mirror(s, edit.Select(edit.NoteRef("t"), edit.UnderlayRef("u")), c.a, c.b)
			})
			if c.near {
				assert.Less(t, s.Notes[0].At.Distance(c.want).Metres(), 1e-8)
			} else {
				assert.Equal(t, c.want, s.Notes[0].At)
			}
			assert.Equal(t, unit.Degrees(30), s.Underlays[0].Turn)
		})
	}
}

// TestMirrorKeepsTheDrain: what a hose meets is the same on the other side, but
// for left and right.
func TestMirrorKeepsTheDrain(t *testing.T) {
	s := yard(t)
	was := s.Clone()
	before, _ := network.Trace(&was.Network)
	do(t, s, func(s *site.Site) (*edit.Edit, error) {
		return edit.Mirror(s, edit.All(s, "Ground"), pt(0, 0), pt(0, 1))
	})
	after, _ := network.Trace(&s.Network)
	into, _ := before.PipeIndex("p2")
	branch, _ := before.PipeIndex("p4")
	a, b := before.Passage(into, branch), after.Passage(into, branch)
	assert.Equal(t, "left", a.Side)
	assert.Equal(t, "right", b.Side)
	a.Side, b.Side = "", ""
	assert.Equal(t, a, b)
}

func TestTurnRefuses(t *testing.T) {
	s := yard(t)
	sel := edit.Select(edit.SpotRef("s"))
	refuse(t, s, "not a number", func(s *site.Site) (*edit.Edit, error) { return edit.Rotate(s, sel, pt(0, 0), unit.Angle(math.Inf(1))) })
	refuse(t, s, "two places apart", func(s *site.Site) (*edit.Edit, error) { return edit.Mirror(s, sel, pt(1, 1), pt(1, 1)) })
	refuse(t, s, "Spot 1 would lie", func(s *site.Site) (*edit.Edit, error) { return edit.Rotate(s, sel, pt(99999, 0), unit.Degrees(180)) })
	refuse(t, s, "two places apart", func(s *site.Site) (*edit.Edit, error) {
		return edit.Mirror(s, sel, pt(unit.Length(math.NaN()), 0), pt(1, 1))
	})
}
