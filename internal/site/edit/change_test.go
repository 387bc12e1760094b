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

func setNode(s *site.Site, id network.NodeID, to func(*network.Node)) (*edit.Edit, error) {
	return edit.Change(s, "change node", edit.Select(edit.NodeRef(id)), edit.Changes{Node: to})
}

func setPipe(s *site.Site, id network.PipeID, to func(*network.Pipe)) (*edit.Edit, error) {
	return edit.Change(s, "change pipe", edit.Select(edit.PipeRef(id)), edit.Changes{Pipe: to})
}

func setSpot(s *site.Site, id site.SpotID, to func(*site.Spot)) (*edit.Edit, error) {
	return edit.Change(s, "change spot", edit.Select(edit.SpotRef(id)), edit.Changes{Spot: to})
}

func setWater(s *site.Site, id site.WaterID, to func(*site.WaterPoint)) (*edit.Edit, error) {
	return edit.Change(s, "change water point", edit.Select(edit.WaterRef(id)), edit.Changes{Water: to})
}

func setLay(s *site.Site, r edit.Ref, to func(*site.Lay)) (*edit.Edit, error) {
	return edit.Change(s, "change lay", edit.Select(r), edit.Changes{Lay: to})
}

func setNote(s *site.Site, id site.NoteID, to func(*site.Note)) (*edit.Edit, error) {
	return edit.Change(s, "change note", edit.Select(edit.NoteRef(id)), edit.Changes{Note: to})
}

func TestChangePipes(t *testing.T) {
	s := yard(t)
	e := do(t, s, func(s *site.Site) (*edit.Edit, error) {
		return edit.Change(s, "change material", edit.Select(edit.PipeRef("p1"), edit.PipeRef("p3")), edit.Changes{Pipe: func(p *network.Pipe) { p.Material = network.Clay }})
	})
	assert.Equal(t, "change material", e.Name())
	assert.Equal(t, network.Clay, pipe(t, s, "p1").Material)
	assert.Equal(t, network.PVC40, pipe(t, s, "p2").Material)
	assert.Equal(t, network.Clay, pipe(t, s, "p3").Material)

	same, err := edit.Change(s, "change material", edit.Select(edit.PipeRef("p1"), edit.PipeRef("p3")), edit.Changes{Pipe: func(p *network.Pipe) { p.Material = network.Clay }})
	require.NoError(t, err)
	assert.True(t, same.Empty(), "nothing changed, so there is nothing to undo")
}

func TestSetEachKind(t *testing.T) {
	s := yard(t)
	for _, change := range []func(*site.Site) (*edit.Edit, error){
		func(s *site.Site) (*edit.Edit, error) {
			return setNode(s, "co", func(n *network.Node) { n.Access.Riser, n.Label = 1.5, "FD-1" }) // labels may stand twice
		},
		func(s *site.Site) (*edit.Edit, error) {
			return edit.Change(s, "change note", edit.Select(edit.NodeRef("co"), edit.NodeRef("cap")), edit.Changes{Node: func(n *network.Node) { n.Note = "seen" }})
		},
		func(s *site.Site) (*edit.Edit, error) {
			return setPipe(s, "p4", func(p *network.Pipe) { p.Via = append(p.Via, pt(24, 1)) })
		},
		func(s *site.Site) (*edit.Edit, error) {
			return setSpot(s, "s", func(v *site.Spot) { v.Traffic = site.ConedTraffic })
		},
		func(s *site.Site) (*edit.Edit, error) {
			return setWater(s, "h", func(v *site.WaterPoint) { v.Kind = site.Tanker })
		},
		func(s *site.Site) (*edit.Edit, error) {
			return setLay(s, edit.LayRef(&s.Lays[0]), func(l *site.Lay) { l.Via[0].X = 9 })
		},
		func(s *site.Site) (*edit.Edit, error) {
			return setNote(s, "t", func(v *site.Note) { v.Text = "Gate open" })
		},
		func(s *site.Site) (*edit.Edit, error) {
			return edit.SetUnderlay(s, "u", func(v *site.Underlay) { v.Dim, v.Locked = 0.5, true })
		},
		func(s *site.Site) (*edit.Edit, error) {
			return edit.SetUnderlay(s, "u", func(v *site.Underlay) { v.Locked = false }) // a lock keeps the hand off, not the form
		},
	} {
		e := do(t, s, change)
		assert.False(t, e.Empty())
	}
	assert.Equal(t, unit.Length(1.5), node(t, s, "co").Access.Riser)
	assert.Equal(t, "seen", node(t, s, "cap").Note)
	assert.Equal(t, pt(9, -5), s.Lays[0].Via[0])
	assert.Equal(t, "Gate open", s.Notes[0].Text)
}

