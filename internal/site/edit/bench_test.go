package edit_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

// The edits of a selection on a district of 10,000 pipes; orders of magnitude to
// hold on two cores: 50 ms each.
const manyPipes = 10_000

func benchEdit(b *testing.B, make func(s *site.Site) (*edit.Edit, error)) {
	s := district(b, manyPipes)
	var e *edit.Edit
	var err error
	for b.Loop() {
		e, err = make(s)
		require.NoError(b, err)
		e.Do(s)
		b.StopTimer()
		e.Undo(s)
		b.StartTimer()
	}
	require.False(b, e.Empty())
}

func BenchmarkMoveAll(b *testing.B) {
	benchEdit(b, func(s *site.Site) (*edit.Edit, error) { return edit.Move(s, edit.All(s, ""), pt(1, 2)) })
}

func BenchmarkRotateAll(b *testing.B) {
	benchEdit(b, func(s *site.Site) (*edit.Edit, error) {
		return edit.Rotate(s, edit.All(s, ""), pt(1, 2), unit.Degrees(30))
	})
}

func BenchmarkMoveOne(b *testing.B) {
	benchEdit(b, func(s *site.Site) (*edit.Edit, error) {
		return edit.Move(s, edit.Select(edit.NodeRef(s.Network.Nodes[77].ID)), pt(1, 2))
	})
}

// half is every other pipe.
func half(s *site.Site) edit.Selection {
	var refs []edit.Ref
	for i, p := range s.Network.Pipes {
		if i%2 == 0 {
			refs = append(refs, edit.PipeRef(p.ID))
		}
	}
	return edit.Select(refs...)
}

func BenchmarkDeleteHalf(b *testing.B) {
	benchEdit(b, func(s *site.Site) (*edit.Edit, error) { return edit.Delete(s, half(s)) })
}

// BenchmarkDeleteNodes deletes every other node: all its joints are to be mended.
func BenchmarkDeleteNodes(b *testing.B) {
	benchEdit(b, func(s *site.Site) (*edit.Edit, error) {
		var refs []edit.Ref
		for i, n := range s.Network.Nodes {
			if i%2 == 0 {
				refs = append(refs, edit.NodeRef(n.ID))
			}
		}
		return edit.Delete(s, edit.Select(refs...))
	})
}

func BenchmarkDuplicateHalf(b *testing.B) {
	benchEdit(b, func(s *site.Site) (*edit.Edit, error) { return edit.Duplicate(s, half(s), pt(1, 2)) })
}

func BenchmarkReverseHalf(b *testing.B) {
	benchEdit(b, func(s *site.Site) (*edit.Edit, error) { return edit.Reverse(s, half(s)) })
}

func BenchmarkSetPipesHalf(b *testing.B) {
	benchEdit(b, func(s *site.Site) (*edit.Edit, error) {
		return edit.Change(s, "change material", half(s), edit.Changes{Pipe: func(p *network.Pipe) { p.Material = network.Clay }})
	})
}
