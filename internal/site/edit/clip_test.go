package edit_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

func TestPasteEverything(t *testing.T) {
	s := yard(t)
	c := edit.Copy(s, edit.All(s, "Ground"))
	// Nodes lie from 0 to 30 m east, water at 20 m south, the cap at 5 m north.
	e := do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.Paste(s, c, pt(15+100, -7.5), "Ground") })
	assert.Equal(t, "paste 15 things", e.Name())
	assert.Len(t, e.Made(), 15)
	require.Len(t, s.Network.Nodes, 10)
	for i := range 5 {
		was, is := s.Network.Nodes[i], s.Network.Nodes[i+5]
		assert.Equal(t, pt(was.At.X+100, was.At.Y), is.At)
		assert.Equal(t, was.Level, is.Level)
		assert.Equal(t, was.Kind, is.Kind)
		assert.NotEqual(t, was.ID, is.ID)
	}
	assert.Equal(t, []string{"Sewer", "CO-2", "", "FD-2", ""}, []string{
		s.Network.Nodes[5].Label, s.Network.Nodes[6].Label, s.Network.Nodes[7].Label, s.Network.Nodes[8].Label, s.Network.Nodes[9].Label,
	})
	p := s.Network.Pipes[7]
	assert.Equal(t, s.Network.Nodes[9].ID, p.From)
	assert.Equal(t, s.Network.Nodes[7].ID, p.To)
	assert.Equal(t, []network.PipeID{p.ID}, s.Network.Nodes[7].Junction.Branches)
	assert.Equal(t, "Spot 2", s.Spots[1].Label)
	assert.Equal(t, site.Lay{Spot: s.Spots[1].ID, Access: s.Network.Nodes[6].ID, Via: []network.Point{{X: 108, Y: -5}}}, s.Lays[2])
	assert.Equal(t, site.Lay{Spot: s.Spots[1].ID, Water: s.Water[1].ID}, s.Lays[3])
	assert.Equal(t, pt(103, 3), s.Notes[1].At)
	assert.Equal(t, []byte("picture"), s.Underlays[1].Data)
	assert.Len(t, s.ByHand.Keep, 1)
}

func TestCopyMendsWhatIsCutOff(t *testing.T) {
	for _, c := range []struct {
		name  string
		sel   edit.Selection
		kinds []network.NodeKind
		pipes int
	}{
		{"a branch ends in a cap where its wye was", edit.Select(edit.PipeRef("p4")), []network.NodeKind{network.KindCap, network.KindCap}, 1},
		{"a run without its branch is one pipe", edit.Select(edit.PipeRef("p2"), edit.PipeRef("p3")), []network.NodeKind{network.KindAccess, network.KindFixture}, 1},
		{"an access alone", edit.Select(edit.NodeRef("co")), []network.NodeKind{network.KindAccess}, 0},
		{"a wye with all its pipes", edit.Select(edit.PipeRef("p2"), edit.PipeRef("p3"), edit.PipeRef("p4")), []network.NodeKind{network.KindAccess, network.KindJunction, network.KindFixture, network.KindCap}, 3},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := yard(t)
			clip := edit.Copy(s, c.sel)
			fresh, err := site.New(unit.US)
			require.NoError(t, err)
			do(t, fresh, func(s *site.Site) (*edit.Edit, error) { return edit.Paste(s, clip, pt(0, 0), "") })
			var kinds []network.NodeKind
			for _, n := range fresh.Network.Nodes {
				kinds = append(kinds, n.Kind)
				assert.Empty(t, n.Level)
			}
			assert.Equal(t, c.kinds, kinds)
			assert.Len(t, fresh.Network.Pipes, c.pipes)
		})
	}
}

