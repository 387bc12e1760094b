package aim

import (
	"math"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// Heading is a direction on the plan, counterclockwise from east.
type Heading unit.Angle

// Along is the heading from one place to another, false where they are one.
func Along(from, to network.Point) (Heading, bool) {
	dx, dy := (to.X - from.X).Metres(), (to.Y - from.Y).Metres()
	long := math.Hypot(dx, dy)
	if !(long > 0) || math.IsInf(long, 0) {
		return 0, false
	}
	return Heading(math.Atan2(dy, dx)), true
}

// Left is the heading after a turn to the left, or, where it is negative, to
// the right.
func (h Heading) Left(turn unit.Angle) Heading { return h + Heading(turn) }

// Turn is the turn from h to another heading, positive to the left, at most a
// half turn.
func (h Heading) Turn(to Heading) unit.Angle {
	return unit.Angle(math.Remainder(float64(to-h), 2*math.Pi))
}

// Bearing is the heading as surveyors write it: degrees clockwise from north,
// under 360.
func (h Heading) Bearing() float64 {
	d := math.Mod(90-unit.Angle(h).Degrees(), 360)
	if d < 0 {
		d += 360
	}
	return d
}

// FromBearing is the heading of a bearing in degrees.
func FromBearing(degrees float64) Heading { return Heading(unit.Degrees(90 - degrees)) }

// To is the place at a distance from another.
func (h Heading) To(from network.Point, away unit.Length) network.Point {
	sin, cos := math.Sincos(float64(h))
	return tidy(network.Point{X: from.X + away*unit.Length(cos), Y: from.Y + away*unit.Length(sin)})
}

// ahead is how far a place lies ahead of another.
func (h Heading) ahead(from, to network.Point) unit.Length {
	sin, cos := math.Sincos(float64(h))
	return (to.X-from.X)*unit.Length(cos) + (to.Y-from.Y)*unit.Length(sin)
}

// crossing is the place where the line from a place in a heading meets the line
// through q in another, both without end; false where they hardly cross.
func (h Heading) crossing(p network.Point, other Heading, q network.Point) (network.Point, bool) {
	const least = 1e-3 // the sine of a twentieth of a degree
	sin, cos := math.Sincos(float64(h))
	sin2, cos2 := math.Sincos(float64(other))
	det := cos*sin2 - sin*cos2
	if !(math.Abs(det) > least) {
		return network.Point{}, false
	}
	t := ((q.X-p.X).Metres()*sin2 - (q.Y-p.Y).Metres()*cos2) / det
	return network.Point{X: p.X + unit.Length(t*cos), Y: p.Y + unit.Length(t*sin)}, true
}
