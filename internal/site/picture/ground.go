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

// Dot returns the dot of a picture that lies at a place, the opposite of
// [Ground].
func Dot(u *site.Underlay, size image.Point, p network.Point) (x, y float64) {
	sin, cos := math.Sincos(u.Turn.Radians())
	east, north, scale := (p.X - u.At.X).Metres(), (p.Y - u.At.Y).Metres(), u.Scale.Metres()
	right, up := (east*cos+north*sin)/scale, (north*cos-east*sin)/scale
	return right + float64(size.X)/2, float64(size.Y)/2 - up
}

// Corners returns where the corners of a picture of a size lie: top left, top
// right, bottom right, bottom left as it is looked at.
func Corners(u *site.Underlay, size image.Point) [4]network.Point {
	w, h := float64(size.X), float64(size.Y)
	return [4]network.Point{Ground(u, size, 0, 0), Ground(u, size, w, 0), Ground(u, size, w, h), Ground(u, size, 0, h)}
}

// Contains reports whether a place lies on a picture of a size.
func Contains(u *site.Underlay, size image.Point, p network.Point) bool {
	x, y := Dot(u, size, p)
	return x >= 0 && y >= 0 && x <= float64(size.X) && y <= float64(size.Y)
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
	u.At = around(a, u.At, by, 0)
	return u, check(u)
}

// TurnTo returns an underlay turned about a so that the line from a to b runs at
// an angle to the east, counterclockwise.
func TurnTo(u site.Underlay, a, b network.Point, to unit.Angle) (site.Underlay, error) {
	if _, err := apart(a, b); err != nil {
		return u, err
	}
	by := to - unit.Angle(math.Atan2((b.Y-a.Y).Metres(), (b.X-a.X).Metres()))
	u.Turn = unit.Degrees(math.Mod(math.Mod((u.Turn+by).Degrees(), 360)+360, 360))
	u.At = around(a, u.At, 1, by)
	return u, check(u)
}

// Square returns an underlay turned about a, by as little as may be, so that the
// line from a to b runs along the paper or up it: two points of one wall put a
// crooked scan straight.
func Square(u site.Underlay, a, b network.Point) (site.Underlay, error) {
	now := unit.Angle(math.Atan2((b.Y - a.Y).Metres(), (b.X - a.X).Metres()))
	return TurnTo(u, a, b, unit.QuarterBends(math.Round(now.Degrees()/90)))
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

// around returns p stretched and turned about a centre.
func around(centre, p network.Point, by float64, turn unit.Angle) network.Point {
	sin, cos := math.Sincos(turn.Radians())
	east, north := (p.X-centre.X).Metres()*by, (p.Y-centre.Y).Metres()*by
	return network.Point{
		X: centre.X + unit.Metres(east*cos-north*sin),
		Y: centre.Y + unit.Metres(east*sin+north*cos),
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