// TestClipIsItsOwn: what is done to the site after copying does not reach the
// clip, and pasting twice gives two that share nothing.
func TestClipIsItsOwn(t *testing.T) {
	s := yard(t)
	c := edit.Copy(s, edit.Select(edit.NodeRef("co")))
	s.Network.Nodes[1].Access.Size = 2
	do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.Paste(s, c, pt(0, 9), "Ground") })
	assert.Equal(t, unit.Size(4), s.Network.Nodes[5].Access.Size)
	do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.Paste(s, c, pt(0, 12), "Ground") })
	assert.NotSame(t, s.Network.Nodes[5].Access, s.Network.Nodes[6].Access)
	assert.Equal(t, "CO-3", s.Network.Nodes[6].Label)
}

func TestPasteLevels(t *testing.T) {
	s := yard(t)
	one := edit.Copy(s, edit.Select(edit.NodeRef("co"), edit.NoteRef("t")))
	do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.Paste(s, one, pt(0, 0), "Roof") })
	assert.Equal(t, "Roof", s.Network.Nodes[5].Level)
	assert.Equal(t, "Roof", s.Notes[1].Level)

	s = yard(t)
	s.Network.Nodes[3].Level = "Roof"
	two := edit.Copy(s, edit.Select(edit.NodeRef("co"), edit.NodeRef("fx")))
	do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.Paste(s, two, pt(0, 0), "Ground") })
	assert.Equal(t, []string{"Ground", "Roof"}, []string{s.Network.Nodes[5].Level, s.Network.Nodes[6].Level})

	other := yard(t)
	other.Network.Levels = other.Network.Levels[:1]
	do(t, other, func(s *site.Site) (*edit.Edit, error) { return edit.Paste(s, two, pt(0, 0), "Ground") })
	assert.Equal(t, []string{"Ground", "Ground"}, []string{other.Network.Nodes[5].Level, other.Network.Nodes[6].Level})
	refuse(t, other, `no level "Cellar"`, func(s *site.Site) (*edit.Edit, error) { return edit.Paste(s, two, pt(0, 0), "Cellar") })
}

func TestDuplicate(t *testing.T) {
	s := yard(t)
	s.Network.Nodes[1].Level = "Roof"
	e := do(t, s, func(s *site.Site) (*edit.Edit, error) {
		return edit.Duplicate(s, edit.Select(edit.PipeRef("p1")), pt(0, 3))
	})
	assert.Equal(t, "duplicate 3 things", e.Name())
	assert.Equal(t, pt(10, 3), s.Network.Nodes[6].At)
	assert.Equal(t, "Roof", s.Network.Nodes[6].Level)
	assert.Equal(t, "Ground", s.Network.Nodes[5].Level)
	refuse(t, s, "nothing is selected", func(s *site.Site) (*edit.Edit, error) { return edit.Duplicate(s, edit.Selection{}, pt(0, 3)) })
}

func TestPasteRefuses(t *testing.T) {
	s := yard(t)
	refuse(t, s, "nothing to paste", func(s *site.Site) (*edit.Edit, error) { return edit.Paste(s, edit.Clip{}, pt(0, 0), "") })
	c := edit.Copy(s, edit.All(s, "Ground"))
	refuse(t, s, "would lie at", func(s *site.Site) (*edit.Edit, error) { return edit.Paste(s, c, pt(99990, 0), "Ground") })
	s.Spots = make([]site.Spot, 1000)
	for i := range s.Spots {
		s.Spots[i] = site.Spot{ID: site.SpotID("s" + strings.Repeat("x", i%60) + string(rune('a'+i/60))), At: pt(0, 0)}
	}
	refuse(t, s, "1001 spots, at most 1000", func(s *site.Site) (*edit.Edit, error) { return edit.Paste(s, c, pt(0, 0), "Ground") })
}

