package aim

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

func TestAtFindsWhatIsOnTop(t *testing.T) {
	x := index(yard())
	for _, c := range []struct {
		name   string
		at     network.Point
		level  string
		within float64
		want   string // "" for nothing
		hit    Hit
	}{
		{"a node before the pipe that ends there", pt(0.2, 0.1), "Ground", 0.5, "node co", Hit{At: pt(0, 0), Corner: -1}},
		{"a pipe between its ends", pt(4, 0.3), "Ground", 0.5, "pipe main", Hit{At: pt(4, 0), Along: 4, Corner: -1}},
		{"a pipe before the middle of an underlay", pt(5, 0.1), "Ground", 0.5, "pipe main", Hit{At: pt(5, 0), Along: 5, Corner: -1}},
		{"too far", pt(4, 0.6), "Ground", 0.5, "", Hit{}},
		{"a corner", pt(5.1, 5.1), "Ground", 0.5, "pipe bent", Hit{At: pt(5, 5.1), Along: 5.1, Leg: 1, Corner: 0}},
		{"the second corner", pt(4.8, 8.1), "Ground", 0.5, "pipe bent", Hit{At: pt(5, 8), Along: 8, Leg: 1, Corner: 1}},
		{"the last leg", pt(8, 8), "Ground", 0.5, "pipe bent", Hit{At: pt(8, 8), Along: 11, Leg: 2, Corner: -1}},
		{"another level", pt(0.2, 0.1), "First", 0.5, "node up", Hit{At: pt(0, 0), Corner: -1}},
		{"no pipe of another level", pt(4, 0), "First", 0.5, "", Hit{}},
		{"the foot of a stack", pt(20, 0), "Ground", 0.5, "node foot", Hit{At: pt(20, 0), Corner: -1}},
		{"the head of a stack", pt(20, 0), "First", 0.5, "node head", Hit{At: pt(20, 0), Corner: -1}},
		{"a spot, on every level", pt(0, -5), "First", 0.5, "spot s1", Hit{At: pt(0, -5), Corner: -1}},
		{"a water point", pt(3, -5.1), "Ground", 0.5, "water w1", Hit{At: pt(3, -5), Corner: -1}},
		{"a note", pt(6, -5), "Ground", 0.5, "note t1", Hit{At: pt(6, -5), Corner: -1}},
		{"no note of another level", pt(6, -5), "First", 0.5, "", Hit{}},
		{"a lay", pt(-3, -2), "Ground", 0.5, "lay s1>co", Hit{At: pt(-3, -2), Along: 6, Leg: 1, Corner: -1}},
		{"a lay to water", pt(1.5, -5), "First", 0.5, "lay s1<w1", Hit{At: pt(1.5, -5), Along: 1.5, Corner: -1}},
		{"a locked underlay", pt(5, 20), "Ground", 0.5, "underlay u2", Hit{At: pt(5, 20), Corner: -1}},
		{"no hidden underlay", pt(5, 30), "Ground", 0.5, "", Hit{}},
		{"no number", pt(math.NaN(), 0), "Ground", 0.5, "", Hit{}},
		{"no distance", pt(0, 0), "Ground", math.NaN(), "", Hit{}},
		{"a distance below nothing", pt(0, 0), "Ground", -1, "", Hit{}},
	} {
		t.Run(c.name, func(t *testing.T) {
			h, ok := x.At(c.at, c.level, unit.Metres(c.within), nil)
			if c.want == "" {
				assert.False(t, ok, "%v", h)
				return
			}
			assert.Equal(t, c.want, fmt.Sprintf("%s %s", h.Ref.Kind, h.Ref.ID))
			assert.InDelta(t, 0, c.hit.At.Distance(h.At).Metres(), 1e-9)
			assert.InDelta(t, c.hit.Along.Metres(), h.Along.Metres(), 1e-9)
			assert.Equal(t, []int{c.hit.Leg, c.hit.Corner}, []int{h.Leg, h.Corner})
		})
	}
}

func TestAtFilters(t *testing.T) {
	x := index(yard())
	h, ok := x.At(pt(0, 0), "Ground", 1, func(r edit.Ref) bool { return r.Kind == edit.Pipe })
	assert.True(t, ok)
	assert.Equal(t, edit.PipeRef("main"), h.Ref)
}

func TestUnderListsTopFirst(t *testing.T) {
	var got []edit.Ref
	for _, h := range index(yard()).Under(pt(20, 0), "First", 1) {
		got = append(got, h.Ref)
	}
	assert.Equal(t, []edit.Ref{edit.NodeRef("head"), edit.PipeRef("stack")}, got)
}

