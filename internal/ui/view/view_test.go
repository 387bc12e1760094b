package view

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"linemap/internal/network"
	"linemap/internal/unit"
)

func anyView(t *rapid.T) View {
	return View{
		Centre: network.Point{X: unit.Metres(rapid.Float64Range(-1e5, 1e5).Draw(t, "x")), Y: unit.Metres(rapid.Float64Range(-1e5, 1e5).Draw(t, "y"))},
		Scale:  math.Exp(rapid.Float64Range(math.Log(MinScale), math.Log(MaxScale)).Draw(t, "scale")),
		W:      rapid.Float64Range(1, 4000).Draw(t, "w"), H: rapid.Float64Range(1, 4000).Draw(t, "h"),
	}
}

func anyDot(t *rapid.T) Dot {
	return Dot{rapid.Float64Range(-500, 4500).Draw(t, "dx"), rapid.Float64Range(-500, 4500).Draw(t, "dy")}
}

func TestGroundAndDotAreInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v, d := anyView(t), anyDot(t)
		back := v.Dot(v.Ground(d))
		// A place 100 km out is known to 1.5e-11 m, which 4,000 px/m magnify.
		assert.InDelta(t, d.X, back.X, 1e-6)
		assert.InDelta(t, d.Y, back.Y, 1e-6)
	})
}

func TestNorthIsUp(t *testing.T) {
	v := View{Scale: 10, W: 100, H: 100}
	assert.Equal(t, Dot{50, 50}, v.Dot(network.Point{}))
	assert.Equal(t, Dot{70, 20}, v.Dot(network.Point{X: unit.Metres(2), Y: unit.Metres(3)}))
}

func TestZoomKeepsThePlaceUnderThePointer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := anyView(t)
		v.Centre = network.Point{X: v.Centre.X / 2, Y: v.Centre.Y / 2} // zooming out stays on the site
		d := Dot{rapid.Float64Range(0, v.W).Draw(t, "dx"), rapid.Float64Range(0, v.H).Draw(t, "dy")}
		by := rapid.Float64Range(0.1, 10).Draw(t, "by")
		z := v.Zoom(d, by)
		assert.LessOrEqual(t, z.Scale, float64(MaxScale))
		assert.GreaterOrEqual(t, z.Scale, MinScale)
		if math.Abs(z.Centre.X.Metres()) < far && math.Abs(z.Centre.Y.Metres()) < far {
			was, now := v.Ground(d), z.Ground(d)
			assert.InDelta(t, 0, was.Distance(now).Metres(), 1e-6)
		}
	})
	for _, bad := range []float64{0, -1, math.NaN()} {
		v := View{Scale: 10, W: 100, H: 100}
		assert.Equal(t, v, v.Zoom(Dot{}, bad))
	}
}

func TestPanMovesThePicture(t *testing.T) {
	v := View{Scale: 10, W: 100, H: 100}
	p := network.Point{X: unit.Metres(1), Y: unit.Metres(1)}
	was, now := v.Dot(p), v.Pan(7, -3).Dot(p)
	assert.InDelta(t, was.X+7, now.X, 1e-9)
	assert.InDelta(t, was.Y-3, now.Y, 1e-9)
	assert.InDelta(t, far, v.Pan(-1e12, 0).Centre.X.Metres(), 1e-9, "no one gets lost in the void")
}

func TestFitShowsEverything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := View{Scale: 1, W: rapid.Float64Range(200, 3000).Draw(t, "w"), H: rapid.Float64Range(200, 3000).Draw(t, "h")}
		var points []network.Point
		for range rapid.IntRange(1, 9).Draw(t, "n") {
			points = append(points, network.Point{X: unit.Metres(rapid.Float64Range(-900, 900).Draw(t, "x")), Y: unit.Metres(rapid.Float64Range(-900, 900).Draw(t, "y"))})
		}
		v = v.Fit(points, 20)
		for _, p := range points {
			d := v.Dot(p)
			assert.True(t, d.X >= 19.9 && d.X <= v.W-19.9 && d.Y >= 19.9 && d.Y <= v.H-19.9, "%v of %v", d, v)
		}
	})
	v := View{Scale: 7, W: 100, H: 100}
	assert.Equal(t, v, v.Fit(nil, 10))
}

func TestGridSuitsTheScale(t *testing.T) {
	for _, c := range []struct {
		scale  float64
		sys    unit.System
		want   unit.Length
		strong int
	}{
		{10, unit.Metric, unit.Metres(2), 5},
		{100, unit.Metric, unit.Metres(0.2), 5},
		{14, unit.Metric, unit.Metres(1), 5},
		{1, unit.Metric, unit.Metres(20), 5},
		{10, unit.US, unit.Feet(5), 4},
		{50, unit.US, unit.Feet(1), 5},
		{100, unit.US, unit.Inches(6), 4},
		{2000, unit.US, unit.Inches(1), 6},
	} {
		g := View{Scale: c.scale, W: 10, H: 10}.Grid(c.sys)
		assert.InDelta(t, c.want.Metres(), g.Step.Metres(), 1e-9, "%v %v", c.scale, c.sys)
		assert.Equal(t, c.strong, g.Strong)
	}
}

func TestGridIsNeverTight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := anyView(t)
		for _, sys := range []unit.System{unit.US, unit.Metric} {
			g := v.Grid(sys)
			apart := g.Step.Metres() * v.Scale
			assert.GreaterOrEqual(t, apart, tight*(1-1e-6))
			x, y := v.Lines(g)
			assert.LessOrEqual(t, len(x), int(v.W/tight)+2)
			assert.LessOrEqual(t, len(y), int(v.H/tight)+2)
			bar := v.ScaleBar(160, sys).Metres() * v.Scale
			assert.True(t, bar <= 160+1e-6 && bar >= 60, "bar of %g px", bar)
		}
	})
}
