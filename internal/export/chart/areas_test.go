package chart

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/export/drawing"
	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

func feet(x0, y0, x1, y1 float64) []network.Point {
	at := func(x, y float64) network.Point { return network.Point{X: unit.Feet(x), Y: unit.Feet(y)} }
	return []network.Point{at(x0, y0), at(x1, y0), at(x1, y1), at(x0, y1)}
}

// shopGround is the shop with an area of each kind: the hose from the spot to
// MH-1 lies across the walkway.
func shopGround() *site.Site {
	s := shop()
	s.Areas = []site.Area{
		{ID: "a1", Label: "Rear court", Kind: site.Stand, Outline: feet(50, -34, 80, -18)},
		{ID: "a2", Label: "Fire gate", Kind: site.KeepClear, Outline: feet(-6, -34, 20, -20)},
		{ID: "a3", Label: "Staff walkway", Kind: site.Walkway, Outline: feet(42, -40, 46, 4)},
	}
	return s
}

func TestAreasOnTheMap(t *testing.T) {
	const standing, clear, across = "trailer may stand", "keep clear", "hose in the way"
	legend := func(s *site.Site) string {
		c, err := Draw(s, shopPlan(), papers[0])
		require.NoError(t, err)
		for i := range c.Sheets {
			for k := range c.Sheets[i].Panels {
				assert.Empty(t, overlaps(&c.Sheets[i].Panels[k]))
			}
		}
		return strings.ReplaceAll(strings.Join(texts(c), "\n"), "\n", " ")
	}
	said := legend(shopGround())
	for _, want := range []string{"Rear court", "trailer may stand", "Fire gate", "keep clear", "Staff walkway", "cover hose", standing, across} {
		assert.Contains(t, said, want)
	}
	plain := legend(shop())
	for _, no := range []string{standing, clear, "walkway", across} {
		assert.NotContains(t, plain, no, "the legend explains what is drawn")
	}
	s := shopGround()
	s.Areas[2].Outline = feet(-20, 10, -10, 20)
	said = legend(s)
	assert.NotContains(t, said, "cover hose", "no hose lies across the walkway there")
	assert.NotContains(t, said, across)
	s.Areas[1].Outline = feet(40, -16, 50, -8)
	assert.Contains(t, legend(s), " cone ", "hose over what is kept clear")
}

func TestAreasLieUnderTheDrain(t *testing.T) {
	c, err := Draw(shopGround(), shopPlan(), papers[0])
	require.NoError(t, err)
	area, drain := -1, -1
	for i, it := range c.Sheets[0].Panels[0].Items {
		if p, ok := it.Shape.(drawing.Path); ok {
			if p.Pen.Width == standPen.Width && p.Pen.Ink == standPen.Ink {
				area = i
				assert.Equal(t, drawing.Lays, it.Layer, "it goes with the spots")
			}
			if it.Layer == drawing.Drains && drain < 0 {
				drain = i
			}
		}
	}
	assert.GreaterOrEqual(t, area, 0)
	assert.Less(t, area, drain)
}

// TestAreaLabelsAreInside: a name stands in its area where there is room for it.
func TestAreaLabelsAreInside(t *testing.T) {
	s := shopGround()
	pn := board(t, s, shopPlan(), everything("Ground floor")).Panel(screen(drawing.Point{X: 15, Y: -4}, 8), screenW, screenH)
	at := written(pn.List, 8)
	for i, name := range []string{"Rear court", "Fire gate"} {
		require.Len(t, at[name], 1, name)
		p := at[name][0]
		assert.True(t, s.Areas[i].Contains(network.Point{X: unit.Metres(p.X), Y: unit.Metres(p.Y)}), name)
	}
	require.Len(t, at["Staff walkway"], 1, "too narrow for its name, it has it beside it")
}

// TestHatch: the lines lie inside, all of them apart by the step, and where they
// lie does not depend on what part is looked at. By Cavalieri their length is the
// ground over the step.
func TestHatch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var a site.Area
		for range rapid.IntRange(3, 7).Draw(t, "corners") {
			a.Outline = append(a.Outline, network.Point{
				X: unit.Length(rapid.Float64Range(-40, 40).Draw(t, "x")), Y: unit.Length(rapid.Float64Range(-40, 40).Draw(t, "y")),
			})
		}
		const step = 0.05
		all := extent{drawing.Point{X: -50, Y: -50}, drawing.Point{X: 50, Y: 50}}
		lines := hatch(points(a.Outline), step, all)
		sum := 0.0
		for _, s := range lines {
			p := s.(drawing.Path).Points
			sum += lengthOf(p)
			mid := p[0].Add(p[1]).Scale(0.5)
			if lengthOf(p) > 0.001 {
				require.True(t, a.Contains(network.Point{X: unit.Metres(mid.X), Y: unit.Metres(mid.Y)}))
			}
		}
		if simple(a.Outline) {
			ground := float64(site.AreaOf(a.Outline))
			require.InDelta(t, ground, sum*step, 0.02*ground+20*step)
		}
		part := extent{drawing.Point{X: -10, Y: -20}, drawing.Point{X: 15, Y: 5}}
		for _, s := range hatch(points(a.Outline), step, part) {
			p := s.(drawing.Path).Points
			u := (p[0].X - p[0].Y) / (step * 1.4142135623730951)
			require.InDelta(t, float64(int(u+1e5+0.5))-1e5, u, 1e-6, "on the same lines")
		}
	})
}

// simple reports whether an outline does not cross itself.
func simple(outline []network.Point) bool {
	_, wrong := (&site.Site{}).OutlineFinding(&site.Area{Outline: outline})
	return !wrong
}

// TestVastAreas: an area a thousand times as large as the map, or a hatch on a
// far view, costs no more than what is seen of it.
func TestVastAreas(t *testing.T) {
	s := shopGround()
	for i := range s.Areas {
		s.Areas[i].Outline = []network.Point{{X: -99999, Y: -99999}, {X: 99999, Y: -99998}, {X: 99998, Y: 99999}, {X: -99999, Y: 99998}}
	}
	c, err := Draw(s, shopPlan(), papers[0])
	require.NoError(t, err)
	assert.Less(t, len(c.Sheets[0].Panels[0].Items), 3000)
	b := board(t, s, nil, everything("Ground floor"))
	for _, scale := range []float64{0.001, 0.1, 5, 1000} {
		assert.Less(t, len(b.Panel(screen(drawing.Point{}, scale), screenW, screenH).Items), 3000, scale)
	}
}
