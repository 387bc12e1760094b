package site

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// places reads "0,0 10,0 10,10".
func places(t require.TestingT, text string) []network.Point {
	var all []network.Point
	for word := range strings.FieldsSeq(text) {
		x, y, ok := strings.Cut(word, ",")
		require.True(t, ok, word)
		east, err := strconv.ParseFloat(x, 64)
		require.NoError(t, err)
		north, err := strconv.ParseFloat(y, 64)
		require.NoError(t, err)
		all = append(all, network.Point{X: unit.Metres(east), Y: unit.Metres(north)})
	}
	return all
}

const (
	square = "0,0 10,0 10,10 0,10"
	// hook is a square of 10 m with a notch of 4 m by 6 m from the top.
	hook   = "0,0 10,0 10,10 7,10 7,4 3,4 3,10 0,10"
	bowTie = "0,0 10,10 10,0 0,10"
)

func TestContains(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name, outline, at string
		want              bool
	}{
		{"the middle", square, "5,5", true},
		{"beside it", square, "11,5", false},
		{"level with its top, beside it", square, "-1,10", false},
		{"a corner", square, "10,10", true},
		{"the edge", square, "0,3", true},
		{"a hair off the edge", square, "-0.0000005,3", true},
		{"a millimetre off the edge", square, "-0.001,3", false},
		{"in the notch", hook, "5,7", false},
		{"in an arm of it", hook, "2,7", true},
		{"level with the floor of the notch", hook, "1,4", true},
		{"a side of the bow", bowTie, "1,5", true},
		{"above its knot", bowTie, "5,8", false},
		{"the one place of an area of one corner", "3,3", "3,3", true},
		{"beside it", "3,3", "3,4", false},
		{"nowhere", "", "0,0", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := Area{Outline: places(t, c.outline)}
			assert.Equal(t, c.want, a.Contains(places(t, c.at)[0]))
		})
	}
}

func TestCrosses(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ name, outline, path, want string }{
		{"straight through", square, "-5,5 15,5", "5,5"},
		{"beside it", square, "-5,12 15,12", ""},
		{"into it", square, "-5,5 4,5", "2,5"},
		{"out of it", square, "8,5 8,30", "8,7.5"},
		{"all inside", square, "2,2 4,2", "3,2"},
		{"round a corner inside", square, "-1,4 4,4 4,-2", "4,4"},
		{"twice", hook, "-5,7 15,7", "1.5,7 8.5,7"},
		{"in, out and in again", square, "5,-1 5,1 20,1 20,3 8,3", "7,1 9,3"},
		{"past a corner", square, "-5,5 5,-5", ""},
		{"to the edge", square, "-5,5 0,5", ""},
		{"along an edge", square, "-5,10 15,10", "5,10"},
		{"along the floor of the notch", hook, "0,4 10,4", "5,4"},
		{"over two corners", square, "-5,-5 15,15", "5,5"},
		{"a way of one place", square, "5,5", ""},
		{"no way", square, "", ""},
		{"the same place twice", square, "5,5 5,5", ""},
		{"no area", "", "0,0 1,1", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := Area{Outline: places(t, c.outline)}
			got := a.Crosses(places(t, c.path))
			want := places(t, c.want)
			require.Len(t, got, len(want), "%v", got)
			for i := range want {
				assert.Less(t, got[i].Distance(want[i]), unit.Length(1e-6), "%v", got)
			}
		})
	}
}

func TestAreaOf(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name, outline string
		want          unit.Area
	}{
		{"square", square, 100},
		{"the other way round", "0,10 10,10 10,0 0,0", 100},
		{"with a notch", hook, 100 - 24},
		{"far from the origin", "90000,90000 90010,90000 90010,90010 90000,90010", 100},
		{"triangle", "0,0 3,0 0,4", 6},
		{"line", "0,0 3,0", 0},
		{"nothing", "", 0},
	} {
		assert.InDelta(t, float64(c.want), float64(AreaOf(places(t, c.outline))), 1e-6, c.name)
	}
}

func TestSelfCrossing(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name, outline string
		want          bool
	}{
		{"square", square, false},
		{"hook", hook, false},
		{"bow tie", bowTie, true},
		{"a corner twice in a row", "0,0 10,0 10,0 10,10", false},
		{"the first corner again at the end", "0,0 10,0 10,10 0,0", false},
		{"a corner that touches a side", "0,0 10,0 10,10 5,0 0,10", true},
		{"there and back", "0,0 10,0 10,10 10,5", true},
		{"two squares at a corner", "0,0 5,0 5,5 10,5 10,10 5,10 5,5 0,5", true},
		{"triangle", "0,0 3,0 0,4", false},
	} {
		_, got := selfCrossing(places(t, c.outline))
		assert.Equal(t, c.want, got, c.name)
	}
}

// star draws an outline that cannot cross itself: corners all around a middle,
// each in its own direction, at any distance; with the distances.
func star(t *rapid.T) (Area, []float64) {
	n := rapid.IntRange(3, 9).Draw(t, "corners")
	var a Area
	var far []float64
	for i := range n {
		r := float64(rapid.IntRange(1, 50).Draw(t, "distance"))
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		a.Outline = append(a.Outline, network.Point{X: unit.Length(r * cos), Y: unit.Length(r * sin)})
		far = append(far, r)
	}
	return a, far
}

