package picture

import (
	"image"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

func at(x, y float64) network.Point {
	return network.Point{X: unit.Metres(x), Y: unit.Metres(y)}
}

func near(t require.TestingT, want, got network.Point, what string) {
	require.InDelta(t, 0, want.Distance(got).Metres(), 1e-6, "%s: want %v, got %v", what, want, got)
}

func TestGround(t *testing.T) {
	size := image.Pt(400, 200)
	u := &site.Underlay{At: at(100, 50), Scale: unit.Metres(0.1)} // 40 m by 20 m
	corners := [4][2]float64{{0, 0}, {400, 0}, {400, 200}, {0, 200}}
	for name, c := range map[string]struct {
		turn float64
		want [4]network.Point
	}{
		"as it is":    {0, [4]network.Point{at(80, 60), at(120, 60), at(120, 40), at(80, 40)}},
		"quarter":     {90, [4]network.Point{at(90, 30), at(90, 70), at(110, 70), at(110, 30)}},
		"upside down": {180, [4]network.Point{at(120, 40), at(80, 40), at(80, 60), at(120, 60)}},
	} {
		u.Turn = unit.Degrees(c.turn)
		for i, dot := range corners {
			near(t, c.want[i], Ground(u, size, dot[0], dot[1]), name)
		}
	}
}

func TestFit(t *testing.T) {
	assert.InDelta(t, 0.1, Fit(image.Pt(400, 200), 40, 90).Metres(), 1e-12, "as wide as may be")
	assert.InDelta(t, 0.05, Fit(image.Pt(400, 200), 90, 10).Metres(), 1e-12, "as high as may be")
	assert.False(t, math.IsInf(Fit(image.Point{}, 1, 1).Metres(), 0))
}

// TestRescale clicks the ends of a wall that is drawn 4 m long and measures 10.
func TestRescale(t *testing.T) {
	u := site.Underlay{ID: "u1", At: at(0, 0), Scale: unit.Metres(0.02), Data: []byte{1}}
	got, err := Rescale(u, at(2, 0), at(6, 0), unit.Metres(10))
	require.NoError(t, err)
	assert.InDelta(t, 0.05, got.Scale.Metres(), 1e-12)
	near(t, at(-3, 0), got.At, "the middle moves away from the first point")
	assert.Equal(t, u.Data, got.Data)
}

// TestTwoPoints holds any picture against what was clicked: after scaling, the dot
// under the first point is still there, and the dot under the second is where the
// distance puts it.
func TestTwoPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		metres := func(name string) float64 { return rapid.Float64Range(-500, 500).Draw(t, name) }
		size := image.Pt(rapid.IntRange(1, 5000).Draw(t, "w"), rapid.IntRange(1, 5000).Draw(t, "h"))
		u := site.Underlay{
			At: at(metres("x"), metres("y")), Scale: unit.Metres(rapid.Float64Range(0.001, 1).Draw(t, "scale")),
			Turn: unit.Degrees(rapid.Float64Range(0, 360).Draw(t, "turn")),
		}
		ax, ay := metres("ax"), metres("ay")
		bx, by := metres("bx"), metres("by")
		a, b := Ground(&u, size, ax, ay), Ground(&u, size, bx, by)
		if a.Distance(b) < 1 {
			t.Skip("too near to each other to tell anything")
		}
		real := unit.Metres(rapid.Float64Range(0.1, 10).Draw(t, "times") * a.Distance(b).Metres())
		scaled, err := Rescale(u, a, b, real)
		require.NoError(t, err)
		near(t, a, Ground(&scaled, size, ax, ay), "scaled about the first")
		require.InDelta(t, real.Metres(), Ground(&scaled, size, ax, ay).Distance(Ground(&scaled, size, bx, by)).Metres(), 1e-6)
	})
}

func TestPointsThatTellNothing(t *testing.T) {
	u := site.Underlay{ID: "u1", Scale: 1, File: "a.png"}
	nan := at(math.NaN(), 0)
	for name, c := range map[string]struct {
		a, b network.Point
		real unit.Length
		want string
	}{
		"one point":        {at(1, 1), at(1, 1), 5, "the two points are one"},
		"no place":         {nan, at(1, 1), 5, "lie nowhere"},
		"no distance":      {at(0, 0), at(1, 1), 0, "must be above 0"},
		"minus":            {at(0, 0), at(1, 1), -2, "must be above 0"},
		"no number":        {at(0, 0), at(1, 1), unit.Length(math.NaN()), "must be above 0"},
		"without end":      {at(0, 0), at(1, 1), unit.Length(math.Inf(1)), "must be above 0"},
		"a mile of dots":   {at(0, 0), at(0.001, 0), unit.Metres(9000), "would not fit the drawing: at.x"},
		"picture far away": {at(-50000, 0), at(-49999, 0), unit.Metres(9), "would not fit the drawing: at.x"},
	} {
		u.At = at(50, 0)
		_, err := Rescale(u, c.a, c.b, c.real)
		assert.ErrorContains(t, err, c.want, name)
	}
	u.At = at(0, 0)
	_, err := Rescale(u, at(0, 0), at(1, 0), unit.Metres(1001))
	assert.ErrorContains(t, err, "scale: found 1001 m, must be a number above 0 and at most 1000 m")
}
