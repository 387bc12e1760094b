package advice

import (
	"context"
	"fmt"
	"slices"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

// Spot is a place for one more spot and what the plan with it comes to.
type Spot struct {
	At   network.Point `json:"at"`
	Area site.AreaID   `json:"area"`
	Row
}

// Effort of the search for spots, in places looked at: as many plans as pipes
// allow.
const (
	mostSpots  = 24
	leastSpots = 4
	spotWork   = 5000
)

// apart is the least distance between two places that are proposed: nearer than
// that, they are one place to a person with a trailer.
const apart = unit.Length(10)

// spots proposes one more spot: it plans the site with a spot at each of the
// places, and returns those that reach more or save minutes, the best first.
func (c *comparison) spots(ctx context.Context) ([]Spot, error) {
	var better []Spot
	for _, at := range c.places {
		with := c.site.Clone()
		e, err := edit.PlaceSpot(with, at.At)
		if err != nil {
			return nil, err
		}
		e.Do(with)
		if at.Row, err = c.with(ctx, placeName(c.site, &at), with, c.tables); err != nil {
			return nil, err
		}
		if at.pays() {
			better = append(better, at)
		}
	}
	slices.SortStableFunc(better, func(a, b Spot) int {
		switch {
		case a.Better(&b.Outcome):
			return -1
		case b.Better(&a.Outcome):
			return 1
		}
		return 0
	})
	var out []Spot
	for _, p := range better {
		if !slices.ContainsFunc(out, func(q Spot) bool { return p.At.Distance(q.At) < apart }) {
			out = append(out, p)
		}
	}
	return out, nil
}

// placeName says where a place is: in which area, and how far from the origin.
func placeName(s *site.Site, p *Spot) string {
	i := slices.IndexFunc(s.Areas, func(a site.Area) bool { return a.ID == p.Area })
	east, north := "east", "north"
	if p.At.X < 0 {
		east = "west"
	}
	if p.At.Y < 0 {
		north = "south"
	}
	return fmt.Sprintf("%s, %s %s and %s %s of the origin", s.Areas[i].Name(),
		s.Units.Length(max(p.At.X, -p.At.X)), east, s.Units.Length(max(p.At.Y, -p.At.Y)), north)
}

// places lists at most so many places for a spot, spread over the stand areas,
// out of keep-clear areas and within the supply hose of a water point.
func places(s *site.Site, most int) (out []Spot) {
	for i := range s.Areas {
		a := &s.Areas[i]
		if a.Kind != site.Stand {
			continue
		}
		low, high := network.Bounds(a.Outline)
		const across = 9
		for x := 1; x <= across; x++ {
			for y := 1; y <= across; y++ {
				at := network.Point{
					X: low.X + (high.X-low.X)*unit.Length(x)/(across+1), Y: low.Y + (high.Y-low.Y)*unit.Length(y)/(across+1),
				}
				if a.Contains(at) && !keptClear(s, at) && watered(s, at) {
					out = append(out, Spot{At: at, Area: a.ID})
				}
			}
		}
	}
	if len(out) <= most {
		return out
	}
	thin := make([]Spot, most)
	for i := range thin {
		thin[i] = out[(2*i+1)*len(out)/(2*most)]
	}
	return thin
}

func keptClear(s *site.Site, at network.Point) bool {
	return slices.ContainsFunc(s.Areas, func(a site.Area) bool { return a.Kind == site.KeepClear && a.Contains(at) })
}

// watered tells whether the supply hose reaches a water point; any place will do
// on a site without one.
func watered(s *site.Site, at network.Point) bool {
	if len(s.Water) == 0 {
		return true
	}
	_, from := s.Inflow(&site.Spot{At: at})
	return from != nil
}