func TestInInsideAndCrossing(t *testing.T) {
	x := index(yard())
	pipe, node := edit.PipeRef, edit.NodeRef
	for _, c := range []struct {
		name     string
		a, b     network.Point
		level    string
		crossing bool
		want     []edit.Ref
	}{
		{"inside", pt(11, 9), pt(-1, 4), "Ground", false, []edit.Ref{node("a"), node("b"), pipe("bent")}},
		{"a leg is not the whole", pt(-1, 4), pt(6, 6), "Ground", false, []edit.Ref{node("a")}},
		{"crossing takes the part for the whole", pt(-1, 4), pt(6, 6), "Ground", true, []edit.Ref{node("a"), pipe("bent")}},
		{"crossing without a corner inside", pt(7, 7), pt(8, 9), "Ground", true, []edit.Ref{pipe("bent")}},
		{"the bounding box alone is no crossing", pt(6, 5.5), pt(9, 7), "Ground", true, []edit.Ref{}},
		{"an upright pipe", pt(19, -1), pt(21, 1), "First", false, []edit.Ref{node("head"), pipe("stack")}},
		{"no locked and no hidden underlay", pt(4, 19), pt(6, 31), "Ground", true, []edit.Ref{}},
		{"a box without width", pt(4, -1), pt(4, 1), "Ground", true, []edit.Ref{pipe("main")}},
		{"no number", pt(math.NaN(), 0), pt(1, 1), "Ground", true, nil},
	} {
		t.Run(c.name, func(t *testing.T) { assert.Equal(t, c.want, x.In(c.a, c.b, c.level, c.crossing)) })
	}
}

func TestEmptySite(t *testing.T) {
	x := index(&site.Site{})
	_, ok := x.At(pt(0, 0), "", 100, nil)
	assert.False(t, ok)
	assert.Empty(t, x.In(pt(-9, -9), pt(9, 9), "", true))
}

// The tree is held against looking at everything.
func TestIndexAgreesWithLookingAtEverything(t *testing.T) {
	s := town(700)
	x := index(s)
	rapid.Check(t, func(t *rapid.T) {
		p := pt(rapid.Float64Range(-10, 420).Draw(t, "x"), rapid.Float64Range(-10, 420).Draw(t, "y"))
		within := rapid.Float64Range(0, 30).Draw(t, "within")
		best, off := "", within
		for i := range s.Network.Nodes {
			n := &s.Network.Nodes[i]
			if d := math.Hypot((n.At.X - p.X).Metres(), (n.At.Y - p.Y).Metres()); d <= off && (best == "" || d < off) {
				best, off = string(n.ID), d
			}
		}
		h, ok := x.At(p, "", unit.Metres(within), func(r edit.Ref) bool { return r.Kind == edit.Node })
		assert.Equal(t, best != "", ok)
		assert.Equal(t, best, h.Ref.ID)

		q := pt(p.X.Metres()+rapid.Float64Range(-60, 60).Draw(t, "w"), p.Y.Metres()+rapid.Float64Range(-60, 60).Draw(t, "h"))
		var inside []edit.Ref
		for i := range s.Network.Nodes {
			n := &s.Network.Nodes[i]
			if (n.At.X-p.X)*(n.At.X-q.X) <= 0 && (n.At.Y-p.Y)*(n.At.Y-q.Y) <= 0 {
				inside = append(inside, edit.NodeRef(n.ID))
			}
		}
		nodes := edit.Select(x.In(p, q, "", false)...).Keep(func(r edit.Ref) bool { return r.Kind == edit.Node })
		assert.Equal(t, edit.Select(inside...).Refs(), nodes.Refs())
	})
}

func TestIndexDoesNotFollowTheSite(t *testing.T) {
	s := yard()
	x := index(s)
	s.Network.Nodes[0].At = pt(99, 99)
	s.Network.Nodes[0].Label = "moved"
	a := x.Snap(Sight{At: pt(0, 0), Level: "Ground", Within: 1})
	assert.Equal(t, "cleanout CO-1", a.Snapped)
}

func BenchmarkAt(b *testing.B) {
	x := index(town(10_000))
	i := 0
	for b.Loop() {
		i++
		x.At(pt(float64(i%400), float64(i*7%400)), "", 0.5, nil)
	}
}

func BenchmarkSnap(b *testing.B) {
	x := index(town(10_000))
	from := pt(200, 200)
	i := 0
	for b.Loop() {
		i++
		x.Snap(Sight{At: pt(float64(i%400), float64(i*7%400)), Within: 0.5, Grid: 1, From: &from})
	}
}

func BenchmarkNewIndex(b *testing.B) {
	s := town(10_000)
	g, _ := network.Trace(&s.Network)
	for b.Loop() {
		NewIndex(s, g)
	}
}
