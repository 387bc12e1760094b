package site

import (
	"math"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// Geo says where on Earth a site lies, in the coordinates of WGS 84.
type Geo struct {
	// Latitude (north above 0) and Longitude (east above 0) are those of the
	// site's origin.
	Latitude  unit.Angle `json:"latitude"`
	Longitude unit.Angle `json:"longitude"`
	// Bearing is where the site's y axis points, clockwise from true north.
	Bearing unit.Angle `json:"bearing"`
}

// On returns the latitude and longitude of a place of the site, the longitude
// from -180 to 180 degrees. The plan is laid on the ellipsoid so that the way
// from the origin keeps its length and bearing; what lies across that way comes
// out short, by 0.4 mm per km at 10 km from the origin and less nearer to it
// (the square of distance over Earth's radius, by 6).
func (g Geo) On(p network.Point) (latitude, longitude unit.Angle) {
	x, y := p.X.Metres(), p.Y.Metres()
	lat, lon := ahead(g.Latitude.Radians(), math.Atan2(x, y)+g.Bearing.Radians(), math.Hypot(x, y))
	lon = math.Remainder(g.Longitude.Radians()+lon, 2*math.Pi)
	return unit.Angle(lat), unit.Angle(lon)
}

// The ellipsoid of WGS 84 (NGA.STND.0036, table 3.1): half its long axis in
// metres, and its flattening.
const (
	longRadius = 6378137.0
	flattening = 1 / 298.257223563
)

// ahead returns the latitude of the place that is some metres ahead, on a
// bearing, of one at a latitude, and how much farther east it lies. All angles
// are in radians. It is T. Vincenty's direct solution, "Direct and inverse
// solutions of geodesics on the ellipsoid", Survey Review XXIII 176 (1975),
// equations 1 to 11, good to less than a millimetre at any distance.
func ahead(latitude, bearing, metres float64) (lat, east float64) {
	const shortRadius = longRadius * (1 - flattening)
	sin1, cos1 := math.Sincos(bearing)
	tanU := (1 - flattening) * math.Tan(latitude)
	cosU := 1 / math.Hypot(1, tanU)
	sinU := tanU * cosU
	first := math.Atan2(tanU, cos1) // from the equator to the start
	sinA := cosU * sin1
	cos2A := 1 - sinA*sinA
	u2 := cos2A * (longRadius*longRadius/(shortRadius*shortRadius) - 1)
	a := 1 + u2/16384*(4096+u2*(-768+u2*(320-175*u2)))
	b := u2 / 1024 * (256 + u2*(-128+u2*(74-47*u2)))
	way := metres / (shortRadius * a) // the angular distance
	var sin, cos, mid float64
	for range 10 { // three rounds are enough on a building's scale
		sin, cos = math.Sincos(way)
		mid = math.Cos(2*first + way)
		off := b * sin * (mid + b/4*(cos*(2*mid*mid-1)-b/6*mid*(4*sin*sin-3)*(4*mid*mid-3)))
		next := metres/(shortRadius*a) + off
		if math.Abs(next-way) < 1e-15 {
			break
		}
		way = next
	}
	sin, cos = math.Sincos(way)
	mid = math.Cos(2*first + way)
	lat = math.Atan2(sinU*cos+cosU*sin*cos1, (1-flattening)*math.Hypot(sinA, sinU*sin-cosU*cos*cos1))
	sphere := math.Atan2(sin*sin1, cosU*cos-sinU*sin*cos1)
	c := flattening / 16 * cos2A * (4 + flattening*(4-3*cos2A))
	return lat, sphere - (1-c)*flattening*sinA*(way+c*sin*(mid+c*cos*(2*mid*mid-1)))
}
