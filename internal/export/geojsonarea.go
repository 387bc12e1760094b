package export

import (
	"math"
	"slices"

	"linemap/internal/network"
	"linemap/internal/site"
)

// areas adds what the ground is for.
func (c *collection) areas() {
	const fine = 100 // a hundredth of a square metre
	for i := range c.site.Areas {
		a := &c.site.Areas[i]
		c.add("area/"+string(a.ID), c.polygon(a.Outline), areaProperties{
			Kind: "area", Key: a.ID, Name: a.Label, Area: a.Kind,
			Ground: math.Round(site.AreaOf(a.Outline).SquareMetres()*fine) / fine, Note: a.Note,
		})
	}
}

type areaProperties struct {
	Kind   string        `json:"kind"`
	Key    site.AreaID   `json:"key"`
	Name   string        `json:"name"`
	Area   site.AreaKind `json:"area"`
	Ground float64       `json:"ground_m2"`
	Note   string        `json:"note,omitzero"`
}

// polygon is the ground within an outline, counterclockwise (RFC 7946, section
// 3.1.6), nil for an outline of fewer than three corners. One that crosses the
// antimeridian is cut there (section 3.1.9).
func (c *collection) polygon(outline []network.Point) *geometry {
	if len(outline) < 3 {
		return nil
	}
	ring := make([]position, len(outline))
	for i, p := range outline {
		ring[i] = c.position(p)
		if i > 0 { // on without a jump
			ring[i][0] += 360 * math.Round((ring[i-1][0]-ring[i][0])/360)
		}
	}
	if turning(ring) < 0 {
		slices.Reverse(ring)
	}
	var parts [][][]position
	for _, turn := range []float64{-360, 0, 360} {
		part := ring
		for _, edge := range []float64{-180, 180} {
			part = westOrEast(part, edge+turn, edge < 0)
		}
		if len(part) < 3 || turning(part) == 0 {
			continue
		}
		shifted := make([]position, 0, len(part)+1)
		for _, p := range part {
			shifted = append(shifted, position{p[0] - turn, p[1]})
		}
		parts = append(parts, [][]position{append(shifted, shifted[0])})
	}
	switch len(parts) {
	case 0: // no ground at all, but a place
		return &geometry{"Polygon", [][]position{append(ring, ring[0])}}
	case 1:
		return &geometry{"Polygon", parts[0]}
	}
	return &geometry{"MultiPolygon", parts}
}

// turning is twice the area of a ring in square degrees, above 0 where it runs
// counterclockwise.
func turning(ring []position) (sum float64) {
	for i := 2; i < len(ring); i++ {
		a, b, o := ring[i-1], ring[i], ring[0]
		sum += (a[0]-o[0])*(b[1]-o[1]) - (b[0]-o[0])*(a[1]-o[1])
	}
	return sum
}

// westOrEast is the part of a ring to the west of a meridian, or to the east of
// it (Sutherland and Hodgman).
func westOrEast(ring []position, meridian float64, east bool) []position {
	in := func(p position) bool { return (p[0] >= meridian) == east || p[0] == meridian }
	var out []position
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		if in(p) {
			out = append(out, p)
		}
		if in(p) != in(q) && p[0] != meridian && q[0] != meridian {
			out = append(out, position{meridian, p[1] + (meridian-p[0])/(q[0]-p[0])*(q[1]-p[1])})
		}
	}
	return out
}
