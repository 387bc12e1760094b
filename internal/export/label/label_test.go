package label

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"linemap/internal/export/drawing"
)

// aBox draws a box near the origin.
func aBox(t *rapid.T, name string) Box {
	f := func(lo, hi float64, what string) float64 { return rapid.Float64Range(lo, hi).Draw(t, name+what) }
	return Box{Point{X: f(-10, 10, "x"), Y: f(-10, 10, "y")}, f(0.5, 6, "w"), f(0.5, 6, "h"), f(-4, 4, "turn")}
}

// holds reports whether p lies in b, by turning p into the box's own axes.
func holds(b Box, p Point) bool {
	d := p.Sub(b.Centre)
	sin, cos := math.Sincos(b.Turn)
	x, y := d.X*cos-d.Y*sin, d.X*sin+d.Y*cos
	return math.Abs(x) < b.HalfW-1e-9 && math.Abs(y) < b.HalfH-1e-9
}

func TestOverlap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := aBox(t, "a"), aBox(t, "b")
		assert.Equal(t, a.Overlaps(b), b.Overlaps(a))
		shared := false
		for x := -20.0; x <= 20 && !shared; x += 0.25 {
			for y := -20.0; y <= 20; y += 0.25 {
				if p := (Point{X: x, Y: y}); holds(a, p) && holds(b, p) {
					shared = true
					break
				}
			}
		}
		if shared {
			assert.True(t, a.Overlaps(b), "a point lies in both")
		}
		if !a.Overlaps(b) {
			assert.False(t, shared)
		}
		if a.Overlaps(b) {
			ra, rb := a.Bounds(), b.Bounds()
			assert.True(t, ra.X < rb.Right() && rb.X < ra.Right() && ra.Y < rb.Bottom() && rb.Y < ra.Bottom())
		}
	})
}

func TestOverlapCases(t *testing.T) {
	unit := Box{HalfW: 1, HalfH: 1}
	at := func(x, y, turn float64) Box { return Box{Point{X: x, Y: y}, 1, 1, turn} }
	for name, c := range map[string]struct {
		b    Box
		want bool
	}{
		"same":                     {at(0, 0, 0), true},
		"beside, touching":         {at(2, 0, 0), false},
		"corner in":                {at(1.9, 1.9, 0), true},
		"turned, tip in":           {at(2.3, 0, math.Pi/4), true},
		"turned, tip out":          {at(2.5, 0, math.Pi/4), false},
		"turned, only bounds meet": {at(1.9, 1.9, math.Pi/4), false},
	} {
		t.Run(name, func(t *testing.T) { assert.Equal(t, c.want, unit.Overlaps(c.b)) })
	}
}

func TestCut(t *testing.T) {
	b := Box{HalfW: 2, HalfH: 1}
	long, hit := b.cut(Point{X: -10}, Point{X: 10}, 0)
	assert.True(t, hit)
	assert.InDelta(t, 4, long, 1e-9)
	long, _ = b.cut(Point{X: -10}, Point{X: 10}, 0.5)
	assert.InDelta(t, 5, long, 1e-9, "a wide line is hidden sooner")
	_, hit = b.cut(Point{Y: 1.2}, Point{Y: 1.2}, 0.5)
	assert.True(t, hit, "a mark near the edge")
	_, hit = b.cut(Point{Y: 1.6}, Point{Y: 1.6}, 0.5)
	assert.False(t, hit)
	_, hit = b.cut(Point{X: -3, Y: 0}, Point{X: 0, Y: 3}, 0)
	assert.False(t, hit, "a diagonal past the corner")
}

// field is room for labels around marks in a loose grid.
func field(t *rapid.T) ([]Item, []Wall, drawing.Box) {
	n := rapid.IntRange(1, 40).Draw(t, "n")
	bounds := drawing.Box{W: 260, H: 260}
	var items []Item
	var walls []Wall
	for i := range n {
		at := Point{X: 40 + 30*float64(i%7), Y: 40 + 30*float64(i/7)}
		at.X += rapid.Float64Range(-14, 14).Draw(t, "dx")
		at.Y += rapid.Float64Range(-14, 14).Draw(t, "dy")
		w := rapid.Float64Range(4, 20).Draw(t, "w")
		items = append(items, Item{Candidates: Around(at, 1.3, w, 3, 40), Optional: i%5 == 4, Drop: 8})
		walls = append(walls, Wall{A: at, B: at, Half: 1.3, Touch: Taboo})
	}
	return items, walls, bounds
}

func TestPlaceFindsRoom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		items, walls, bounds := field(t)
		chosen := Place(items, walls, bounds)
		assert.Equal(t, chosen, Place(items, walls, bounds), "the same input gives the same places")
		for i, k := range chosen {
			if k == Dropped {
				assert.True(t, items[i].Optional, "label %d is missing", i)
				continue
			}
			a := items[i].Candidates[k]
			assert.True(t, a.Box.inside(bounds))
			for j := range i {
				if chosen[j] != Dropped {
					assert.False(t, a.Box.Overlaps(items[j].Candidates[chosen[j]].Box), "labels %d and %d", i, j)
				}
			}
			for _, w := range walls {
				_, hit := a.Box.cut(w.A, w.B, w.Half)
				assert.False(t, hit, "label %d covers a mark", i)
			}
		}
	})
}

