// Package view converts between the ground and the screen, and nowhere else is
// that done.
//
// The ground is in metres, east and north; the screen in Fyne's device-independent
// pixels, right and down from the top left corner of the board.
package view

import (
	"math"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// Dot is a place on the screen.
type Dot struct{ X, Y float64 }

// View shows a part of the ground. It is a value: its methods return another.
type View struct {
	// Centre is the place in the middle of the screen.
	Centre network.Point
	// Scale is in pixels per metre.
	Scale float64
	// W and H are the size of the screen.
	W, H float64
}

// The scales that a view can have: a pixel is 20 m or a quarter of a millimetre.
const (
	MinScale = 0.05
	MaxScale = 4000
)

// PixelsPerMM is how many pixels a millimetre of paper takes on the screen:
// line widths, symbols and text of a drawing are sized on paper.
const PixelsPerMM = 4.2

// Dot returns where a place lies on the screen.
func (v View) Dot(p network.Point) Dot {
	return Dot{v.W/2 + (p.X-v.Centre.X).Metres()*v.Scale, v.H/2 - (p.Y-v.Centre.Y).Metres()*v.Scale}
}

// Ground returns the place that lies at a dot of the screen.
func (v View) Ground(d Dot) network.Point {
	return network.Point{
		X: v.Centre.X + unit.Metres((d.X-v.W/2)/v.Scale),
		Y: v.Centre.Y - unit.Metres((d.Y-v.H/2)/v.Scale),
	}
}

// PerPixel is the length on the ground of one pixel.
func (v View) PerPixel() unit.Length { return unit.Metres(1 / v.Scale) }

// Resize returns the view on a screen of another size, about the same centre.
func (v View) Resize(w, h float64) View {
	v.W, v.H = w, h
	return v
}

// Pan returns the view with its picture moved by pixels right and down.
func (v View) Pan(dx, dy float64) View {
	v.Centre.X -= unit.Metres(dx / v.Scale)
	v.Centre.Y += unit.Metres(dy / v.Scale)
	return v.inBounds()
}

// Zoom returns the view magnified by a factor about a dot, which keeps its
// place on the ground.
func (v View) Zoom(at Dot, by float64) View {
	if math.IsNaN(by) || by <= 0 {
		return v
	}
	fixed := v.Ground(at)
	v.Scale = math.Min(MaxScale, math.Max(MinScale, v.Scale*by))
	now := v.Ground(at)
	v.Centre.X += fixed.X - now.X
	v.Centre.Y += fixed.Y - now.Y
	return v.inBounds()
}

// Fit returns the view that shows all of the points with a margin in pixels. A
// single place is shown at the scale of a room; no point leaves v as it is.
func (v View) Fit(points []network.Point, margin float64) View {
	if len(points) == 0 || v.W <= 0 || v.H <= 0 {
		return v
	}
	low, high := points[0], points[0]
	for _, p := range points {
		low.X, low.Y = min(low.X, p.X), min(low.Y, p.Y)
		high.X, high.Y = max(high.X, p.X), max(high.Y, p.Y)
	}
	v.Centre = network.Point{X: (low.X + high.X) / 2, Y: (low.Y + high.Y) / 2}
	const room = 8 // metres
	w := math.Max(room, (high.X - low.X).Metres())
	h := math.Max(room, (high.Y - low.Y).Metres())
	scale := math.Min(math.Max(1, v.W-2*margin)/w, math.Max(1, v.H-2*margin)/h)
	v.Scale = math.Min(MaxScale, math.Max(MinScale, scale))
	return v.inBounds()
}

// far is how far from the origin a view may look, in metres: as far as a site
// file may place things.
const far = 100000

// inBounds keeps the centre where things can be.
func (v View) inBounds() View {
	hold := func(l unit.Length) unit.Length {
		return unit.Metres(math.Min(far, math.Max(-far, l.Metres())))
	}
	v.Centre = network.Point{X: hold(v.Centre.X), Y: hold(v.Centre.Y)}
	return v
}