// TestStars holds the geometry against what is known of a star without it: a
// place in the direction of a corner is inside up to that corner, and the whole
// is the sum of its triangles, half the product of two sides and the sine
// between them.
func TestStars(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		a, far := star(t)
		n := len(far)
		sum := 0.0
		for i, r := range far {
			sum += r * far[(i+1)%n] / 2 * math.Sin(2*math.Pi/float64(n))
		}
		require.InDelta(t, sum, float64(AreaOf(a.Outline)), 1e-6*sum)
		_, crosses := selfCrossing(a.Outline)
		require.False(t, crosses)

		i := rapid.IntRange(0, n-1).Draw(t, "towards")
		share := rapid.Float64Range(0, 2).Draw(t, "share")
		at := between(network.Point{}, a.Outline[i], share)
		if math.Abs(share-1) > 1e-3 {
			require.Equal(t, share < 1, a.Contains(at))
		}
		// From the middle past the corner: inside all the way there, and not again.
		where := a.Crosses([]network.Point{{}, between(network.Point{}, a.Outline[i], 3)})
		require.Len(t, where, 1)
		require.Less(t, where[0].Distance(between(network.Point{}, a.Outline[i], 0.5)), unit.Length(1e-6))
	})
}

// TestCrossingsAreInside: what Crosses tells of lies inside and on the way; a
// way walked back crosses at the same places; and a way that has a place well
// inside is told of.
func TestCrossingsAreInside(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		a, _ := star(t)
		if rapid.Bool().Draw(t, "tangled") {
			a.Outline = rapid.Permutation(a.Outline).Draw(t, "outline")
		}
		path := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) network.Point {
			return network.Point{X: unit.Length(rapid.IntRange(-60, 60).Draw(t, "x")), Y: unit.Length(rapid.IntRange(-60, 60).Draw(t, "y"))}
		}), 2, 6).Draw(t, "path")
		there := a.Crosses(path)
		for _, p := range there {
			require.True(t, a.Contains(p), "%v", p)
			off := unit.Length(math.Inf(1))
			for i := 1; i < len(path); i++ {
				off = min(off, p.Distance(nearestOn(p, path[i-1], path[i])))
			}
			require.Less(t, off, unit.Length(1e-6))
		}
		back := make([]network.Point, len(path))
		for i, p := range path {
			back[len(path)-1-i] = p
		}
		again := a.Crosses(back)
		require.Len(t, again, len(there))
		for i, p := range again {
			require.Less(t, p.Distance(there[len(there)-1-i]), unit.Length(1e-3))
		}
		for i := 1; i < len(path); i++ {
			middle := between(path[i-1], path[i], rapid.Float64Range(0.05, 0.95).Draw(t, "share"))
			near := unit.Length(math.Inf(1))
			for from, to := range a.edges() {
				near = min(near, middle.Distance(nearestOn(middle, from, to)))
			}
			if a.Contains(middle) && near > 0.1 && path[i-1].Distance(path[i]) > 1 {
				require.NotEmpty(t, there, "%v is inside", middle)
			}
		}
	})
}

func TestAreaNames(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		kind                AreaKind
		label, name, called string
	}{
		{Walkway, "East path", "East path", "walkway East path"},
		{Walkway, "East walkway", "East walkway", "East walkway"},
		{Walkway, "", "walkway a1", "walkway a1"},
		{KeepClear, "Fire lane", "Fire lane", "keep-clear area Fire lane"},
		{KeepClear, "Keep clear 1", "Keep clear 1", "Keep clear 1"},
		{Stand, "Lot", "Lot", "stand area Lot"},
		{Stand, "", "stand area a1", "stand area a1"},
	} {
		a := Area{ID: "a1", Kind: c.kind, Label: c.label}
		assert.Equal(t, c.name, a.Name())
		assert.Equal(t, c.called, a.Called())
	}
}

func TestMayStand(t *testing.T) {
	t.Parallel()
	s := &Site{Areas: []Area{{Kind: Walkway, Outline: places(t, square)}}}
	assert.True(t, s.MayStand(network.Point{X: 50}), "anywhere, where no stand area is drawn")
	s.Areas = append(s.Areas, Area{Kind: Stand, Outline: places(t, square)}, Area{Kind: Stand, Outline: places(t, "20,0 30,0 25,9")})
	assert.True(t, s.MayStand(network.Point{X: 5, Y: 5}))
	assert.True(t, s.MayStand(network.Point{X: 25, Y: 1}))
	assert.False(t, s.MayStand(network.Point{X: 50}))
}

// BenchmarkAreaFindings looks through as many spots, lays and areas, of as many
// corners, as a file may have of the first and last and a large job has of the
// second.
func BenchmarkAreaFindings(b *testing.B) {
	s := &Site{Network: network.Network{Nodes: []network.Node{{ID: "co", Kind: network.KindAccess, At: network.Point{X: 300}}}}}
	for i := range 1000 {
		id := SpotID(strconv.Itoa(i))
		s.Spots = append(s.Spots, Spot{ID: id, At: network.Point{X: unit.Length(i % 40), Y: unit.Length(i / 40)}})
		s.Lays = append(s.Lays, Lay{Spot: id, Access: "co", Via: []network.Point{{X: 100, Y: 50}, {X: 200, Y: -50}}})
	}
	for i := range 500 {
		a := Area{ID: AreaID(strconv.Itoa(i)), Kind: AreaKinds()[i%3]}
		for k := range 200 {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / 200)
			a.Outline = append(a.Outline, network.Point{X: unit.Length(float64(i%25)*10 + 20*cos), Y: unit.Length(float64(i/25) + 20*sin)})
		}
		s.Areas = append(s.Areas, a)
	}
	for b.Loop() {
		s.areaFindings()
	}
}