func TestPlaceWhereThereIsNoRoom(t *testing.T) {
	one := Item{Candidates: []Candidate{{Box: Box{Centre: Point{X: 5, Y: 5}, HalfW: 2, HalfH: 1}}}}
	may := one
	may.Optional, may.Drop = true, 5
	bounds := drawing.Box{W: 10, H: 10}
	assert.Equal(t, []int{0, 0}, Place([]Item{one, one}, nil, bounds), "what must stand stands")
	assert.Equal(t, []int{0, Dropped}, Place([]Item{one, may}, nil, bounds))
	assert.Equal(t, []int{Dropped}, Place([]Item{{}}, nil, bounds), "no candidate")
	assert.Equal(t, []int{Dropped}, Place([]Item{may}, nil, drawing.Box{W: 1, H: 1}), "off the paper")
	assert.Empty(t, Place(nil, nil, bounds))
}

// A label that chose first gives way where only that lets both stand.
func TestPush(t *testing.T) {
	box := func(x float64) Box { return Box{Centre: Point{X: x, Y: 5}, HalfW: 2, HalfH: 1} }
	items := []Item{
		{Candidates: []Candidate{{Box: box(5)}, {Box: box(15), Cost: 3}}},
		{Candidates: []Candidate{{Box: box(5)}}},
	}
	assert.Equal(t, []int{1, 0}, Place(items, nil, drawing.Box{W: 20, H: 10}))
}

func TestBesideReadsUpright(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		turn := rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "turn")
		sin, cos := math.Sincos(turn)
		all := Beside([]Point{{}, {X: 40 * cos, Y: 40 * sin}}, 10, 3, 1)
		assert.NotEmpty(t, all)
		for _, c := range all {
			assert.GreaterOrEqual(t, math.Cos(c.Box.Turn), -1e-9, "upside down")
			long, hit := c.Box.cut(Point{}, Point{X: 40 * cos, Y: 40 * sin}, 0)
			assert.False(t, hit, "covers its own line by %g", long)
		}
	})
	assert.Empty(t, Beside([]Point{{}, {X: 5}}, 10, 3, 1), "too short for the label")
}

func TestAlong(t *testing.T) {
	line := []Point{{}, {X: 10}, {X: 10, Y: 10}}
	p, dir := Along(line, 0.75)
	assert.Equal(t, Point{X: 10, Y: 5}, p)
	assert.Equal(t, Point{Y: 1}, dir)
	p, _ = Along(line, 1)
	assert.Equal(t, Point{X: 10, Y: 10}, p)
	p, _ = Along([]Point{{X: 3}, {X: 3}}, 0.5)
	assert.Equal(t, Point{X: 3}, p, "a line of no length")
}

func BenchmarkPlace(b *testing.B) {
	var items []Item
	var walls []Wall
	for i := range 400 {
		at := Point{X: 8 + 9*float64(i%20) + float64(i%3), Y: 8 + 9*float64(i/20) + float64(i%5)}
		items = append(items, Item{Candidates: Around(at, 1.3, 8, 2.7, 40)})
		walls = append(walls, Wall{A: at, B: at, Half: 1.3, Touch: Taboo}, Wall{A: at, B: at.Add(Point{X: 8}), Half: 0.5, Touch: 1, PerMM: 1})
	}
	for b.Loop() {
		Place(items, walls, drawing.Box{W: 200, H: 200})
	}
}

// Labels that have to be there at once cover neither each other nor a mark, and
// what stands does not depend on what comes after it.
func TestQuick(t *testing.T) {
	paper := drawing.Box{W: 120, H: 80}
	rapid.Check(t, func(t *rapid.T) {
		var items []Item
		var walls []Wall
		at := func() Point {
			return Point{X: rapid.Float64Range(0, 120).Draw(t, "x"), Y: rapid.Float64Range(0, 80).Draw(t, "y")}
		}
		for range rapid.IntRange(1, 25).Draw(t, "marks") {
			p := at()
			walls = append(walls, Wall{A: p, B: p, Half: 1, Touch: Taboo}, Wall{A: p, B: at(), Half: 0.5, Touch: 1.5, PerMM: 1.2})
			items = append(items, Item{
				Candidates: Near(p, 1, rapid.Float64Range(2, 30).Draw(t, "w"), 2.6),
				Optional:   rapid.Bool().Draw(t, "optional"), Drop: 8,
			})
		}
		picked := Quick(items, walls, paper)
		for i, k := range picked {
			if k == Dropped {
				continue
			}
			b := items[i].Candidates[k].Box
			for j, o := range picked[:i] {
				if o != Dropped {
					assert.False(t, b.Overlaps(items[j].Candidates[o].Box), "%d and %d", i, j)
				}
			}
			for _, w := range walls {
				if w.Touch >= Taboo {
					_, hit := b.cut(w.A, w.B, w.Half)
					assert.False(t, hit, "%d covers a mark", i)
				}
			}
		}
		first := rapid.IntRange(0, len(items)).Draw(t, "first")
		assert.Equal(t, picked[:first], Quick(items[:first], walls, paper))
	})
}

func TestQuickPrefersTheClearPlace(t *testing.T) {
	at := Point{X: 50, Y: 50}
	items := []Item{{Candidates: Near(at, 1, 12, 2.6)}}
	free := Quick(items, nil, drawing.Box{W: 100, H: 100})
	assert.Equal(t, []int{0}, free, "to the right")
	across := []Wall{{A: at, B: Point{X: 100, Y: 50}, Half: 0.5, Touch: 1.5, PerMM: 1.2}}
	k := Quick(items, across, drawing.Box{W: 100, H: 100})[0]
	_, hit := items[0].Candidates[k].Box.cut(across[0].A, across[0].B, across[0].Half)
	assert.False(t, hit, "off the line that runs to the right")
	items[0].Optional, items[0].Drop = true, 0
	assert.Equal(t, []int{Dropped}, Quick(items, across, drawing.Box{W: 100, H: 100}))
}