// TestChangeGivesCopies: a form that writes through what it was given, and is
// then refused, has not touched the site.
func TestChangeGivesCopies(t *testing.T) {
	s := yard(t)
	refuse(t, s, "CO-1: access.size: found 7", func(s *site.Site) (*edit.Edit, error) {
		return setNode(s, "co", func(n *network.Node) { n.Access.Size = 7 })
	})
	refuse(t, s, "junction.branches", func(s *site.Site) (*edit.Edit, error) {
		return setNode(s, "w", func(n *network.Node) {
			n.Junction.Branches[0] = "p2"
			n.Junction.Branches = append(n.Junction.Branches, "p3", "p4")
		})
	})
}

func TestChangeOfKind(t *testing.T) {
	s := yard(t)
	do(t, s, func(s *site.Site) (*edit.Edit, error) {
		return setNode(s, "co", func(n *network.Node) { n.Kind = network.KindBackwater })
	})
	assert.Nil(t, node(t, s, "co").Access)
	assert.Len(t, s.Lays, 1, "the lay to the access is gone")
	assert.True(t, s.ByHand.IsZero())
}

func TestChangeRefuses(t *testing.T) {
	for _, c := range []struct {
		name, message string
		change        func(s *site.Site) (*edit.Edit, error)
	}{
		{"what is gone", "nothing is selected", func(s *site.Site) (*edit.Edit, error) {
			return setPipe(s, "no", func(*network.Pipe) {})
		}},
		{"another ID", "CO-1: what it is joined to and its ID", func(s *site.Site) (*edit.Edit, error) {
			return setNode(s, "co", func(n *network.Node) { n.ID = "x" })
		}},
		{"other ends", "pipe p1: what it is joined to", func(s *site.Site) (*edit.Edit, error) {
			return setPipe(s, "p1", func(p *network.Pipe) { p.To = "w" })
		}},
		{"another lay", "lay: what it is joined to", func(s *site.Site) (*edit.Edit, error) {
			return setLay(s, edit.LayRef(&s.Lays[0]), func(l *site.Lay) { l.Access = "w" })
		}},
		{"a level that is not there", `FD-1: there is no level "Cellar"`, func(s *site.Site) (*edit.Edit, error) {
			return setNode(s, "fx", func(n *network.Node) { n.Level = "Cellar" })
		}},
		{"a note's level", `note t: there is no level "Cellar"`, func(s *site.Site) (*edit.Edit, error) {
			return setNote(s, "t", func(n *site.Note) { n.Level = "Cellar" })
		}},
		{"a branch that is no leg", `wye w: its branch "p1" must be a pipe that ends at it`, func(s *site.Site) (*edit.Edit, error) {
			return setNode(s, "w", func(n *network.Node) { n.Junction.Branches = []network.PipeID{"p1"} })
		}},
		{"an access without its figures", "FD-1: access: found nothing", func(s *site.Site) (*edit.Edit, error) {
			return setNode(s, "fx", func(n *network.Node) { n.Kind = network.KindAccess })
		}},
		{"one of two out of range", "H-1: flow: found 0.5 L/min, must be a number from 1 to 10000 L/min", func(s *site.Site) (*edit.Edit, error) {
			return edit.Change(s, "change", edit.Select(edit.WaterRef("h"), edit.SpotRef("s")), edit.Changes{
				Spot:  func(v *site.Spot) { v.Uneven = true },
				Water: func(v *site.WaterPoint) { v.Flow = unit.LitresPerMinute(0.5) },
			})
		}},
		{"no UTF-8", "Spot 1", func(s *site.Site) (*edit.Edit, error) {
			return setSpot(s, "s", func(v *site.Spot) { v.Note = "\xff" })
		}},
		{"an underlay too large", "Plan: scale: found 1001 m", func(s *site.Site) (*edit.Edit, error) {
			return edit.SetUnderlay(s, "u", func(v *site.Underlay) { v.Scale = 1001 })
		}},
		{"an underlay without a picture", "Plan: file: found nothing", func(s *site.Site) (*edit.Edit, error) {
			return edit.SetUnderlay(s, "u", func(v *site.Underlay) { v.Data = nil })
		}},
	} {
		t.Run(c.name, func(t *testing.T) { refuse(t, yard(t), c.message, c.change) })
	}
}
