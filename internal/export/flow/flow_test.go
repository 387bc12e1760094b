package flow_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/export/flow"
)

func piece(log *[]string, name string, height float64) flow.Piece {
	return flow.Piece{Height: height, Draw: func(_, y float64) { *log = append(*log, fmt.Sprintf("%s@%g", name, y)) }}
}

// drawn draws all pages and lists what stands on each.
func drawn(s *flow.Setter, log *[]string) [][]string {
	var pages [][]string
	for _, page := range s.Pages() {
		*log = nil
		for _, p := range page {
			if p.Draw != nil {
				p.Draw(0, p.Y)
			}
		}
		pages = append(pages, *log)
	}
	return pages
}

func TestGroupsStayTogether(t *testing.T) {
	var log []string
	group := func(name string, heights ...float64) flow.Group {
		g := flow.Group{Lead: 1}
		for i, h := range heights {
			g.Pieces = append(g.Pieces, piece(&log, fmt.Sprintf("%s%d", name, i), h))
		}
		return g
	}
	again := piece(&log, "again", 10)

	cases := map[string]struct {
		fill func(s *flow.Setter)
		want [][]string
	}{
		"two that fit share a page": {
			func(s *flow.Setter) { s.Add(group("a", 40)); s.Add(group("b", 60)) },
			[][]string{{"a0@0", "b0@40"}},
		},
		"one that does not fit the rest moves as a whole": {
			func(s *flow.Setter) { s.Add(group("a", 50)); s.Add(group("b", 30, 30)) },
			[][]string{{"a0@0"}, {"b0@0", "b1@30"}},
		},
		"one higher than a page goes on under its header": {
			func(s *flow.Setter) { g := group("a", 60, 60, 30); g.Again = &again; s.Add(g) },
			[][]string{{"a0@0"}, {"again@0", "a1@10", "a2@70"}},
		},
		"blank space at the end needs no room": {
			func(s *flow.Setter) {
				g := group("a", 50, 50)
				g.Pieces = append(g.Pieces, flow.Gap(5))
				s.Add(g)
				s.Add(group("b", 10))
			},
			[][]string{{"a0@0", "a1@50"}, {"b0@0"}},
		},
		"a long one does not start at the foot": {
			func(s *flow.Setter) { s.Add(group("a", 85)); s.Add(group("b", 10, 60, 60)) },
			[][]string{{"a0@0"}, {"b0@0", "b1@10"}, {"b2@0"}},
		},
		"a loose one parts where the page ends": {
			func(s *flow.Setter) {
				g := group("a", 10, 30, 30, 20)
				g.Loose = true
				s.Add(group("b", 40))
				s.Add(g)
			},
			[][]string{{"b0@0", "a0@40", "a1@50"}, {"a2@0", "a3@30"}},
		},
		"a loose one does not leave its lead alone": {
			func(s *flow.Setter) {
				g := group("a", 10, 30)
				g.Loose = true
				s.Add(group("b", 75))
				s.Add(g)
			},
			[][]string{{"b0@0"}, {"a0@0", "a1@10"}},
		},
		"a heading goes with what it heads": {
			func(s *flow.Setter) {
				s.Add(group("a", 70))
				s.Hold(piece(&log, "head", 10))
				s.Add(group("b", 30))
			},
			[][]string{{"a0@0"}, {"head@0", "b0@10"}},
		},
		"a gap vanishes at the top of a page": {
			func(s *flow.Setter) {
				s.Add(flow.Group{Pieces: []flow.Piece{flow.Gap(5), piece(&log, "a", 98)}})
				s.Add(flow.Group{Pieces: []flow.Piece{flow.Gap(5), piece(&log, "b", 10)}})
			},
			[][]string{{"a@0"}, {"b@0"}},
		},
		"a heading with nothing after it is set": {
			func(s *flow.Setter) { s.Hold(piece(&log, "head", 10)) },
			[][]string{{"head@0"}},
		},
		"a break on an empty page does nothing": {
			func(s *flow.Setter) { s.Break(); s.Add(group("a", 10)); s.Break(); s.Break(); s.Add(group("b", 10)) },
			[][]string{{"a0@0"}, {"b0@0"}},
		},
		"a piece higher than a page has one to itself": {
			func(s *flow.Setter) { g := group("a", 10, 150, 10); g.Again = &again; s.Add(g) },
			[][]string{{"a0@0"}, {"again@0", "a1@10"}, {"again@0", "a2@10"}},
		},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			s := flow.New(100)
			c.fill(s)
			assert.Equal(t, c.want, drawn(s, &log))
		})
	}
}

func TestColumnsSplitBetweenTheirPieces(t *testing.T) {
	var log []string
	left := flow.Column{Pieces: []flow.Piece{piece(&log, "l0", 40), piece(&log, "l1", 40), piece(&log, "l2", 40)}}
	right := flow.Column{X: 50, Pieces: []flow.Piece{piece(&log, "r0", 30), piece(&log, "r1", 90)}}
	s := flow.New(100)
	again := piece(&log, "again", 10)
	s.Add(flow.Group{Pieces: []flow.Piece{flow.Columns(left, right)}, Again: &again})
	assert.Equal(t, [][]string{
		{"l0@0", "l1@40", "r0@0"},
		{"again@0", "l2@10", "r1@10"},
	}, drawn(s, &log))
}

// Whatever is set, in whatever groups: every piece stands once, in order, on
// the page where it fits, and no lead stands at a foot without its follower.
func TestNothingIsLostOrOverlaps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const page = 100.0
		s := flow.New(page)
		var want []string
		var log []string
		for g := range rapid.IntRange(1, 12).Draw(t, "groups") {
			group := flow.Group{Lead: 1, Loose: rapid.Bool().Draw(t, "loose")}
			if rapid.Bool().Draw(t, "repeats its head") {
				again := flow.Piece{Height: 7}
				group.Again = &again
			}
			for i := range rapid.IntRange(1, 8).Draw(t, "pieces") {
				name := fmt.Sprintf("g%dp%d", g, i)
				height := rapid.Float64Range(1, 60).Draw(t, "height")
				group.Pieces = append(group.Pieces, flow.Piece{Height: height, Draw: func(_, _ float64) { log = append(log, name) }})
				want = append(want, name)
			}
			s.Add(group)
		}
		for _, p := range s.Pages() {
			foot := 0.0
			for _, piece := range p {
				require.GreaterOrEqual(t, piece.Y, foot-1e-9, "overlap")
				foot = piece.Y + piece.Height
				if piece.Draw != nil {
					piece.Draw(0, piece.Y)
				}
			}
			require.LessOrEqual(t, foot, page+1e-9, "over the foot")
		}
		require.Equal(t, want, log)
	})
}
