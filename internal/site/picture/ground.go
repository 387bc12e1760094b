package picture

import (
	"errors"
	"fmt"
	"image"
	"math"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// Ground returns the place on the ground of a dot of a picture of a size, x from
// its left and y from its top edge.
func Ground(u *site.Underlay, size image.Point, x, y float64) network.Point {
	right, up := x-float64(size.X)/2, float64(size.Y)/2-y
	sin, cos := math.Sincos(u.Turn.Radians())
	scale := u.Scale.Metres()
	return network.Point{
		X: u.At.X + unit.Metres(scale*(right*cos-up*sin)),
		Y: u.At.Y + unit.Metres(scale*(right*sin+up*cos)),
	}
}

// Fit returns the scale at which a picture of a size just fits into a width and
// a height on the ground.
func Fit(size image.Point, w, h unit.Length) unit.Length {
	return min(w/unit.Length(max(size.X, 1)), h/unit.Length(max(size.Y, 1)))
}

var (
	errOnePoint = errors.New("the two points are one: click two that lie apart")
	errNowhere  = errors.New("the points lie nowhere on the drawing")
)

// Rescale returns an underlay whose points now at a and b are a real distance
// apart. The point at a stays where it is.
func Rescale(u site.Underlay, a, b network.Point, real unit.Length) (site.Underlay, error) {
	now, err := apart(a, b)
	if err != nil {
		return u, err
	}
	if !(real > 0) || math.IsInf(real.Metres(), 0) {
		return u, errors.New("the distance between the two points must be above 0")
	}
	by := real.Metres() / now.Metres()
	u.Scale = unit.Metres(u.Scale.Metres() * by)
	u.At = network.Point{
		X: a.X + unit.Metres((u.At.X-a.X).Metres()*by),
		Y: a.Y + unit.Metres((u.At.Y-a.Y).Metres()*by),
	}
	return u, check(u)
}

func apart(a, b network.Point) (unit.Length, error) {
	switch d := a.Distance(b); {
	case math.IsNaN(d.Metres()) || math.IsInf(d.Metres(), 0):
		return 0, errNowhere
	case d == 0:
		return 0, errOnePoint
	default:
		return d, nil
	}
}

// check says what no document could keep. It leaves the picture's bytes out:
// they have not changed.
func check(u site.Underlay) error {
	u.ID, u.Data, u.File = "u", nil, "u.png"
	if err := site.Check(u); err != nil {
		return fmt.Errorf("the picture would not fit the drawing: %w", err)
	}
	return nil
}