func TestClipText(t *testing.T) {
	s := yard(t)
	c := edit.Copy(s, edit.All(s, "Ground"))
	text, err := c.Text()
	require.NoError(t, err)
	back, err := edit.ClipFromText(text)
	require.NoError(t, err)
	a, b := yard(t), yard(t)
	do(t, a, func(s *site.Site) (*edit.Edit, error) { return edit.Paste(s, c, pt(50, 50), "Roof") })
	do(t, b, func(s *site.Site) (*edit.Edit, error) { return edit.Paste(s, back, pt(50, 50), "Roof") })
	assert.Equal(t, encode(t, a), encode(t, b))

	// A whole site file can be pasted, too.
	demo, err := site.Demo("restaurant")
	require.NoError(t, err)
	whole, err := edit.ClipFromText(encode(t, demo))
	require.NoError(t, err)
	do(t, a, func(s *site.Site) (*edit.Edit, error) { return edit.Paste(s, whole, pt(0, 0), "Roof") })
	_, err = edit.Clip{}.Text()
	assert.ErrorContains(t, err, "nothing to paste")
}

func TestClipFromTextRefuses(t *testing.T) {
	text, err := edit.Copy(yard(t), edit.Select(edit.PipeRef("p1"))).Text()
	require.NoError(t, err)
	for _, c := range []struct{ name, text, message string }{
		{"nothing", "", "no part of a drawing"},
		{"prose", "call the caretaker", "no part of a drawing"},
		{"other data", `{"type": "FeatureCollection"}`, "no part of a drawing that can be pasted: linemap: found nothing"},
		{"cut off", text[:len(text)/2], "can be pasted"},
		{"a place off the plan", strings.Replace(text, `"x": 10`, `"x": 1e9`, 1), "network.nodes[co].at.x: found 1e9 m"},
		{"a pipe to nowhere", strings.Replace(text, `"to": "out"`, `"to": "no"`, 1), `network.pipes[p1].to: found "no"`},
		{"nested without end", strings.Repeat(`{"linemap":`, 100000), "can be pasted"},
		{"nothing on it", encode(t, must(site.New(unit.US))), "nothing on it"},
	} {
		t.Run(c.name, func(t *testing.T) {
			clip, err := edit.ClipFromText(c.text)
			require.ErrorContains(t, err, c.message)
			assert.True(t, clip.Empty())
		})
	}
}

func must(s *site.Site, err error) *site.Site {
	if err != nil {
		panic(err)
	}
	return s
}

func TestPastedLabels(t *testing.T) {
	long := strings.Repeat("é", 199) + "9"
	for _, c := range []struct {
		name  string
		there []string
		label string
		want  string
	}{
		{"free", []string{"CO-1"}, "CO-2", "CO-2"},
		{"taken", []string{"CO-1"}, "CO-1", "CO-2"},
		{"the next free one", []string{"CO-1", "CO-2", "CO-4"}, "CO-1", "CO-3"},
		{"a gap below stays", []string{"CO-7"}, "CO-7", "CO-8"},
		{"leading zeros", []string{"CO-09"}, "CO-09", "CO-10"},
		{"in parentheses", []string{"Riser (2)"}, "Riser (2)", "Riser (3)"},
		{"a number that is not the end", []string{"2nd sink"}, "2nd sink", "2nd sink"},
		{"no number", []string{"Sewer"}, "Sewer", "Sewer"},
		{"not a number in parentheses", []string{"Yard 5)"}, "Yard 5)", "Yard 5)"},
		{"no room for a longer one", []string{long}, long, long},
		{"a very long number", []string{"M-99999999999"}, "M-99999999999", "M-99999999999"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := must(site.New(unit.US))
			for _, l := range c.there {
				s.Spots = append(s.Spots, site.Spot{ID: site.SpotID("s" + string(rune('a'+len(s.Spots)))), Label: l})
			}
			other := must(site.New(unit.US))
			other.Spots = []site.Spot{{ID: "x", Label: c.label}}
			do(t, s, func(s *site.Site) (*edit.Edit, error) {
				return edit.Paste(s, edit.Copy(other, edit.Select(edit.SpotRef("x"))), pt(0, 0), "")
			})
			assert.Equal(t, c.want, s.Spots[len(s.Spots)-1].Label)
		})
	}
}
